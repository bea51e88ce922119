"""When some game may not be sold, whenever it was killed. Rows only; `gametrace.domain.sale` rules."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows
from gametrace.facts.seasons import MonthDay, check_jurisdiction
from gametrace.facts.species import species

BARS = ("days", "if-unlawful", "none")


@dataclass(frozen=True, slots=True)
class SaleRule:
    """One rule about selling. `bars` is 'days' (both end days barred), 'if-unlawful' or 'none'."""

    id: str
    species: tuple[str, ...]
    jurisdiction: str
    bars: str
    from_day: MonthDay | None
    to_day: MonthDay | None
    valid_from: date | None
    source: str
    status: str
    note: str

    def bars_on(self, day: date) -> bool:
        """Whether selling is barred on that day by date alone."""
        if self.from_day is None or self.to_day is None:
            return False
        return self.from_day <= (day.month, day.day) <= self.to_day


def _month_day(pair: list[int] | None) -> MonthDay | None:
    return None if pair is None else (pair[0], pair[1])


@cache
def sale_rules(species_id: str, jurisdiction: str) -> tuple[SaleRule, ...]:
    """What is held about selling that animal there; most have no rule."""
    wanted = species(species_id).id
    check_jurisdiction(jurisdiction)
    held = tuple(
        SaleRule(
            id=row["id"],
            species=tuple(species(name).id for name in row["species"]),
            jurisdiction=check_jurisdiction(row["jurisdiction"]),
            bars=row["bars"],
            from_day=_month_day(row.get("from_day")),
            to_day=_month_day(row.get("to_day")),
            valid_from=row.get("valid_from"),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("sale", "sale")
    )
    for one in held:
        if one.bars not in BARS or (one.bars == "days") != (one.from_day is not None):
            raise BadFact(f"sale.toml: '{one.id}' does not say what it bars.")
    return tuple(one for one in held if wanted in one.species and one.jurisdiction == jurisdiction)
