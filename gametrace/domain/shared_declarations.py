"""One declaration for several bodies: what each must have on it, and that no body is there twice.

It reads the paper only. Whether all the bodies went to one establishment is for the hunter to keep; what
came to this door is all that is known here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.papers import named_rule
from gametrace.facts.sources import citation


@dataclass(frozen=True, slots=True)
class DeclaredBody:
    """One body as the declaration lists it: its own number, day, time and place of killing."""

    number: str = ""
    killed_on: date | None = None
    kill_time: str = ""
    kill_place: str = ""

    @property
    def gaps(self) -> tuple[str, ...]:
        """What the declaration does not say of this body."""
        said = (
            ("its number", bool(self.number.strip())),
            ("the day", self.killed_on is not None),
            ("the time", bool(self.kill_time.strip())),
            ("the place", bool(self.kill_place.strip())),
        )
        return tuple(name for name, is_said in said if not is_said)


def shared_declaration_findings(
    declaration_number: str, bodies: Sequence[DeclaredBody]
) -> tuple[Finding, ...]:
    """What is missing body by body, and numbers listed twice; nothing where one body is listed."""
    if len(bodies) < 2:
        return ()
    rule = named_rule("one-declaration-many-bodies")
    source, called = citation(rule.source), declaration_number.strip() or "without a number"
    findings = []
    twice = _twice(bodies)
    if twice:
        sentence = f"Declaration {called} lists a body twice: {', '.join(twice)}."
        ask = "Read the numbers on the bodies and on the card again."
        findings.append(Finding("declaration-body-twice", Severity.ASK, sentence, ask, source, rule.status))
    gaps = [_line(place, body) for place, body in enumerate(bodies, 1) if body.gaps]
    if gaps:
        sentence = (
            f"Declaration {called} covers {len(bodies)} bodies and lacks: {'; '.join(gaps)}. {rule.note}"
        )
        ask = "Ring the hunter; write down the answer, who took it and when."
        findings.append(Finding("declaration-body-gaps", Severity.ASK, sentence, ask, source, rule.status))
    return tuple(findings)


def _twice(bodies: Sequence[DeclaredBody]) -> tuple[str, ...]:
    counted = Counter(body.number.strip().casefold() for body in bodies if body.number.strip())
    return tuple(number for number, times in counted.items() if times > 1)


def _line(place: int, body: DeclaredBody) -> str:
    called = f"body {body.number.strip()}" if body.number.strip() else f"the body in line {place}"
    return f"{called}, {' and '.join(body.gaps)}"
