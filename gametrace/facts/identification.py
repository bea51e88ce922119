"""How deer are told apart in the skin: questions, what each kind shows, look-alikes and the words.

Marks only: `gametrace.domain.identification` weighs answers against them, and is never certain.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of
from gametrace.facts.species import species

NEEDS = ("none", "skin", "head")


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to look at, and the answers there are: (id, words)."""

    id: str
    asks: str
    needs: str
    answers: tuple[tuple[str, str], ...]
    source: str
    status: str
    note: str

    def words(self, answer: str) -> str:
        """The words of an answer; `UnknownFact` for one that is none."""
        for known, words in self.answers:
            if known == answer:
                return words
        raise one_of(f"answer to '{self.asks}'", answer, tuple(known for known, _ in self.answers))


@dataclass(frozen=True, slots=True)
class Trait:
    """What a kind usually and possibly shows at one question; anything else speaks against it."""

    id: str
    species: str
    question: str
    usual: tuple[str, ...]
    possible: tuple[str, ...]
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class LookAlikes:
    """Two kinds taken for each other, why, and what splits them."""

    id: str
    species: tuple[str, ...]
    why: str
    split_by: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Lost:
    """What can no longer be told once something is gone."""

    id: str
    gone: str
    what: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Hybrid:
    """A cross that no eye can settle."""

    species: str
    between: tuple[str, ...]
    words: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade and the kinds it is used of."""

    id: str
    name: str
    meaning: str
    species: tuple[str, ...]
    source: str
    status: str
    note: str


@cache
def questions() -> tuple[Question, ...]:
    """Every question, the most telling first."""
    held = tuple(
        Question(
            id=row["id"],
            asks=row["asks"],
            needs=row["needs"],
            answers=tuple((one["id"], one["words"]) for one in row["answers"]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "question")
    )
    for one in held:
        if one.needs not in NEEDS:
            raise BadFact(f"identification.toml: '{one.id}' needs something unknown.")
    return held


def question(question_id: str) -> Question:
    """The question with this id."""
    for one in questions():
        if one.id == question_id:
            return one
    raise one_of("question", question_id, tuple(one.id for one in questions()))


@cache
def traits() -> tuple[Trait, ...]:
    """What every kind shows at every question."""
    held = tuple(
        Trait(
            id=row["id"],
            species=species(row["species"]).id,
            question=row["question"],
            usual=tuple(row["usual"]),
            possible=tuple(row["possible"]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "trait")
    )
    for one in held:
        for answer in (*one.usual, *one.possible):
            question(one.question).words(answer)
    return held


@cache
def traits_of(species_id: str) -> tuple[Trait, ...]:
    """What one kind shows; empty for a kind the key does not hold."""
    wanted = species(species_id).id
    return tuple(one for one in traits() if one.species == wanted)


@cache
def look_alikes(species_id: str) -> tuple[LookAlikes, ...]:
    """The pairs a kind belongs to."""
    wanted = species(species_id).id
    return tuple(
        LookAlikes(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            why=row["why"],
            split_by=row["split_by"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "pair")
        if wanted in row["species"]
    )


@cache
def what_is_lost() -> tuple[Lost, ...]:
    """What cannot be told once skin, head or both are gone."""
    return tuple(
        Lost(row["id"], row["gone"], row["what"], row["source"], row["status"], row["note"])
        for row in checked_rows("identification", "lost")
    )


@cache
def hybrids() -> tuple[Hybrid, ...]:
    """Crosses that no eye can settle."""
    return tuple(
        Hybrid(
            species=species(row["species"]).id,
            between=tuple(species(name).id for name in row["between"]),
            words=row["words"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "hybrid")
    )


@cache
def terms(species_id: str) -> tuple[Term, ...]:
    """The trade's words used of one kind."""
    wanted = species(species_id).id
    return tuple(
        Term(
            id=row["id"],
            name=row["name"],
            meaning=row["meaning"],
            species=tuple(row["species"]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "term")
        if wanted in row["species"]
    )
