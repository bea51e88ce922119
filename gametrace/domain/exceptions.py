"""Whether a licence or exception given by the supplier answers a stop, and the words for it.

It takes the supplier's word down and names the rule; it does not know whether the licence is genuine.
"""

from __future__ import annotations

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.exceptions import ExceptionType, exception_type
from gametrace.facts.sources import citation

# What was given at the door: the type's id and its number, or the words that stand in for a number.
Given = tuple[str, str]

_ANSWERED = ("season-closed", "season-unclear", "night-kill", "night-unclear")


def answered_by(
    finding: Finding, exception: Given | None, *, lifts: str, species: str, where: str
) -> Finding:
    """The finding, or a note in its place where the exception given lifts that rule.

    An exception that does not lift it leaves the finding standing and says why.
    """
    if exception is None or finding.code not in _ANSWERED:
        return finding
    reason = exception_type(exception[0])
    number = exception[1].strip()
    gap = _gap(reason, number, lifts, species, where)
    if gap:
        return Finding(
            finding.code,
            finding.severity,
            f"{finding.sentence} The {reason.name} that was given does not answer it: {gap}.",
            finding.what_to_do,
            finding.source,
            finding.status,
        )
    return _given(finding, reason, number)


def _gap(reason: ExceptionType, number: str, lifts: str, species: str, where: str) -> str:
    """Why the reason does not answer the rule; empty where it does."""
    if reason.jurisdiction != where:
        return "it belongs to another jurisdiction"
    if not reason.is_for(species):
        return "it is not for this animal"
    if lifts not in reason.lifts:
        return "it lifts the close season only" if lifts == "night" else "it lifts the night rule only"
    if not number:
        return "its number is missing" if reason.needs_number else f"it still wants {reason.asks}"
    return ""


def _given(finding: Finding, reason: ExceptionType, number: str) -> Finding:
    said = f"number {number}" if reason.needs_number else number
    sentence = f"{finding.sentence} Given for it: {reason.name}, {said}."
    if reason.note:
        sentence = f"{sentence} {reason.note}"
    return Finding(
        "exception-given",
        Severity.NOTE,
        sentence,
        "Keep a picture of it with the carcass; it is the supplier's word.",
        f"{citation(reason.source)}; {finding.source}",
        reason.status,
    )
