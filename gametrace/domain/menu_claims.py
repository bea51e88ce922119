"""What a menu says of its game, held against the record of every animal in the pot, with its share.

A word is printed only where it is shown for all of them. It judges what is recorded, not what is true:
a supplier may have been wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.yields import percent_text
from gametrace.facts.menu import claim_word, lead_advice
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called

VENISON = "venison"  # any deer


class Answer(StrEnum):
    """What the records say of a claim, the best first."""

    SHOWN = "shown"
    NOT_SHOWN = "not shown"
    CONTRADICTED = "contradicted"


@dataclass(frozen=True, slots=True)
class AnimalInPot:
    """One animal, its exact share of the meat, and what its record says; '' or None where it says nothing.

    `places`: every name the record gives for where it was killed, from ground to country.
    `ammunition`: 'lead', 'not lead' or ''.
    """

    number: str
    share: Fraction
    species: str = ""
    origin: str = ""
    places: tuple[str, ...] = ()
    ammunition: str = ""
    hung_days: int | None = None


@dataclass(frozen=True, slots=True)
class Claim:
    """What the menu wants to say: a kind of `facts.menu.CLAIMS`, and its word or number of days."""

    kind: str
    value: str = ""


@dataclass(frozen=True, slots=True)
class AnimalAnswer:
    """The answer for one animal and why."""

    number: str
    share: Fraction
    answer: Answer
    why: str


@dataclass(frozen=True, slots=True)
class ClaimRuling:
    """A claim judged for every animal. It stands only where each one shows it."""

    claim: Claim
    answers: tuple[AnimalAnswer, ...]

    def share(self, answer: Answer) -> Fraction:
        """How much of the meat has this answer."""
        return sum((one.share for one in self.answers if one.answer == answer), Fraction(0))

    @property
    def verdict(self) -> Answer:
        for worst in (Answer.CONTRADICTED, Answer.NOT_SHOWN):
            if any(one.answer == worst for one in self.answers):
                return worst
        return Answer.SHOWN if self.answers else Answer.NOT_SHOWN

    def finding(self) -> Finding:
        """The ruling as a sentence: a note, an ask where it is not shown, a stop where it is contradicted."""
        word = claim_word(self.claim.kind)
        said = ", ".join(
            f"{answer.value} for {percent_text(self.share(answer))}"
            for answer in Answer
            if self.share(answer)
        )
        sentence = f"“{claim_text(self.claim)}”: {said or 'no animal is known'}."
        against = " ".join(one.why for one in self.answers if one.answer != Answer.SHOWN)
        ask = "" if self.verdict == Answer.SHOWN else "Leave the words off the menu, or complete the record."
        return Finding(
            f"claim-{self.verdict.value.replace(' ', '-')}",
            _SEVERITIES[self.verdict],
            f"{sentence} {against}".strip(),
            ask,
            citation(word.source),
            word.status,
        )


_SEVERITIES = {
    Answer.SHOWN: Severity.NOTE,
    Answer.NOT_SHOWN: Severity.ASK,
    Answer.CONTRADICTED: Severity.STOP,
}


def claim_text(claim: Claim) -> str:
    """The claim as a menu says it."""
    if claim.kind == "hung":
        return f"hung {claim.value} days"
    return claim.value if claim.kind in ("species", "place") else claim_word(claim.kind).name


def judge_claim(claim: Claim, animals: Sequence[AnimalInPot]) -> ClaimRuling:
    """The claim held against each animal's record."""
    claim_word(claim.kind)  # an unknown kind is refused even over an empty pot
    judge = _JUDGES.get(claim.kind, _by_words)
    answers = tuple(
        AnimalAnswer(animal.number, animal.share, *judge(claim, animal)) for animal in animals if animal.share
    )
    return ClaimRuling(claim, answers)


_Judged = tuple[Answer, str]


def _by_words(claim: Claim, animal: AnimalInPot) -> _Judged:
    """Origin and ammunition: the recorded word shows it, contradicts it, or does neither."""
    word = claim_word(claim.kind)
    recorded = animal.ammunition if claim.kind == "no-lead" else animal.origin
    if recorded in word.shown_by:
        return Answer.SHOWN, f"{animal.number}: recorded as {recorded}."
    if recorded in word.contradicted_by:
        return Answer.CONTRADICTED, f"{animal.number} is recorded as {recorded}."
    return Answer.NOT_SHOWN, f"{animal.number}: {recorded or 'nothing'} recorded, which does not show it."


def _species(claim: Claim, animal: AnimalInPot) -> _Judged:
    if not animal.species:
        return Answer.NOT_SHOWN, f"{animal.number}: no species is recorded."
    kind = species_called(animal.species)
    said = f"{animal.number} is recorded as {kind.name}."
    if claim.value.strip().lower() == VENISON:
        return (Answer.SHOWN if kind.deer else Answer.CONTRADICTED), said
    wanted = species_called(claim.value)
    return (Answer.SHOWN if kind.id == wanted.id else Answer.CONTRADICTED), said


def _place(claim: Claim, animal: AnimalInPot) -> _Judged:
    """Another place on record does not contradict: the one may lie within the other."""
    if _plain(claim.value) in {_plain(place) for place in animal.places} - {""}:
        return Answer.SHOWN, f"{animal.number}: killed there by the record."
    recorded = ", ".join(place for place in animal.places if place.strip())
    said = f"the record says {recorded}" if recorded else "no place is recorded"
    return Answer.NOT_SHOWN, f"{animal.number}: {said}."


def _hung(claim: Claim, animal: AnimalInPot) -> _Judged:
    if not (claim.value.isascii() and claim.value.isdigit()):
        raise ValueError("days hung are a whole number")
    if animal.hung_days is None:
        return Answer.NOT_SHOWN, f"{animal.number}: its days of hanging are not recorded."
    enough = animal.hung_days >= int(claim.value)
    said = f"{animal.number} hung {animal.hung_days} days by the record."
    return (Answer.SHOWN if enough else Answer.CONTRADICTED), said


_JUDGES: dict[str, Callable[[Claim, AnimalInPot], _Judged]] = {
    "species": _species,
    "place": _place,
    "hung": _hung,
}


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def lead_findings(animals: Sequence[AnimalInPot]) -> tuple[Finding, ...]:
    """The food authority's advice, with shares, where any of the meat was shot with lead or nobody said."""
    lead = _share(animal for animal in animals if animal.ammunition == "lead")
    unknown = _share(animal for animal in animals if animal.ammunition not in ("lead", "not lead"))
    if not lead and not unknown:
        return ()
    said = " and ".join(
        f"{words} for {percent_text(share)}"
        for words, share in (("lead", lead), ("not stated", unknown))
        if share
    )
    advice = lead_advice()
    return (
        Finding(
            "lead-advice",
            Severity.NOTE,
            f"Ammunition: {said} of the meat. {advice.note}",
            "Tell guests who ask; cut well away from the wound.",
            citation(advice.source),
            advice.status,
        ),
    )


def _share(animals: Iterable[AnimalInPot]) -> Fraction:
    return sum((animal.share for animal in animals), Fraction(0))
