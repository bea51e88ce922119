"""A cost followed down the lineage: from what was paid, through cuts and mixes, to packs and dishes.

Recomputed whole from what is recorded, so a late claim or a corrected price simply flows again. Exact
Fractions inside; pence come last and, at every lot, what was handed on and what was kept come to what it
bore. Nothing is stored here.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from gametrace.domain.costing import whole_pence
from gametrace.domain.lineage import Edge

Way = tuple[int, int]  # from a parent to a child


@dataclass(frozen=True, slots=True)
class CostFlow:
    """What every lot bore, handed on along each way, and kept. `exact` is `pence` before rounding."""

    exact: dict[int, Fraction]
    pence: dict[int, int]
    handed_on: dict[Way, int]
    kept: dict[int, int]

    def handed_to(self, child: int) -> dict[int, int]:
        """What each parent handed to this lot."""
        return {way[0]: pence for way, pence in self.handed_on.items() if way[1] == child}


def flow(
    edges: Iterable[Edge],
    start_pence: Mapping[int, int],
    *,
    grams_in: Mapping[int, int],
    values: Mapping[int, Fraction] | None = None,
    way_values: Mapping[Way, Fraction | int] | None = None,
    claims: Mapping[int, int] | None = None,
    credited: Mapping[int, int] | None = None,
) -> CostFlow:
    """Cost by lot. Keys grow as lots are made, so a parent's is always below its child's.

    `start_pence`: what was paid for a lot itself (a carcass, the onions in a mix). `claims`: taken off the
    lot they were agreed on, before anything is handed on. `credited`: by-products held at a price of
    their own; that comes off first and the rest is borne by their siblings. `grams_in`: what each lot came
    to. `values`: what a gram counts for beside its siblings (1 where not named, 0 for waste); `way_values`:
    the same for one way alone, where a lot counts otherwise from one parent than from another.

    What is left of a lot keeps its share, counted like the average of what was taken from it that counts.
    Where only worthless things were taken and nothing is left, they bear it by weight.
    """
    taken = _by_parent(edges)
    counts: dict[int | Way, Fraction | int] = {}
    counts.update((child, value) for child, value in (values or {}).items())
    counts.update((way, value) for way, value in (way_values or {}).items())
    book = _Book(taken, grams_in, counts, credited or {})
    own: dict[int, int] = defaultdict(int, start_pence)
    for lot, claimed in (claims or {}).items():
        own[lot] -= claimed
    lots = sorted({*own, *grams_in, *taken, *(child for given in taken.values() for child in given)})
    exact: dict[int, Fraction] = {lot: Fraction(own[lot]) for lot in lots}
    borne: dict[int, int] = {lot: own[lot] for lot in lots}
    handed_on: dict[Way, int] = {}
    kept: dict[int, int] = {}
    for lot in lots:
        if lot not in taken:
            kept[lot] = borne[lot]
            continue
        fixed, rest = book.parts_of(lot, exact[lot])
        pence = {**fixed, **whole_pence(rest, borne[lot] - sum(fixed.values()))}
        kept[lot] = pence.pop(lot)
        for child, share in pence.items():
            exact[child] += fixed[child] if child in fixed else rest[child]
            borne[child] += share
            handed_on[lot, child] = share
    return CostFlow(exact, borne, handed_on, kept)


def _by_parent(edges: Iterable[Edge]) -> dict[int, dict[int, int]]:
    taken: dict[int, dict[int, int]] = defaultdict(dict)
    for edge in sorted(edges):
        if edge.parent >= edge.child or edge.grams < 0:
            raise ValueError("a lot is made after what it is made of, from weights not below nothing")
        given = taken[edge.parent]
        given[edge.child] = given.get(edge.child, 0) + edge.grams
    return dict(taken)


class _Book:
    """How each lot's cost parts between what was taken from it and what is left."""

    def __init__(
        self,
        taken: dict[int, dict[int, int]],
        grams_in: Mapping[int, int],
        values: Mapping[int | Way, Fraction | int],
        credited: Mapping[int, int],
    ) -> None:
        self._taken = taken
        self._grams_in = grams_in
        self._values = values
        self._fixed: dict[Way, int] = {}
        for child, pence in credited.items():
            self._share_out(child, pence)

    def _share_out(self, child: int, pence: int) -> None:
        """A by-product's own price, in whole pence by parent: they share it by the weight they gave."""
        gave = {lot: given[child] for lot, given in self._taken.items() if given.get(child)}
        whole = sum(gave.values())
        shares = {lot: Fraction(pence * grams, whole) for lot, grams in gave.items()}
        if shares:
            self._fixed.update({(lot, child): own for lot, own in whole_pence(shares, pence).items()})

    def parts_of(self, lot: int, cost: Fraction) -> tuple[dict[int, int], dict[int, Fraction]]:
        """Pence fixed for by-products, and exact pence for the rest: by child, and under the lot's own key
        what stays with what is left of it."""
        given = self._taken.get(lot, {})
        fixed = {child: self._fixed[lot, child] for child in given if (lot, child) in self._fixed}
        bearing = {child: grams for child, grams in given.items() if child not in fixed}
        weights: dict[int, Fraction | int] = {
            child: grams * self._value(lot, child) for child, grams in bearing.items()
        }
        weights[lot] = self._left(lot, given, weights)
        if not any(weights.values()):
            weights = {**bearing, lot: 0}
        rest, whole = cost - sum(fixed.values()), sum(weights.values())
        if not whole:  # nothing but things at a price of their own was taken: the difference stays here
            return fixed, {lot: rest}
        each = rest / whole
        return fixed, {key: each * weight for key, weight in weights.items()}

    def _value(self, lot: int, child: int) -> Fraction | int:
        value = self._values.get((lot, child))
        return self._values.get(child, 1) if value is None else value

    def _left(self, lot: int, given: dict[int, int], weights: dict[int, Fraction | int]) -> Fraction | int:
        left = max(0, self._grams_in.get(lot, 0) - sum(given.values()))
        counted = {child: weight for child, weight in weights.items() if weight}
        grams = sum(given[child] for child in counted)
        return left * Fraction(sum(counted.values())) / grams if left and grams else left
