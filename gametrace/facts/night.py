"""The hours of the night in which deer may not be killed, by jurisdiction, and where the UK lies.

Hours before and after the sun only; the sun itself is worked out in `gametrace.domain.night`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows
from gametrace.facts.seasons import JURISDICTIONS, FarmedExemption, check_jurisdiction


@dataclass(frozen=True, slots=True)
class NightRule:
    """Deer may not be killed between so long after sunset and so long before sunrise."""

    id: str
    jurisdiction: str
    after_sunset_minutes: int
    before_sunrise_minutes: int
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Box:
    """A box on the map, in millionths of a degree."""

    south: int
    north: int
    west: int
    east: int

    def holds(self, latitude_millionths: int, longitude_millionths: int) -> bool:
        """Whether a place lies in the box, its edges included."""
        return (
            self.south <= latitude_millionths <= self.north and self.west <= longitude_millionths <= self.east
        )

    @property
    def corners(self) -> tuple[tuple[int, int], ...]:
        """(latitude, longitude) of the four corners."""
        return tuple((lat, lon) for lat in (self.south, self.north) for lon in (self.west, self.east))


@cache
def night_rule(jurisdiction: str) -> NightRule:
    """The night rule of a jurisdiction."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("night", "night"):
        if row["jurisdiction"] == jurisdiction:
            return NightRule(
                id=row["id"],
                jurisdiction=jurisdiction,
                after_sunset_minutes=row["after_sunset_minutes"],
                before_sunrise_minutes=row["before_sunrise_minutes"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise BadFact(f"night.toml says nothing of the night in {JURISDICTIONS[jurisdiction]}.")


@cache
def farmed_night(jurisdiction: str) -> FarmedExemption:
    """What the jurisdiction says about farmed deer killed at night."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("night", "farmed"):
        if row["jurisdiction"] == jurisdiction:
            return FarmedExemption(
                id=row["id"],
                jurisdiction=jurisdiction,
                exempt=row["exempt"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise BadFact(f"night.toml says nothing of farmed deer in {JURISDICTIONS[jurisdiction]}.")


@cache
def united_kingdom() -> Box:
    """A box that holds the whole United Kingdom."""
    row = checked_rows("night", "box")[0]
    return Box(
        south=row["south_millionths"],
        north=row["north_millionths"],
        west=row["west_millionths"],
        east=row["east_millionths"],
    )
