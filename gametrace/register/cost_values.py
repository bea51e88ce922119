"""What a gram of everything made of a lot counts for, by each way of spreading a cost.

By-products, waste and drying count for nothing. A dish, the bin and whatever else takes meat out of the house
take it as it lies, so they count like the average of what else was taken: good meat thrown away keeps its
cost, and shows what the bin costs. A joint that has no sales value of its own counts for what its cuts would
fetch.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from gametrace.domain.cost_flow import Way
from gametrace.domain.costing import METHODS
from gametrace.domain.lineage import Edge
from gametrace.domain.lots import LotKind
from gametrace.register.money_figures import pence_per_kg, points_of
from gametrace.register.policies import Policies
from gametrace.store import lineage, look_lots
from gametrace.store.engine import Connection
from gametrace.store.look_lots import CutRow

Value = Fraction | int
MEAT = (LotKind.PART, LotKind.PACK, LotKind.MIX)
CUT_KINDS = (
    LotKind.PART,
    LotKind.PACK,
    LotKind.BY_PRODUCT,
    LotKind.WASTE,
    LotKind.DRYING,
    LotKind.RETURNED,
)
NO_FOOD = frozenset({LotKind.BY_PRODUCT, LotKind.WASTE, LotKind.DRYING, LotKind.RETURNED})
THROWN_AWAY = "binned"


@dataclass(slots=True)
class Valued:
    """What a gram counts for on every way, and by lot the products nobody gave a value."""

    values: dict[Way, Value] = field(default_factory=dict)
    missing: dict[int, frozenset[str]] = field(default_factory=dict)


def ways_valued(
    connection: Connection, own: Policies, edges: Iterable[Edge], rows: Mapping[int, Any]
) -> dict[str, Valued]:
    """By method, every edge's value. `rows` holds the lots at both ends."""
    taken: dict[int, list[Edge]] = defaultdict(list)
    for edge in sorted(edges):
        taken[edge.parent].append(edge)
    counted = {
        "weight": _Counts(own, "weight"),
        "points": _Counts(own, "points"),
        "sales value": _Counts(own, "sales value"),
    }
    if own.prices:
        silent = {
            edge.child
            for one in taken.values()
            for edge in one
            if rows[edge.child].kind in MEAT and counted["sales value"].of(rows[edge.child].product) is None
        }
        counted["sales value"].derived = _fetched(connection, own, silent)
    return {method: _by_method(counted[method], taken, rows) for method in METHODS}


class _Counts:
    """One way's value of each product, looked up once."""

    def __init__(self, own: Policies, method: str) -> None:
        self._own, self._method = own, method
        self._known: dict[str, Value | None] = {}
        self.derived: dict[int, Fraction] = {}  # by lot

    def of(self, product_id: str) -> Value | None:
        if self._method == "weight":
            return 1
        if product_id not in self._known:
            by_points = self._method == "points"
            self._known[product_id] = (
                points_of(self._own, product_id) if by_points else pence_per_kg(self._own, product_id)[0]
            )
        return self._known[product_id]

    def of_lot(self, row: Any) -> Value | None:
        value = self.of(row.product)
        return self.derived.get(row.id) if value is None else value


def _by_method(counts: _Counts, taken: Mapping[int, list[Edge]], rows: Mapping[int, Any]) -> Valued:
    valued = Valued()
    for lot, edges in taken.items():
        as_it_lies: list[Edge] = []
        known: list[tuple[int, Value]] = []
        products = {rows[edge.child].product for edge in edges if rows[edge.child].kind in MEAT}
        unknown: set[str] = set()
        for edge in edges:
            row = rows[edge.child]
            if _lies(row):
                as_it_lies.append(edge)
            elif row.kind in NO_FOOD:
                valued.values[lot, edge.child] = 0
            else:
                value = counts.of_lot(row)
                if value is None and len(products) > 1:
                    unknown.add(row.product)
                valued.values[lot, edge.child] = value = 1 if value is None else value
                known.append((edge.grams, value))
        if as_it_lies:
            average = _average(known)
            valued.values.update({(lot, edge.child): average for edge in as_it_lies})
        if unknown:
            valued.missing[lot] = frozenset(unknown)
    return valued


def _lies(row: Any) -> bool:
    is_taken_out = row.kind not in MEAT and row.kind not in NO_FOOD  # a dish, or gone to somebody else
    return is_taken_out or row.product in (THROWN_AWAY, "")


def _average(known: list[tuple[int, Value]]) -> Fraction:
    counted = [(grams, value) for grams, value in known if value]
    grams = sum(one for one, _ in counted)
    return Fraction(sum(one * value for one, value in counted)) / grams if grams else Fraction(1)


# -- what a joint would fetch -----------------------------------------------------------------------------


def cut_tree(connection: Connection, lots: Iterable[int]) -> tuple[dict[int, list[Edge]], dict[int, CutRow]]:
    """Lots and everything weighed off them alone: by lot what was cut from it, and the rows of all."""
    level = sorted(set(lots))
    cut: dict[int, list[Edge]] = {}
    rows: dict[int, CutRow] = {row.id: row for row in look_lots.cut_rows(connection, level)}
    while level:
        edges = lineage.edges_out_of(connection, level)
        below = {row.id: row for row in look_lots.cut_rows(connection, {edge.child for edge in edges})}
        kept = sorted(edge for edge in edges if below[edge.child].kind in CUT_KINDS)
        for edge in kept:
            cut.setdefault(edge.parent, []).append(edge)
            rows[edge.child] = below[edge.child]
        level = sorted(edge.child for edge in kept)
    return cut, rows


def _fetched(connection: Connection, own: Policies, lots: set[int]) -> dict[int, Fraction]:
    """Pence a kilo of lots without a price, by what was cut from them; those that cannot be told are left."""
    cut, rows = cut_tree(connection, lots)
    found: dict[int, Fraction] = {}
    for lot in sorted(rows, reverse=True):  # a child's key is above its parent's
        if rows[lot].kind not in MEAT:
            continue
        price, _ = pence_per_kg(own, rows[lot].product)
        if price is not None:
            found[lot] = Fraction(price)
            continue
        meat = [edge for edge in cut.get(lot, ()) if rows[edge.child].kind in MEAT]
        if meat and all(edge.child in found for edge in meat):
            whole = rows[lot].grams_in - rows[lot].unaccounted
            gone = sum(
                edge.grams
                for edge in cut[lot]
                if rows[edge.child].kind in NO_FOOD and not _lies(rows[edge.child])
            )
            known: list[tuple[int, Value]] = [(edge.grams, found[edge.child]) for edge in meat]
            weighed = sum(grams for grams, _ in known)
            lies = max(0, whole - gone - weighed)  # still here, on plates, in mixes or in the bin
            fetched = sum(grams * value for grams, value in known) + lies * _average(known)
            found[lot] = Fraction(fetched) / whole if whole else Fraction(0)
    return {lot: value for lot, value in found.items() if lot in lots}
