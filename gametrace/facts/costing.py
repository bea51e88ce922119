"""Value points by cut, the profit kitchens aim at and a usual portion: figures to start from, with standing.

No price is held. `gametrace.domain.costing` spreads a cost; a kitchen sets figures of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from gametrace.facts.cuts import product
from gametrace.facts.loading import checked_rows, one_of

POINT_TABLES: dict[str, str] = {
    "kitchen": "the kitchen's points",
    "roe-buck-low": "the lower index of one roe buck",
    "roe-buck-high": "the higher index of one roe buck",
}


@dataclass(frozen=True, slots=True)
class ValuePoint:
    """What a kilo of one cut counts for, in tenths of a point."""

    cut: str
    tenths: int
    source: str
    status: str
    note: str

    @property
    def points(self) -> Fraction:
        """The points, exactly: 1.2 is 6/5."""
        return Fraction(self.tenths, 10)


@cache
def value_points(table: str = "kitchen") -> dict[str, ValuePoint]:
    """One table of points by cut."""
    if table not in POINT_TABLES:
        raise one_of("table of value points", table, tuple(POINT_TABLES))
    return {
        product(row["cut"]).id: ValuePoint(
            row["cut"], row["tenths"], row["source"], row["status"], row["note"]
        )
        for row in checked_rows("costing", "point")
        if row["table"] == table
    }


def points_for(cut: str, table: str = "kitchen") -> ValuePoint | None:
    """The points of a cut or, where it is not listed, of the joint it comes from.

    None where the table is silent. By-products and waste count for nothing and are not listed.
    """
    held, looked_at = value_points(table), product(cut)
    while looked_at.id not in held and looked_at.parent:
        looked_at = product(looked_at.parent)
    return held.get(looked_at.id)


@dataclass(frozen=True, slots=True)
class Spread:
    """A low and a high figure with its source."""

    low: int
    high: int
    source: str
    status: str
    note: str


@cache
def gross_profit_target() -> Spread:
    """What kitchens aim at, in hundredths of a per cent of the price without VAT."""
    row = checked_rows("costing", "target")[0]
    return Spread(row["low"], row["high"], row["source"], row["status"], row["note"])


@cache
def usual_portion_grams() -> Spread:
    """The portion of raw meat that is no surprise."""
    row = checked_rows("costing", "portion")[0]
    return Spread(row["low_grams"], row["high_grams"], row["source"], row["status"], row["note"])


@cache
def vat_rate() -> int:
    """A rate to begin with, in hundredths of a per cent; the kitchen sets its own."""
    return int(checked_rows("costing", "vat")[0]["rate"])
