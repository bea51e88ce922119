"""Two kinds of deer that are taken for each other, mark by mark.

What each usually shows where they differ, and whether the two may overlap there. It settles nothing: the
pair's own sentence says what splits them, or that nothing does.
"""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.findings import rests_on
from gametrace.facts.identification import (
    LookAlikes,
    Question,
    Trait,
    all_look_alikes,
    question,
    traits_of,
)
from gametrace.facts.loading import one_of
from gametrace.facts.sources import citation


@dataclass(frozen=True, slots=True)
class Shown:
    """What one of the two shows at one question: answers, the usual first, and the same in words."""

    answers: tuple[str, ...]
    words: str
    rests_on: str


@dataclass(frozen=True, slots=True)
class Difference:
    """A question at which the two usually differ. `may_overlap`: either may at times show the other's."""

    question: str
    asks: str
    one: Shown
    other: Shown
    may_overlap: bool


def pair_called(pair_id: str) -> LookAlikes:
    """The pair with this id."""
    for one in all_look_alikes():
        if one.id == pair_id:
            return one
    raise one_of("pair", pair_id, tuple(one.id for one in all_look_alikes()))


def differences(pair: LookAlikes) -> tuple[Difference, ...]:
    """Every question at which the two usually differ, the most telling first."""
    one, other = ({shown.question: shown for shown in traits_of(kind)} for kind in pair.species)
    found = [
        made
        for name, trait in one.items()
        if name in other and (made := _difference(pair, trait, other[name])) is not None
    ]
    return tuple(sorted(found, key=_overlaps))


def _overlaps(one: Difference) -> bool:
    return one.may_overlap


def _difference(pair: LookAlikes, one: Trait, other: Trait) -> Difference | None:
    usual_one, usual_other = _usual(pair, one), _usual(pair, other)
    if set(usual_one) & set(usual_other):
        return None
    asked = question(one.question)
    ever_one, ever_other = {*usual_one, *_possible(pair, one)}, {*usual_other, *_possible(pair, other)}
    return Difference(
        question=asked.id,
        asks=asked.asks,
        one=_shown(asked, one, usual_one),
        other=_shown(asked, other, usual_other),
        may_overlap=bool(ever_one & ever_other),
    )


def _usual(pair: LookAlikes, trait: Trait) -> tuple[str, ...]:
    for one in pair.seen_as:
        if (one.species, one.question) == (trait.species, trait.question):
            return one.answers
    return trait.usual


def _possible(pair: LookAlikes, trait: Trait) -> tuple[str, ...]:
    """The animals a pair names (a doe, a kid) are not all of their kind: what they show is said whole."""
    is_said = any((one.species, one.question) == (trait.species, trait.question) for one in pair.seen_as)
    return () if is_said else trait.possible


def _shown(asked: Question, trait: Trait, answers: tuple[str, ...]) -> Shown:
    words = "; or ".join(asked.words(answer) for answer in answers)
    return Shown(answers, words[0].upper() + words[1:] + ".", rests_on(citation(trait.source), trait.status))
