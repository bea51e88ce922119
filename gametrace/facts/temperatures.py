"""The temperatures that the game rules and the kitchen's own law name, in tenths of a degree."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of
from gametrace.facts.seasons import check_jurisdiction
from gametrace.facts.species import species


@dataclass(frozen=True, slots=True)
class TemperatureLimit:
    """An upper limit; None where the law asks for cold and names no figure."""

    id: str
    name: str
    tenths_c: int | None
    jurisdiction: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class ProbeCheck:
    """How many days a probe's check is taken to hold."""

    days: int
    source: str
    status: str
    note: str


@cache
def limits() -> dict[str, TemperatureLimit]:
    """The game rules' limits by group: large, small, offal, frozen, room."""
    return {
        row["group"]: TemperatureLimit(
            id=row["id"],
            name=row["name"],
            tenths_c=row["tenths_c"],
            jurisdiction=row["jurisdiction"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("temperatures", "limit")
    }


def limit_for_group(group: str) -> TemperatureLimit:
    """The limit of a group; wild boar is large game."""
    held = limits().get("large" if group == "boar" else group)
    if held is None:
        raise one_of("temperature limit", group, tuple(limits()))
    return held


def limit_for(species_id: str) -> TemperatureLimit:
    """The limit for a species' meat, throughout."""
    return limit_for_group(species(species_id).group)


@cache
def chill_limit(jurisdiction: str) -> TemperatureLimit:
    """The kitchen's own legal chill limit there; its figure is None where the law names none."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("temperatures", "chill"):
        if row["jurisdiction"] == jurisdiction:
            return TemperatureLimit(
                id=row["id"],
                name=row["name"],
                tenths_c=row.get("tenths_c"),
                jurisdiction=jurisdiction,
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise BadFact(f"temperatures.toml says nothing of a kitchen's chill limit in {jurisdiction}.")


@cache
def probe_check() -> ProbeCheck:
    """The days held here; a kitchen sets its own."""
    row = checked_rows("temperatures", "probe_check")[0]
    return ProbeCheck(row["days"], row["source"], row["status"], row["note"])
