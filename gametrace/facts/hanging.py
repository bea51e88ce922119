"""How long game is hung, as each source says. They conflict, so all are shown and none is a rule."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows
from gametrace.facts.species import species


@dataclass(frozen=True, slots=True)
class HangingRange:
    """One source's days from the kill, with the temperature it speaks of where it does."""

    id: str
    species: tuple[str, ...]
    low_days: int
    high_days: int
    low_tenths_c: int | None
    high_tenths_c: int | None
    how: str
    source: str
    status: str
    note: str
    age_classes: tuple[str, ...] = ()  # empty: any age


@dataclass(frozen=True, slots=True)
class YoungRule:
    """What the sources say about hanging young animals."""

    source: str
    status: str
    note: str


@cache
def all_hanging_ranges() -> tuple[HangingRange, ...]:
    """Every source's range, in file order."""
    return tuple(
        HangingRange(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            low_days=row["low_days"],
            high_days=row["high_days"],
            low_tenths_c=row.get("low_tenths_c"),
            high_tenths_c=row.get("high_tenths_c"),
            how=row["how"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
            age_classes=tuple(row.get("age_classes", ())),
        )
        for row in checked_rows("hanging", "hanging")
    )


def hanging_ranges(species_id: str, age_class: str = "") -> tuple[HangingRange, ...]:
    """What each source says of a species, and of that age where it does; may be empty.

    A source's row for the age takes the place of its row for any age.
    """
    wanted = species(species_id).id
    rows = tuple(row for row in all_hanging_ranges() if wanted in row.species)
    aged = {row.source for row in rows if age_class in row.age_classes}
    return tuple(
        row
        for row in rows
        if age_class in row.age_classes or (not row.age_classes and row.source not in aged)
    )


@cache
def young_rule() -> YoungRule:
    """Young animals and hanging."""
    row = checked_rows("hanging", "age")[0]
    return YoungRule(row["source"], row["status"], row["note"])
