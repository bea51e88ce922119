"""What the answers of an examination mean: asked about, held, or everything stopped.

It takes 'not present' for what was not there and never 'normal'. It makes no diagnosis: a suspicion goes
to the authority and a vet, and nothing here calls a carcass good.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.examination import Point, contact_for, point, points_for, steps_on_suspicion
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called


class Look(StrEnum):
    """What was seen at one point."""

    AS_IT_SHOULD_BE = "as it should be"
    NOT_SO = "not so"
    NOT_PRESENT = "not present"
    NOT_LOOKED_AT = "not looked at"


@dataclass(frozen=True, slots=True)
class Answered:
    """The answer at one point, with what was seen where it is not as it should be."""

    point: str
    answer: str
    note: str = ""

    def __post_init__(self) -> None:
        point(self.point)
        Look(self.answer)  # ValueError for a word that is no answer


@dataclass(frozen=True, slots=True)
class _Body:
    """What came to the door, and so what could be looked at."""

    head_on: bool
    pluck_in: bool
    in_skin: bool
    gut_in: bool

    def shows(self, one: Point) -> bool:
        return {
            "none": True,
            "head": self.head_on,
            "pluck": self.pluck_in,
            "skin-on": self.in_skin,
            "gut": self.gut_in,
        }[one.needs]


def points_to_look_at(species: str) -> tuple[Point, ...]:
    """Everything asked of that kind, in the order of the body."""
    return points_for(species_called(species).group)


def points_left(answers: Sequence[Answered], *, species: str) -> tuple[Point, ...]:
    """What has no answer yet; 'not looked at' is an answer."""
    answered = {one.point for one in answers}
    return tuple(one for one in points_to_look_at(species) if one.id not in answered)


def answers_for_what_is_absent(
    *, species: str, head_on: bool, pluck_in: bool, in_skin: bool = True, gut_in: bool = False
) -> tuple[Answered, ...]:
    """'Not present' for every point that cannot be looked at, to fill in for the person."""
    body = _Body(head_on, pluck_in, in_skin, gut_in)
    return tuple(
        Answered(one.id, Look.NOT_PRESENT) for one in points_to_look_at(species) if not body.shows(one)
    )


def examination_findings(
    answers: Sequence[Answered],
    *,
    head_on: bool,
    pluck_in: bool,
    species: str,
    jurisdiction: str,
    in_skin: bool = True,
    gut_in: bool = False,
) -> tuple[Finding, ...]:
    """What the answers give reason to say, stops first; nothing where nothing was answered.

    With the jurisdiction not set up yet ('') the stop names no number. The last answer at a point counts.
    """
    asked = {one.id: one for one in points_to_look_at(species)}
    body = _Body(head_on, pluck_in, in_skin, gut_in)
    latest = {one.point: one for one in answers if one.point in asked}
    stops: list[Finding] = []
    asks: list[Finding] = []
    for one in asked.values():
        if one.id not in latest:
            continue
        for finding in _at_point(one, latest[one.id], body, jurisdiction):
            (stops if finding.severity is Severity.STOP else asks).append(finding)
    return (*stops, *asks, *_not_looked_at(tuple(asked[i] for i, a in latest.items() if _skipped(a))))


def _skipped(given: Answered) -> bool:
    return given.answer == Look.NOT_LOOKED_AT


def _at_point(one: Point, given: Answered, body: _Body, jurisdiction: str) -> list[Finding]:
    answer = Look(given.answer)
    if not body.shows(one) and answer in (Look.AS_IT_SHOULD_BE, Look.NOT_SO):
        return [_cannot_have_been(one)]
    if body.shows(one) and answer is Look.NOT_PRESENT and one.id != "renal":
        return [_said_not_present(one)]
    if answer is not Look.NOT_SO:
        return []
    return [_suspicion(one, given, jurisdiction) if one.kind == "sign" else _not_so(one, given)]


def _cannot_have_been(one: Point) -> Finding:
    missing = {"head": "the head", "pluck": "the pluck", "skin-on": "the skin", "gut": "the gut"}[one.needs]
    return Finding(
        "cannot-have-been-looked-at",
        Severity.STOP,
        f"{_start(one)} cannot have been looked at: {missing} did not come with the body.",
        "Answer 'not present', or correct what came with the body.",
        citation(one.source),
        one.status,
    )


def _said_not_present(one: Point) -> Finding:
    there = "it can be looked at on any body" if one.needs == "none" else "what it needs came with the body"
    return Finding(
        "said-not-present",
        Severity.ASK,
        f"{_start(one)} is answered 'not present', yet {there}.",
        "Look at it, or answer 'not looked at', or say why it is not there.",
        citation(one.source),
        one.status,
    )


def _suspicion(one: Point, given: Answered, jurisdiction: str) -> Finding:
    """The stop of the stop page. Its words are the page's: keep everything, ring, dispose of nothing."""
    steps = " ".join(step.name for step in steps_on_suspicion()[:3])
    sources = [citation(one.source)]
    if jurisdiction:
        sources.append(citation(contact_for(jurisdiction).source))
    return Finding(
        "notifiable-suspicion",
        Severity.STOP,
        f"A sign of {one.name} was seen{_told(given)}. Looked for: {one.not_so}. {one.note}".strip(),
        f"{steps} {whom_to_ring(jurisdiction)}".strip(),
        "; ".join(sources),
        one.status,
    )


def whom_to_ring(jurisdiction: str) -> str:
    """The authority and its number in one line; empty before the jurisdiction is set up."""
    if not jurisdiction:
        return ""
    contact = contact_for(jurisdiction)
    number = f": {contact.telephone}" if contact.telephone else ""
    return f"{contact.name}{number}. {contact.note}"


def what_to_do_on_suspicion() -> tuple[str, ...]:
    """Every step of the stop page, in order."""
    return tuple(step.name for step in steps_on_suspicion())


def _not_so(one: Point, given: Answered) -> Finding:
    severity = Severity.STOP if one.if_not_so == "stop" else Severity.ASK
    if one.kind == "node":
        ask = "Hold it; do not cut the node. Look at the other nodes, and ask a vet. " + (
            "Lumps or pus that nothing explains are a sign of tuberculosis: answer that sign as well."
        )
    elif severity is Severity.STOP:
        ask = "Hold it apart, say what was seen, and ask a vet or the local authority."
    else:
        ask = "Say what was seen and where; trim it, hold it or refuse it."
    if not given.note.strip():
        ask = f"Write down what was seen. {ask}"
    sentence = f"{_start(one)}: not as it should be{_told(given)}. It should be {one.as_it_should_be}."
    if one.note:
        sentence = f"{sentence} {one.note}"
    return Finding(
        "examination-not-so",
        severity,
        sentence,
        ask,
        citation(one.source),
        one.status,
    )


def _not_looked_at(skipped: tuple[Point, ...]) -> tuple[Finding, ...]:
    """One question for everything that was passed over."""
    if not skipped:
        return ()
    sentence = f"Not looked at: {', '.join(one.name for one in skipped)}."
    sources = "; ".join(dict.fromkeys(citation(one.source) for one in skipped))
    status = "; ".join(dict.fromkeys(one.status for one in skipped))
    ask = "Look now, or say why it was not looked at."
    return (Finding("not-looked-at", Severity.ASK, sentence, ask, sources, status),)


def _told(given: Answered) -> str:
    said = " ".join(given.note.split())
    return f" ({said})" if said else ""


def _start(one: Point) -> str:
    words = f"Node {one.name}" if one.kind == "node" else one.name
    return words[0].upper() + words[1:]
