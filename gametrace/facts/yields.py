"""Published shares of cuts, tissues and meat, each with its source and how many animals it rests on.

Rows only, as printed, in hundredths of a per cent. `gametrace.domain.yields` compares and never rescales.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows
from gametrace.facts.species import check_sex, species

KINDS = ("cuts", "tissues", "boneless", "dressing")
WHOLE = 10_000  # hundredths of a per cent


@dataclass(frozen=True, slots=True)
class PublishedShare:
    """One part's share in a published row; low and high are the same where no spread is given."""

    part: str
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class PublishedYield:
    """One published row. `n` is the number of animals, 0 where the source does not say."""

    id: str
    name: str
    animal: str
    species: tuple[str, ...]  # empty: an animal the larder does not take, for comparison only
    sex: str
    of: str
    kind: str
    whole: bool
    n: int
    parts: tuple[PublishedShare, ...]
    source: str
    status: str
    note: str

    def share(self, part: str) -> PublishedShare | None:
        """The share of one part; None where this row does not speak of it."""
        return next((one for one in self.parts if one.part == part), None)


@cache
def published_yields() -> tuple[PublishedYield, ...]:
    """Every row, in file order."""
    held = tuple(
        PublishedYield(
            id=row["id"],
            name=row["name"],
            animal=row["animal"],
            species=tuple(species(name).id for name in row["species"]),
            sex=row["sex"],
            of=row["of"],
            kind=row["kind"],
            whole=row["whole"],
            n=row["n"],
            parts=tuple(PublishedShare(one["part"], one["low"], one["high"]) for one in row["parts"]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("yields", "published")
    )
    for one in held:
        if one.kind not in KINDS or not all(0 < part.low <= part.high <= WHOLE for part in one.parts):
            raise BadFact(f"yields.toml: '{one.id}' has an unknown kind or a share that is none.")
    return held


def published_yield(yield_id: str) -> PublishedYield:
    """The row with this id."""
    for one in published_yields():
        if one.id == yield_id:
            return one
    raise BadFact(f"yields.toml has no row called '{yield_id}'.")


def spreads(species_id: str, sex: str, part: str, kind: str, of: str = "") -> tuple[PublishedYield, ...]:
    """What is published on one part of that animal. With sex unknown, of either; may be empty."""
    wanted = species(species_id).id
    check_sex(sex)
    return tuple(
        one
        for one in published_yields()
        if wanted in one.species
        and (sex == "unknown" or one.sex in ("both", sex))
        and one.kind == kind
        and (not of or one.of == of)
        and one.share(part) is not None
    )


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far from a published share one animal is still no surprise."""

    parts_per_hundred: int
    source: str
    status: str
    note: str


@cache
def tolerance() -> Tolerance:
    """The one tolerance held."""
    row = checked_rows("yields", "tolerance")[0]
    return Tolerance(row["parts_per_hundred"], row["source"], row["status"], row["note"])


@dataclass(frozen=True, slots=True)
class MassBalance:
    """How near weights out should come to the weight in, as one source has it; tenths of a per cent."""

    low_tenths: int
    high_tenths: int
    source: str
    status: str
    note: str


@cache
def mass_balances() -> tuple[MassBalance, ...]:
    """Every figure held, in file order."""
    return tuple(
        MassBalance(row["low_tenths"], row["high_tenths"], row["source"], row["status"], row["note"])
        for row in checked_rows("yields", "mass_balance")
    )
