"""Whether a wild boar may leave its hold: a laboratory's reference, a negative result, a second person.

A negative result is about Trichinella and nothing else. A positive one locks the animal and everything
made from it; this module says what to do, and the authority says what becomes of it.
"""

from __future__ import annotations

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.boar import positive_steps
from gametrace.facts.papers import NamedRule, named_rule
from gametrace.facts.sources import citation

AWAITED, NEGATIVE, POSITIVE = "awaited", "negative", "positive"
RESULTS = (AWAITED, NEGATIVE, POSITIVE)

_HOLD = (
    "Hold the whole beast, head, diaphragm, offal and every cut, until the laboratory's reference and "
    "a negative result are entered."
)
_LOCK = "Keep the whole beast and everything cut from it apart, and ring the local authority and a vet."


def boar_findings(
    result: str, reference: str, entered_by: str = "", held_by: str = ""
) -> tuple[Finding, ...]:
    """One finding: awaited, entered by the same person, negative, or positive.

    `held_by` is who put the boar on hold and `entered_by` who enters the result. Where nobody's name is
    given the papers alone are judged, as beside the form at the door; a release gives both.
    """
    if result not in RESULTS:
        raise ValueError(f"A boar's result is one of {', '.join(RESULTS)}.")
    rule = named_rule("boar-trichinella")
    if result == POSITIVE:
        sentence = "The laboratory found Trichinella in this boar."
        return (_stop("boar-result-positive", sentence, _LOCK, rule),)
    if not is_cleared(result, reference):
        sentence = (
            "A wild boar waits for its Trichinella result in writing; freezing does not take its place."
        )
        if result == NEGATIVE:
            sentence = f"{sentence} A negative result was entered without the laboratory's reference."
        return (_stop("boar-result-awaited", sentence, _HOLD, rule),)
    if held_by.strip() and _same(entered_by, held_by):
        sentence = "The result was entered by the person who holds the boar, or by nobody named."
        ask = "A second person reads the laboratory's paper and enters it."
        return (_stop("boar-second-person", sentence, ask, rule),)
    sentence = f"Trichinella: negative in writing, laboratory reference {reference.strip()}."
    return (Finding("boar-result-negative", Severity.NOTE, sentence, "", citation(rule.source), rule.status),)


def is_cleared(result: str, reference: str) -> bool:
    """A negative result counts only with the laboratory's reference."""
    return result == NEGATIVE and bool(reference.strip())


def is_locked(result: str) -> bool:
    """A positive result locks the animal for ever; no second person can release it."""
    return result == POSITIVE


def what_to_do_when_positive() -> tuple[str, ...]:
    """The steps to print, in order."""
    return tuple(step.name for step in positive_steps())


def _same(entered_by: str, held_by: str) -> bool:
    """A result with no name beside it counts as the holder's own."""
    one, other = (" ".join(name.split()).casefold() for name in (entered_by, held_by))
    return not one or one == other


def _stop(code: str, sentence: str, what_to_do: str, rule: NamedRule) -> Finding:
    return Finding(code, Severity.STOP, sentence, what_to_do, citation(rule.source), rule.status)
