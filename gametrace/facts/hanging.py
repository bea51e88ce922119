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
        )
        for row in checked_rows("hanging", "hanging")
    )


def hanging_ranges(species_id: str) -> tuple[HangingRange, ...]:
    """What each source says of a species; may be empty."""
    wanted = species(species_id).id
    return tuple(row for row in all_hanging_ranges() if wanted in row.species)
