"""One reading of the register for its money: what was paid, and the flow of it down to the lots asked for.

Everything above a lot and what else was made of it is read once; the three ways of spreading are then only
arithmetic. Nothing is stored: a late claim or a corrected price is in the next answer. What has no price
makes what was cut from it unknown, never nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.cost_flow import CostFlow, flow
from gametrace.domain.costing import whole_pence
from gametrace.domain.lineage import Edge, shares_of
from gametrace.domain.quantities import pounds_text
from gametrace.facts.cuts import product
from gametrace.register.cost_values import ways_valued
from gametrace.register.delivery_text import basis_from
from gametrace.register.policies import OUR_WEIGHT, THEIR_WEIGHT, policies_of
from gametrace.store import lineage, look_costs, look_door, look_lots
from gametrace.store.engine import Connection

_NAMED = 4  # products named before the rest is counted


@dataclass(frozen=True, slots=True)
class Credit:
    """Money that came back, or is still awaited."""

    words: str
    pence: int
    is_settled: bool = True


@dataclass(frozen=True, slots=True)
class Purchase:
    """What an animal was bought for. `pence` is None where no price was written down."""

    code: str
    name: str
    grams: int
    weighed_by: str  # our weight | supplier's weight
    basis: str  # what was on the scale
    agreed_basis: str  # what the supplier's price is for, as agreed
    pence_per_kg: int | None
    pence: int | None
    credits: tuple[Credit, ...] = ()  # claims

    @property
    def credited_pence(self) -> int:
        return sum(one.pence for one in self.credits if one.is_settled)

    @property
    def net_pence(self) -> int | None:
        return None if self.pence is None else self.pence - self.credited_pence


class CostWalk:
    """The money above and just below the lots asked for."""

    def __init__(self, connection: Connection, wanted: Iterable[int]) -> None:
        asked = set(wanted)
        self.own = policies_of(connection)
        self.above = lineage.edges_above(connection, asked)
        self.inside = sorted({*asked, *(edge.parent for edge in self.above)})
        self.edges = lineage.edges_out_of(connection, self.inside)
        ids = {*self.inside, *(edge.child for edge in self.edges)}
        self.rows: dict[int, Any] = {row.id: row for row in look_lots.lot_rows(connection, ids)}
        self.credited = look_costs.sold_by_products(connection, ids)
        has_parents = {edge.child for edge in self.above}
        self.roots = [lot for lot in self.inside if lot not in has_parents]
        self._claims = look_door.claims_of(connection, self.roots)
        self.purchases = {
            lot: self._purchase(row) for lot, row in look_costs.purchase_rows(connection, self.roots).items()
        }
        self._flows: dict[str, CostFlow] = {}
        self._values = ways_valued(connection, self.own, self.edges, self.rows)

    @property
    def method(self) -> str:
        """The kitchen's choice."""
        return self.own.cost_spread

    # -- what was paid ----------------------------------------------------------------------------------

    def _purchase(self, row: Any) -> Purchase:
        theirs = self.own.priced_on == THEIR_WEIGHT and row.supplier_grams is not None
        grams = row.supplier_grams if theirs else row.grams_received
        price = row.pence_per_kg
        return Purchase(
            code=code_of(row.lot_id),
            name=self.rows[row.lot_id].name,
            grams=grams,
            weighed_by=THEIR_WEIGHT if theirs else OUR_WEIGHT,
            basis=basis_from(row.received_basis).words,
            agreed_basis=row.price_basis,
            pence_per_kg=price,
            pence=None if price is None else (grams * price + 500) // 1_000,
            credits=tuple(
                Credit(
                    f"claim {claim.id}, {claim.status}: {claim.reason}",
                    claim.pence if claim.settled_pence is None else claim.settled_pence,
                    is_settled=claim.status == "credited",
                )
                for claim in self._claims.get(row.lot_id, ())
                if claim.status != "refused"
            ),
        )

    # -- what is not known ------------------------------------------------------------------------------

    @cached_property
    def _no_price(self) -> dict[int, frozenset[int]]:
        """By lot, the first lots above it that no price is held for."""
        start = {
            lot: frozenset((lot,))
            for lot in self.roots
            if lot not in self.purchases or self.purchases[lot].pence is None
        }
        return self._handed_down(start)

    def _no_value(self, method: str) -> dict[int, frozenset[str]]:
        """By lot, the products above it that this way of spreading has no value for."""
        missing = self._values[method].missing
        found: dict[int, frozenset[str]] = {}
        for edge in sorted(self.edges):
            both = found.get(edge.parent, frozenset()) | missing.get(edge.parent, frozenset())
            if both:
                found[edge.child] = found.get(edge.child, frozenset()) | both
        return found

    def _handed_down(self, start: dict[int, frozenset[int]]) -> dict[int, frozenset[int]]:
        found = dict(start)
        for edge in sorted(self.edges):
            if edge.parent in found:
                found[edge.child] = found.get(edge.child, frozenset()) | found[edge.parent]
        return found

    def why_unknown(self, lot: int, method: str = "") -> tuple[str, ...]:
        """Why no cost can be said, in sentences; empty where it can."""
        return self.why_none([lot], method)

    def why_none(self, lots: Iterable[int], method: str = "") -> tuple[str, ...]:
        """The same for several lots together, each reason once."""
        way, asked = method or self.method, list(lots)
        roots = {root for lot in asked for root in self._no_price.get(lot, ())}
        said = [
            f"No price is written down for {code_of(root)}, {self.rows[root].name}." for root in sorted(roots)
        ]
        no_value = self._no_value(way)
        names = sorted({product(one).name for lot in asked for one in no_value.get(lot, ())})
        if names:
            what = "sales value" if way == "sales value" else "value points"
            said.append(f"No {what} is set for {_listed(names)}.")
        return tuple(said)

    def is_known(self, lot: int, method: str) -> bool:
        return lot not in self._no_price and lot not in self._no_value(method)

    # -- the flow ---------------------------------------------------------------------------------------

    def flow(self, method: str) -> CostFlow:
        """The whole flow one way, computed when it is first asked for. Without a price nothing flows."""
        if method not in self._flows:
            self._flows[method] = flow(
                self.edges,
                {lot: one.pence or 0 for lot, one in self.purchases.items()},
                grams_in={lot: self.rows[lot].grams_in - self.rows[lot].unaccounted for lot in self.inside},
                way_values=self._values[method].values,
                claims={
                    lot: one.credited_pence for lot, one in self.purchases.items() if one.pence is not None
                },
                credited=self.credited,
            )
        return self._flows[method]

    def pence(self, lot: int, method: str = "") -> int | None:
        """What a lot bears, or None where that is not known. Only for lots asked for and those above."""
        way = method or self.method
        return self.flow(way).pence[lot] if self.is_known(lot, way) else None

    def handed(self, parent: int, child: int, method: str = "") -> int | None:
        """What a lot handed on to one thing made of it."""
        way = method or self.method
        known = self.is_known(parent, way) and parent not in self._values[way].missing
        return self.flow(way).handed_on[parent, child] if known else None

    def by_animal(self, lot: int, method: str = "") -> dict[int, tuple[Fraction, int | None]]:
        """Each first lot's exact share of the grams, and its whole pence of the cost; these sum to it."""
        shares = shares_of(self.above, lot)
        pence = self.pence(lot, method)
        if pence is None:
            return {root: (share, None) for root, share in shares.items()}
        handed = self.flow(method or self.method).handed_on
        inside = set(self.inside)
        paid = [Edge(way[0], way[1], given) for way, given in handed.items() if way[1] in inside]
        if any(edge.grams < 0 for edge in paid) or not _all_paid(paid):
            paid = self.above  # nothing, or less than nothing, was paid: it lies by weight
        parts = shares_of(paid, lot)
        whole = whole_pence({root: parts.get(root, Fraction(0)) * pence for root in sorted(shares)}, pence)
        return {root: (share, whole[root]) for root, share in shares.items()}

    # -- what may still move ----------------------------------------------------------------------------

    def open_above(self, lot: int) -> tuple[str, ...]:
        """Break-downs above it that are not finished, in sentences: the cost may still move."""
        above = {edge.parent for edge in self.above} | {lot}
        return tuple(
            f"{code_of(one)}, {self.rows[one].name}, is still open on the block."
            for one in sorted(above)
            if self.rows[one].status == "open" and self.rows[one].grams_left
        )

    def awaited(self, lot: int) -> tuple[str, ...]:
        """Claims above it that are not credited yet."""
        roots = set(shares_of(self.above, lot))
        return tuple(
            f"{pounds_text(credit.pence)} is awaited: {credit.words}."
            for root, one in sorted(self.purchases.items())
            if root in roots
            for credit in one.credits
            if not credit.is_settled
        )


def _all_paid(paid: list[Edge]) -> bool:
    """Whether every lot was handed something, so that shares of money can be taken."""
    sums: dict[int, int] = defaultdict(int)
    for edge in paid:
        sums[edge.child] += edge.grams
    return all(sums.values())


def _listed(names: list[str]) -> str:
    if len(names) > _NAMED:
        return f"{', '.join(names[:_NAMED])} and {len(names) - _NAMED} more"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
