"""Factors between weight bases, each for the animals it was measured on, in ten-thousandths.

Rows only. They turn no weight into another: `gametrace.domain.conversions` estimates, with a range.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of
from gametrace.facts.species import check_sex, species

# How far an animal is dressed, in the words a person reads.
DRESSED: dict[str, str] = {
    "live": "live",
    "gralloched": "gralloched, in the skin, head and feet on, pluck out",
    "clean": "gralloched, in the skin, head and feet off, pluck out",
    "skinned": "skinned, head and feet off, pluck out",
    "skinned-cold": "skinned, head and feet off, pluck out, chilled",
}


@dataclass(frozen=True, slots=True)
class Factor:
    """One factor. `n` is the number of animals, 0 where the source does not say; low may equal high."""

    id: str
    species: tuple[str, ...]
    sex: str
    from_basis: str
    to_basis: str
    low: int
    mid: int
    high: int
    n: int
    quoted: bool
    source: str
    status: str
    note: str


def check_basis(basis: str) -> str:
    """The basis, if it is one that a factor speaks of."""
    if basis not in DRESSED:
        raise one_of("weight basis", basis, tuple(DRESSED))
    return basis


@cache
def all_factors() -> tuple[Factor, ...]:
    """Every factor, in file order."""
    held = tuple(
        Factor(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            sex=row["sex"],
            from_basis=check_basis(row["from_basis"]),
            to_basis=check_basis(row["to_basis"]),
            low=row["low"],
            mid=row["mid"],
            high=row["high"],
            n=row["n"],
            quoted=row["quoted"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("conversions", "factor")
    )
    for one in held:
        if not 0 < one.low <= one.mid <= one.high < 10_000 or one.from_basis == one.to_basis:
            raise BadFact(f"conversions.toml: '{one.id}' is no factor between two bases.")
    return held


def factors(species_id: str, sex: str, from_basis: str, to_basis: str) -> tuple[Factor, ...]:
    """What each source says for that animal and step; for sex unknown, those of both. May be empty."""
    wanted = species(species_id).id
    check_sex(sex)
    check_basis(from_basis)
    check_basis(to_basis)
    return tuple(
        one
        for one in all_factors()
        if wanted in one.species
        and (sex == "unknown" or one.sex in ("both", sex))
        and (one.from_basis, one.to_basis) == (from_basis, to_basis)
    )
