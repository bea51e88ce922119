"""The balance of one break-down: what went in, what it became by sort, and what nobody has weighed yet.

Whole grams in, whole grams out; the one share is an exact Fraction. It decides no reason and closes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from gametrace.domain.lots import LotKind

# What a tray counts as, in the order a balance is told.
SORTS = {
    "meat": "meat",
    "trim": "trim",
    "bone": "bone",
    "by-product": "skin, head, feet, fat",
    "shot-damage": "shot damage",
    "condemned": "condemned",
    "waste": "other waste",
    "drying": "drying",
    "returned": "gone back",
}
_OF_PRODUCT = {
    "trim": "trim",
    "mince": "trim",
    "sausage-meat": "trim",
    "bone": "bone",
    "stock-bones": "bone",
    "shot-damage": "shot-damage",
    "condemned": "condemned",
}
_OF_KIND = {
    LotKind.BY_PRODUCT: "by-product",
    LotKind.WASTE: "waste",
    LotKind.DRYING: "drying",
    LotKind.RETURNED: "returned",
}

EVEN, AMBER, RED = "even", "amber", "red"


def sort_of(kind: str, product: str) -> str:
    """What a lot counts as in the balance of what it came from."""
    return _OF_PRODUCT.get(product) or _OF_KIND.get(LotKind(kind), "meat")


def level(left_grams: int, grams_in: int, amber_tenths: int, red_tenths: int) -> str:
    """'even', 'amber' past the first share of the weight in, 'red' past the second; tenths of a per cent.

    A line itself is not past it. Less than nothing left (within the scale's step) is even.
    """
    if left_grams * 1000 > grams_in * red_tenths:
        return RED
    return AMBER if left_grams * 1000 > grams_in * amber_tenths else EVEN


@dataclass(frozen=True, slots=True)
class BreakDown:
    """`left_grams`: unweighed while open, unaccounted once closed. in = sum of the parts + left."""

    grams_in: int
    parts: tuple[tuple[str, int], ...]  # sort, grams; in the order of SORTS, none that is nothing
    left_grams: int
    level: str

    @property
    def share_left(self) -> Fraction:
        """What is left, of the weight in."""
        return Fraction(self.left_grams, self.grams_in) if self.grams_in else Fraction(0)


def break_down(
    grams_in: int,
    trays: Iterable[tuple[str, str, int]],
    left_grams: int,
    *,
    amber_tenths: int,
    red_tenths: int,
) -> BreakDown:
    """The balance from trays as (kind, product, grams)."""
    sums = dict.fromkeys(SORTS, 0)
    for kind, product, grams in trays:
        sums[sort_of(kind, product)] += grams
    parts = tuple((sort, grams) for sort, grams in sums.items() if grams)
    return BreakDown(grams_in, parts, left_grams, level(left_grams, grams_in, amber_tenths, red_tenths))


def strangers(here: Iterable[int], coming: Iterable[int]) -> frozenset[int]:
    """Animals that would come to a table on which another one lies; none where the table is free."""
    there = frozenset(here)
    return frozenset(coming) - there if there else frozenset()
