"""What any lot cost, and the picture of it: from what was paid for a beast down to its cuts.

Asks `cost_walk` and words the answer. A dish and its price are `dish_costs`'.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.costing import METHODS, unit_cost
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import LotKind
from gametrace.facts.cuts import product
from gametrace.register.cost_values import cut_tree
from gametrace.register.cost_walk import CostWalk, Credit, Purchase
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register

__all__ = ["CostLine", "CostPicture", "Credit", "FromAnimal", "LotCost", "PictureRow", "Purchase", "cost",
           "cost_picture"]  # fmt: skip
NOT_CUT = ""  # the product of what is still whole


@dataclass(frozen=True, slots=True)
class FromAnimal:
    """One animal's part in a lot: its exact share of the grams, and whole pence that sum to the cost."""

    purchase: Purchase | None  # None for what was not bought as an animal
    code: str
    name: str
    share: Fraction
    pence: int | None


@dataclass(frozen=True, slots=True)
class CostLine:
    """One thing made of a lot, and what it took along."""

    code: str
    name: str
    kind: str
    grams: int
    pence: dict[str, int | None]  # by method


@dataclass(frozen=True, slots=True)
class LotCost:
    """What one lot cost, each of the three ways. `method` is the kitchen's own."""

    code: str
    name: str
    kind: str
    grams: int
    method: str
    by_method: dict[str, int | None]
    why_unknown: tuple[str, ...]
    animals: tuple[FromAnimal, ...]
    lines: tuple[CostLine, ...]
    kept_grams: int  # still here of it
    kept_pence: dict[str, int | None]
    findings: tuple[Finding, ...]

    @property
    def pence(self) -> int | None:
        """By the kitchen's own way of spreading."""
        return self.by_method[self.method]

    @property
    def per_kg(self) -> Fraction | None:
        return None if self.pence is None or not self.grams else unit_cost(self.pence, self.grams)


@dataclass(frozen=True, slots=True)
class PictureRow:
    """Everything of one product that came off: its weight and its cost, each of the three ways."""

    product: str  # '' for what is still whole
    joint: str  # the joint it came from; itself for a joint
    name: str
    is_meat: bool
    grams: int
    pence: dict[str, int | None]
    codes: tuple[str, ...]

    def per_kg(self, method: str) -> Fraction | None:
        pence = self.pence[method]
        return None if pence is None or not self.grams else unit_cost(pence, self.grams)


@dataclass(frozen=True, slots=True)
class CostPicture:
    """From what was paid down to the cuts. Rows and `unaccounted_grams` come to `grams`; pence to `paid`."""

    code: str
    name: str
    grams: int
    method: str
    purchase: Purchase | None
    sold: tuple[Credit, ...]  # by-products sold
    paid: dict[str, int | None]  # after claims; by-products sold still in it
    rows: tuple[PictureRow, ...]
    unaccounted_grams: int
    why_unknown: dict[str, tuple[str, ...]]
    findings: tuple[Finding, ...] = field(default=())

    @property
    def meat(self) -> tuple[PictureRow, ...]:
        return tuple(row for row in self.rows if row.is_meat)


def cost(register: Register, code: str) -> LotCost:
    """What a lot cost, from which animals, and what each thing made of it took along."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today()).id
        return lot_cost(CostWalk(connection, [lot]), lot)


def lot_cost(walk: CostWalk, lot: int) -> LotCost:
    """The same from what has been read."""
    row = walk.rows[lot]
    mine = sorted(edge for edge in walk.edges if edge.parent == lot)
    return LotCost(
        code=code_of(lot),
        name=row.name,
        kind=row.kind,
        grams=row.grams_made,
        method=walk.method,
        by_method={way: walk.pence(lot, way) for way in METHODS},
        why_unknown=walk.why_unknown(lot),
        animals=tuple(_from_animals(walk, lot)),
        lines=tuple(
            CostLine(
                code=code_of(edge.child),
                name=walk.rows[edge.child].name,
                kind=walk.rows[edge.child].kind,
                grams=edge.grams,
                pence={way: walk.handed(lot, edge.child, way) for way in METHODS},
            )
            for edge in mine
        ),
        kept_grams=row.grams_left,
        kept_pence={way: _kept(walk, lot, way) for way in METHODS},
        findings=cost_findings(walk, lot),
    )


def _kept(walk: CostWalk, lot: int, method: str) -> int | None:
    return walk.flow(method).kept[lot] if walk.pence(lot, method) is not None else None


def _from_animals(walk: CostWalk, lot: int) -> list[FromAnimal]:
    return [
        FromAnimal(walk.purchases.get(root), code_of(root), walk.rows[root].name, share, pence)
        for root, (share, pence) in sorted(walk.by_animal(lot).items(), key=lambda one: (-one[1][0], one[0]))
    ]


def cost_findings(walk: CostWalk, lot: int) -> tuple[Finding, ...]:
    """What a person should know before believing the figure."""
    found = [
        Finding("cost-unknown", Severity.ASK, said, "Write it down and the cost is here at once.")
        for said in walk.why_unknown(lot)
    ]
    found += [
        Finding("cost-may-move", Severity.NOTE, said, "What it costs is settled when it is closed.")
        for said in walk.open_above(lot)
    ]
    found += [
        Finding("claim-awaited", Severity.NOTE, said, "The cost follows when it is credited.")
        for said in walk.awaited(lot)
    ]
    for one in walk.purchases.values():
        if _differs(one):
            found.append(
                Finding(
                    "price-basis",
                    Severity.ASK,
                    f"{one.code}: the price is agreed for “{one.agreed_basis}”; it was weighed {one.basis}.",
                    "Look at the invoice: which weight is paid?",
                )
            )
    return tuple(found)


def _differs(one: Purchase) -> bool:
    """Only what can be told for certain from a line somebody wrote: skinned, or in the skin."""
    agreed = one.agreed_basis.lower()
    if "skin" not in agreed or one.pence is None:
        return False
    return ("skinned" in agreed) != one.basis.startswith("skinned")


# -- the picture ------------------------------------------------------------------------------------------


def cost_picture(register: Register, code: str) -> CostPicture:
    """A beast, or a joint, down to what was cut from it: weight against cost, the three ways."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today()).id
        cut, _ = cut_tree(connection, [lot])
        tree: dict[int, int | None] = {lot: None}
        tree.update({edge.child: edge.parent for edges in cut.values() for edge in edges})
        return _picture(CostWalk(connection, tree), lot, tree)


