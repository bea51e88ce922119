"""Which deer a carcass may be, by what is seen on it: each kind with what fits and what speaks against it.

It ranks and explains and is never certain. A skinned body without its head has no marks left, and a
hybrid cannot be settled by eye: then the paper says what the supplier declared.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from gametrace.domain.findings import rests_on
from gametrace.facts.identification import (
    Lost,
    Question,
    Trait,
    hybrids,
    look_alikes,
    question,
    questions,
    traits,
    traits_of,
    what_is_lost,
)
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called


@dataclass(frozen=True, slots=True)
class Candidate:
    """One kind, with sentences for and against. `fits` and `against` are what the answers showed."""

    species: str
    name: str
    fits: tuple[str, ...]
    possible: tuple[str, ...]
    against: tuple[str, ...]
    words: str
    source: str
    status: str
    rests: tuple[str, ...]  # 'Tail, flank: the source (read there).', one for each source and standing


@dataclass(frozen=True, slots=True)
class _Weighed:
    kind: str
    fits: tuple[Trait, ...]
    possible: tuple[Trait, ...]
    against: tuple[Trait, ...]

    @property
    def rank(self) -> tuple[int, int]:
        """Fewest against first, then most that fit."""
        return len(self.against), -len(self.fits)


def questions_left(answers: Mapping[str, str], *, in_skin: bool, head_on: bool) -> tuple[Question, ...]:
    """What can still be asked of such a body, the most telling first."""
    return tuple(one for one in _askable(in_skin, head_on) if one.id not in answers)


def _askable(in_skin: bool, head_on: bool) -> tuple[Question, ...]:
    """Once skin and head are gone only size is left, and size alone tells nothing."""
    if not in_skin and not head_on:
        return ()
    there = {"none": True, "skin": in_skin, "head": head_on}
    return tuple(one for one in questions() if there[one.needs])


def candidates(
    answers: Mapping[str, str], *, in_skin: bool = True, head_on: bool = True
) -> tuple[Candidate, ...]:
    """Every kind ranked by the answers (question id to answer id); none where nothing can be told.

    Answers that such a body cannot give are left out. Kinds that come out alike keep the order of the list.
    """
    for name, answer in answers.items():
        question(name).words(answer)
    askable = {one.id for one in _askable(in_skin, head_on)}
    used = {name: answer for name, answer in answers.items() if name in askable}
    if not used:
        return ()
    kinds = dict.fromkeys(one.species for one in traits())
    weighed = sorted((_weigh(kind, used) for kind in kinds), key=lambda one: one.rank)
    found = [_candidate(one, used) for one in weighed]
    return tuple(found + [_hybrid(one, used) for one in _hybrids_in_question(weighed)])


def _weigh(kind: str, answers: Mapping[str, str]) -> _Weighed:
    seen = [one for one in traits_of(kind) if one.question in answers]
    fits = tuple(one for one in seen if answers[one.question] in one.usual)
    possible = tuple(one for one in seen if answers[one.question] in one.possible)
    against = tuple(one for one in seen if one not in fits and one not in possible)
    return _Weighed(kind, fits, possible, against)


def _candidate(one: _Weighed, answers: Mapping[str, str]) -> Candidate:
    kind = species_called(one.kind)
    told = [
        f"{len(one.fits)} of {len(answers)} answers are usual in {kind.name}",
        f"{len(one.against)} {'speaks' if len(one.against) == 1 else 'speak'} against it",
    ]
    words = f"{', '.join(told)}. By eye only: never certain."
    alike = look_alikes(one.kind)
    if alike and not one.against:
        words = f"{words} Look-alikes: {' '.join(pair.split_by for pair in alike)}"
    return Candidate(
        species=one.kind,
        name=kind.name,
        fits=_lines(one.fits, answers),
        possible=_lines(one.possible, answers),
        against=tuple(_against(trait, answers) for trait in one.against),
        words=words,
        source=_sources((*one.fits, *one.possible, *one.against)),
        status=_standings((*one.fits, *one.possible, *one.against)),
        rests=_rests((*one.fits, *one.possible, *one.against)),
    )


def _lines(shown: Iterable[Trait], answers: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(
        f"{question(one.question).asks} {_start(question(one.question).words(answers[one.question]))}."
        + (f" {one.note}" if one.note else "")
        for one in shown
    )


def _against(one: Trait, answers: Mapping[str, str]) -> str:
    asked = question(one.question)
    usual = "; or ".join(asked.words(answer) for answer in one.usual)
    return f"{asked.asks} {_start(asked.words(answers[one.question]))}, where it is usually {usual}."


def _hybrids_in_question(weighed: list[_Weighed]) -> tuple[_Weighed, ...]:
    """A hybrid is worth naming where one parent leads, or where each shows a mark the other does not."""
    named = []
    by_kind = {one.kind: one for one in weighed}
    for cross in hybrids():
        parents = [by_kind[kind] for kind in cross.between]
        leads = any(weighed[0].kind == one.kind for one in parents)
        fitting = [{trait.question for trait in one.fits} for one in parents]
        mixed = all(own - other for own, other in permutations(fitting, 2))
        if leads or mixed:
            fits = tuple(trait for one in parents for trait in one.fits)
            named.append(_Weighed(cross.species, fits, (), ()))
    return tuple(named)


def _hybrid(one: _Weighed, answers: Mapping[str, str]) -> Candidate:
    cross = next(held for held in hybrids() if held.species == one.kind)
    return Candidate(
        species=one.kind,
        name=species_called(one.kind).name,
        fits=tuple(dict.fromkeys(_lines(one.fits, answers))),
        possible=(),
        against=(),
        words=f"{cross.words} {cross.note}",
        source=citation(cross.source),
        status=cross.status,
        rests=(f"{_start(rests_on(citation(cross.source), cross.status))}.",),
    )


def cannot_be_told(*, in_skin: bool, head_on: bool) -> tuple[Lost, ...]:
    """What such a body no longer shows."""
    gone = {
        (True, True): (),
        (False, True): ("skin",),
        (True, False): ("head",),
        (False, False): ("skin", "head", "skin-and-head"),
    }[in_skin, head_on]
    return tuple(one for one in what_is_lost() if one.id in gone)


def _sources(shown: Iterable[Trait]) -> str:
    return "; ".join(dict.fromkeys(citation(one.source) for one in shown))


def _standings(shown: Iterable[Trait]) -> str:
    return "; ".join(dict.fromkeys(one.status for one in shown))


def _rests(shown: Iterable[Trait]) -> tuple[str, ...]:
    """Each source and standing once, with the marks that rest on it."""
    marks: dict[str, list[str]] = {}
    for one in shown:
        marks.setdefault(rests_on(citation(one.source), one.status), []).append(
            one.question.replace("-", " ")
        )
    return tuple(f"{_start(', '.join(names))}: {rests}." for rests, names in marks.items())


def _start(words: str) -> str:
    return words[0].upper() + words[1:]


def leader(found: Sequence[Candidate]) -> Candidate | None:
    """The one kind that leads alone: nothing against it, fewer marks fit any other, no hybrid named.

    None is the honest answer where two come out alike or a hybrid is in question.
    """
    if any(one.species in {cross.species for cross in hybrids()} for one in found):
        return None
    if not found or found[0].against or not found[0].fits:
        return None
    first, *others = found
    alike = [one for one in others if not one.against and len(one.fits) >= len(first.fits)]
    return None if alike else first
