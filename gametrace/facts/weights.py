"""What animals usually weigh, each range with the basis it is spoken of and its standing.

It never turns one basis into another: no single factor holds for all kinds.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows
from gametrace.facts.species import check_sex, species

# The basis of a range, in the words a person reads.
BASES: dict[str, str] = {
    "live": "whole animal before gralloch (live weight)",
    "head-on-feet-off": "carcass, head on and feet off",
    "state-not-said": "carcass, dressing state not given",
}


@dataclass(frozen=True, slots=True)
class WeightRange:
    """One published or customary range. Not usual means: known, but not expected."""

    id: str
    species: tuple[str, ...]
    sex: str
    low_grams: int
    high_grams: int
    basis: str
    qualifier: str
    usual: bool
    source: str
    status: str
    note: str

    @property
    def basis_words(self) -> str:
        """The basis as a person reads it."""
        return BASES[self.basis]


@cache
def all_weight_ranges() -> tuple[WeightRange, ...]:
    """Every range, in file order."""
    held = tuple(
        WeightRange(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            sex=row["sex"],
            low_grams=row["low_grams"],
            high_grams=row["high_grams"],
            basis=row["basis"],
            qualifier=row["qualifier"],
            usual=row["usual"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("weights", "range")
    )
    for one in held:
        if one.basis not in BASES or not 0 < one.low_grams <= one.high_grams:
            raise BadFact(f"weights.toml: '{one.id}' has an unknown basis or a range that is none.")
    return held


def weight_ranges(species_id: str, sex: str) -> tuple[WeightRange, ...]:
    """Every range for a species and sex; for sex unknown, those of both. May be empty."""
    wanted = species(species_id).id
    check_sex(sex)
    return tuple(
        row
        for row in all_weight_ranges()
        if wanted in row.species and (sex == "unknown" or row.sex in ("both", sex))
    )
