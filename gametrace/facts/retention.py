"""How long records are kept before a name on them may go. By-product papers have theirs in `by_products`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows
from gametrace.facts.seasons import check_jurisdiction


@dataclass(frozen=True, slots=True)
class Period:
    """The least time for one kind of record; 0 months where the law names none."""

    id: str
    what: str
    jurisdictions: tuple[str, ...]
    months: int
    source: str
    status: str
    note: str


@cache
def periods() -> tuple[Period, ...]:
    return tuple(
        Period(
            id=row["id"],
            what=row["what"],
            jurisdictions=tuple(check_jurisdiction(one) for one in row["jurisdictions"]),
            months=row["months"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("retention", "period")
    )


def months_to_keep_names(jurisdiction: str) -> int:
    """Months a supplier's or hunter's name stays after the last animal: the longest that holds there."""
    return max(one.months for one in periods() if not jurisdiction or jurisdiction in one.jurisdictions)