def _picture(walk: CostWalk, lot: int, tree: dict[int, int | None]) -> CostPicture:
    cut_from: dict[int, list[int]] = defaultdict(list)
    for child, parent in tree.items():
        if parent is not None:
            cut_from[parent].append(child)
    grams: dict[tuple[str, str], int] = defaultdict(int)
    codes: dict[tuple[str, str], list[str]] = defaultdict(list)
    pence: dict[tuple[str, str], dict[str, int | None]] = {}
    for one in sorted(tree):
        row = walk.rows[one]
        own = row.grams_in - row.unaccounted - sum(walk.rows[child].grams_in for child in cut_from[one])
        bears = {way: _own_pence(walk, one, cut_from[one], way) for way in METHODS}
        if not own and not any(bears.values()):
            continue
        key = (NOT_CUT if one == lot else row.product or row.kind, _joint(walk, one, tree))
        grams[key] += own
        codes[key].append(code_of(one))
        before = pence.get(key, dict.fromkeys(METHODS, 0))
        pence[key] = {way: _sum(before[way], bears[way]) for way in METHODS}
    top = walk.rows[lot]
    return CostPicture(
        code=code_of(lot),
        name=top.name,
        grams=top.grams_in,
        method=walk.method,
        purchase=walk.purchases.get(lot),
        sold=tuple(
            Credit(f"{walk.rows[one].name}, {code_of(one)}, sold", walk.credited[one])
            for one in sorted(tree)
            if one in walk.credited
        ),
        paid={way: walk.pence(lot, way) for way in METHODS},
        rows=tuple(
            PictureRow(
                key[0],
                key[1],
                _row_name(walk, lot, key[0]),
                _is_meat(key[0]),
                grams[key],
                pence[key],
                tuple(codes[key]),
            )
            for key in sorted(grams, key=lambda one: _order(one, grams))
        ),
        unaccounted_grams=sum(walk.rows[one].unaccounted for one in tree),
        why_unknown={way: _why(walk, tree, way) for way in METHODS},
        findings=cost_findings(walk, lot),
    )


def _own_pence(walk: CostWalk, lot: int, cut: list[int], method: str) -> int | None:
    bears = walk.pence(lot, method)
    given = [walk.handed(lot, child, method) for child in cut]
    if bears is None or None in given:
        return None
    return bears - sum(one for one in given if one is not None)


def _sum(before: int | None, more: int | None) -> int | None:
    return None if before is None or more is None else before + more


def _why(walk: CostWalk, tree: dict[int, int | None], method: str) -> tuple[str, ...]:
    return walk.why_none(tree, method)


def _joint(walk: CostWalk, lot: int, tree: dict[int, int | None]) -> str:
    """The joint a cut came from: the first product under the carcass that is not a whole side."""
    way = [lot]
    while (parent := tree[way[-1]]) is not None:
        way.append(parent)
    for one in reversed(way[:-1]):
        if walk.rows[one].product not in ("left-side", "right-side"):
            return str(walk.rows[one].product)
    return str(walk.rows[lot].product)


def _order(key: tuple[str, str], grams: dict[tuple[str, str], int]) -> tuple[Any, ...]:
    """Meat first, joint by joint, the heaviest joint first; then what is not for food."""
    joint = sum(weight for (_, other), weight in grams.items() if other == key[1])
    return (not _is_meat(key[0]), key[0] == NOT_CUT, -joint, key[1], -grams[key], key[0])


def _is_meat(product_id: str) -> bool:
    return product_id == NOT_CUT or (product_id not in _NO_PRODUCT and product(product_id).is_meat)


_NO_PRODUCT = {LotKind.DRYING: "drying loss", LotKind.RETURNED: "returned to the supplier"}


def _row_name(walk: CostWalk, lot: int, product_id: str) -> str:
    if product_id == NOT_CUT:
        return f"{walk.rows[lot].name}, not cut yet" if walk.rows[lot].grams_left else walk.rows[lot].name
    if product_id in _NO_PRODUCT:
        return _NO_PRODUCT[LotKind(product_id)]
    return product(product_id).name
