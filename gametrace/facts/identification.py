"""How deer are told apart in the skin: questions, what each kind shows, look-alikes and the words.

Marks only: `gametrace.domain.identification` weighs answers against them, and is never certain.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
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
class SeenAs:
    """What the animals of a pair show where it is not what their kind usually shows."""

    species: str
    question: str
    answers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LookAlikes:
    """Two kinds taken for each other, why, and what splits them. `names` says which animals of the kinds."""

    id: str
    species: tuple[str, ...]
    names: tuple[str, ...]
    why: str
    split_by: str
    seen_as: tuple[SeenAs, ...]
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


@dataclass(frozen=True, slots=True)
class AgeSign:
    """What tells the age of a deer, teeth above all."""

    id: str
    says: str
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
def all_look_alikes() -> tuple[LookAlikes, ...]:
    """Every pair."""
    return tuple(
        LookAlikes(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            names=tuple(row.get("names") or (species(name).name for name in row["species"])),
            why=row["why"],
            split_by=row["split_by"],
            seen_as=tuple(_seen_as(one) for one in row.get("seen_as", ())),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("identification", "pair")
    )


def _seen_as(row: Row) -> SeenAs:
    asked = question(row["question"])
    for answer in row["answers"]:
        asked.words(answer)
    return SeenAs(species(row["species"]).id, asked.id, tuple(row["answers"]))


@cache
def look_alikes(species_id: str) -> tuple[LookAlikes, ...]:
    """The pairs a kind belongs to."""
    wanted = species(species_id).id
    return tuple(one for one in all_look_alikes() if wanted in one.species)


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


@cache
def age_signs(species_id: str) -> tuple[AgeSign, ...]:
    """What tells the age of one kind; empty for a kind the key does not hold."""
    wanted = species(species_id).id
    return tuple(
        AgeSign(row["id"], row["says"], tuple(row["species"]), row["source"], row["status"], row["note"])
        for row in checked_rows("identification", "age_sign")
        if wanted in row["species"]
    )
