"""What may make a kill out of season or at night lawful, by jurisdiction.

Names and standing only: whether one was given for a carcass is asked in `gametrace.domain.exceptions`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of
from gametrace.facts.seasons import check_jurisdiction
from gametrace.facts.species import species

LIFTS = ("season", "night")
KINDS = ("deer", "hares", "any")
_HARES = ("brown-hare", "mountain-hare")


@dataclass(frozen=True, slots=True)
class ExceptionType:
    """One lawful reason: which rule it lifts, for what game, and what the door writes down."""

    id: str
    name: str
    jurisdiction: str
    kinds: str
    lifts: tuple[str, ...]
    needs_number: bool
    asks: str
    source: str
    status: str
    note: str

    def is_for(self, species_id: str) -> bool:
        """Whether it speaks of that animal."""
        kind = species(species_id)
        return (
            self.kinds == "any"
            or (self.kinds == "deer" and kind.deer)
            or (self.kinds == "hares" and kind.id in _HARES)
        )


@cache
def _every_type() -> tuple[ExceptionType, ...]:
    held = tuple(
        ExceptionType(
            id=row["id"],
            name=row["name"],
            jurisdiction=check_jurisdiction(row["jurisdiction"]),
            kinds=row["kinds"],
            lifts=tuple(row["lifts"]),
            needs_number=row["needs_number"],
            asks=row["asks"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("exceptions", "exception")
    )
    for one in held:
        if one.kinds not in KINDS or not one.lifts or not set(one.lifts) <= set(LIFTS):
            raise BadFact(f"exceptions.toml: '{one.id}' lifts or is for something unknown.")
    return held


@cache
def exception_types(jurisdiction: str) -> tuple[ExceptionType, ...]:
    """Every lawful reason held for a jurisdiction."""
    check_jurisdiction(jurisdiction)
    return tuple(one for one in _every_type() if one.jurisdiction == jurisdiction)


def exception_type(exception_id: str) -> ExceptionType:
    """The reason with this id."""
    for one in _every_type():
        if one.id == exception_id:
            return one
    raise one_of("exception", exception_id, tuple(one.id for one in _every_type()))
