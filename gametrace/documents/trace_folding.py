"""Many like lots told in one line, so that a trace of sixty packs still fits its one page.

Nothing is left out: a folded line says how many lots it holds, their grams together, and, where there is
room, every code. Folding adds what the trace already counted; it does not count anything anew.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from gametrace.domain.lots import LotKind
from gametrace.register.records import TraceLot

MOST_NAMES = 4  # of unlike lots in one line
_MANY = {
    LotKind.CARCASS.value: "carcasses",
    LotKind.BATCH.value: "batches",
    LotKind.PART.value: "parts",
    LotKind.PACK.value: "packs",
    LotKind.MIX.value: "mixes",
    LotKind.DISH.value: "dishes",
    LotKind.BY_PRODUCT.value: "by-products",
    LotKind.WASTE.value: "lots of waste",
    LotKind.DRYING.value: "weights lost in drying",
    LotKind.RETURNED.value: "lots returned",
    LotKind.ISSUED.value: "lots issued",
    LotKind.SUPPLIED.value: "lots supplied",
}


@dataclass(frozen=True, slots=True)
class Fold:
    """One line of a list of lots: one lot, or several alike."""

    lots: tuple[TraceLot, ...]

    @property
    def is_one(self) -> bool:
        return len(self.lots) == 1

    @property
    def words(self) -> str:
        """'haunch, left' for one; '12 packs haunch', '2 parts: saddle; shoulder' for several."""
        first = self.lots[0]
        if self.is_one:
            return first.name
        names = list(dict.fromkeys(lot.name for lot in self.lots))
        counted = f"{len(self.lots)} {_MANY.get(first.kind, 'lots')}"
        if len(names) == 1:
            return f"{counted} {names[0]}"
        return f"{counted}: {'; '.join(names)}" if len(names) <= MOST_NAMES else counted

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(lot.code for lot in self.lots)

    @property
    def grams(self) -> int:
        return sum(lot.grams for lot in self.lots)

    @property
    def grams_from(self) -> int:
        return sum(lot.grams_from for lot in self.lots)

    @property
    def kind(self) -> str:
        return self.lots[0].kind

    @property
    def state(self) -> str:
        return self._same(lambda lot: lot.state, "several states")

    @property
    def where(self) -> str:
        places = {lot.where for lot in self.lots}
        return self.lots[0].where if len(places) == 1 else f"{len(places)} places"

    @property
    def detail(self) -> str:
        return self._same(lambda lot: lot.detail, "")

    @property
    def first_and_last(self) -> tuple[datetime, datetime]:
        return min(lot.when for lot in self.lots), max(lot.when for lot in self.lots)

    def _same(self, of: Callable[[TraceLot], str], otherwise: str) -> str:
        values = {of(lot) for lot in self.lots}
        return values.pop() if len(values) == 1 else otherwise


_LIKENESS: tuple[Callable[[TraceLot], tuple[object, ...]], ...] = (
    lambda lot: (lot.kind, lot.name, lot.state, lot.where, lot.detail),
    lambda lot: (lot.kind, lot.name, lot.state),
    lambda lot: (lot.kind, lot.name.partition(",")[0], lot.state),
    lambda lot: (lot.kind, lot.state),
    lambda lot: (lot.kind,),
)


def folded(lots: Sequence[TraceLot], most: int) -> tuple[Fold, ...]:
    """At most `most` lines: as they are where they fit, else alike ones together, ever less strictly."""
    lines = tuple(Fold((lot,)) for lot in lots)
    for likeness in _LIKENESS:
        if len(lines) <= most:
            return lines
        groups: dict[tuple[object, ...], list[TraceLot]] = {}
        for lot in lots:
            groups.setdefault(likeness(lot), []).append(lot)
        lines = tuple(Fold(tuple(group)) for group in groups.values())
    return lines


def count_folded(lines: Sequence[Fold]) -> tuple[int, int]:
    """How many lots stand in how many lines of several."""
    several = [line for line in lines if not line.is_one]
    return sum(len(line.lots) for line in several), len(several)
