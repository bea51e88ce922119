"""What was weighed off each animal, read from the register: cuts by side, what was boned, and by whom.

It weighs nothing and compares nothing: `yield_measures` makes shares of it, `yields` asks.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.lineage import Edge
from gametrace.domain.lots import LotKind
from gametrace.facts.cuts import product
from gametrace.register.clock import instant, wall_day
from gametrace.register.cost_values import MEAT, cut_tree
from gametrace.register.delivery_text import basis_from
from gametrace.store import journal, look_costs
from gametrace.store.engine import Connection

OFF_AT_DRESSING = frozenset({"skin", "head", "feet", "feathers", "pluck", "gut"})
STOCK_BONES = "stock-bones"
_SIDES = {"left-side": "left", "right-side": "right"}


@dataclass(frozen=True, slots=True)
class CutWeight:
    """One thing weighed off: a joint, a cut, bone, skin. Grams as it was weighed, on the bone or not."""

    code: str
    part: str  # product
    side: str  # left | right | ''
    grams: int
    animal_grams: int  # what lay on the block
    boneless_grams: int | None  # the meat that came off it once the bone was out; None where it was not boned
    cutter: str  # who cut it off; '' where nobody was named
    boned_by: str
    is_meat: bool
    is_boned: bool  # cut off without its bone: not to be held against a joint on the bone
    within: str  # the product it was cut from; '' for the carcass itself

    @property
    def share(self) -> Fraction:
        """Of what lay on the block."""
        return Fraction(self.grams, max(1, self.animal_grams))

    @property
    def boneless(self) -> Fraction | None:
        """Boneless of bone-in."""
        return None if self.boneless_grams is None else Fraction(self.boneless_grams, self.grams)


@dataclass(frozen=True, slots=True)
class AnimalYield:
    """One animal with everything weighed off it. `grams_in` is what lay on the block, dressed and dried."""

    code: str
    name: str
    species: str
    sex: str
    age_class: str
    supplier: str
    received_on: date
    grams_received: int
    received_in_skin: bool
    received_head_on: bool
    grams_in: int
    unaccounted_grams: int  # on the block
    left_grams: int  # not weighed yet
    cuts: tuple[CutWeight, ...]

    @property
    def is_finished(self) -> bool:
        return self.left_grams == 0

    def grams_of(self, *parts: str, side: str = "", cutter: str = "") -> int:
        """All that was weighed as one of these parts, each gram once. A joint counts on the bone only."""
        return sum(
            cut.grams
            for cut in self.cuts
            if cut.part in parts
            and (not side or cut.side == side)
            and (not cutter or cut.cutter == cutter)
            and cut.within not in parts
            and not (cut.is_boned and product(cut.part).level == "primal")
        )

    @property
    def cutters(self) -> tuple[str, ...]:
        return tuple(sorted({one for cut in self.cuts for one in (cut.cutter, cut.boned_by) if one}))


def read_animals(
    connection: Connection, rows: Iterable[Any], *, with_cutters: bool = True
) -> tuple[AnimalYield, ...]:
    """Everything weighed off these animals, in the order given."""
    chosen = list(rows)
    ids = [row.lot_id for row in chosen]
    cut, lot_rows = cut_tree(connection, ids)
    cutters = _cutters(connection, cut) if with_cutters else {}
    lost = _lost_at_dressing(connection, ids)
    return tuple(
        _animal(row, _Tree(row.lot_id, cut, lot_rows, cutters), lost.get(row.lot_id, 0)) for row in chosen
    )


def _cutters(connection: Connection, cut: Mapping[int, Any]) -> dict[int, str]:
    """By lot weighed off, the roster code of whoever cut it, where a session wrote one."""
    found: dict[int, str] = {}
    seqs = sorted({seq for _, seq in look_costs.entries_about(connection, ("lot.divided",), cut)})
    for entry in journal.entries(connection, seqs):
        if cutter := entry.body.get("cutter", ""):
            found.update({output["lot"]: cutter for output in entry.body["outputs"]})
    return found


def _lost_at_dressing(connection: Connection, lots: list[int]) -> dict[int, int]:
    """What was unaccounted for before the block, by animal."""
    lost: dict[int, int] = defaultdict(int)
    seqs = sorted({seq for _, seq in look_costs.entries_about(connection, ("carcass.dressed",), lots)})
    for entry in journal.entries(connection, seqs):
        lost[entry.body["lot"]] += entry.body["unaccounted"]
    return lost


_BONED = frozenset({"boneless", "diced", "minced"})


def is_boned(row: Any) -> bool:
    """Whether a lot is said to be without its bone; '' where its state was not said."""
    return getattr(row, "cut_state", "") in _BONED


class _Tree:
    """One animal's lots below it."""

    def __init__(
        self, top: int, cut: Mapping[int, list[Edge]], rows: Mapping[int, Any], cutters: Mapping[int, str]
    ) -> None:
        self.top, self.cut, self.rows, self.cutters = top, cut, rows, cutters

    def walk(self) -> Iterable[tuple[Any, Any, str]]:
        """(lot, what it was cut from, its side) for everything below, each parent first."""
        waiting = [(edge.child, self.top, "") for edge in self.cut.get(self.top, ())]
        while waiting:
            lot, parent, side = waiting.pop(0)
            row = self.rows[lot]
            own = row.side or _SIDES.get(row.product, side)
            yield row, self.rows[parent], own
            waiting += [(edge.child, lot, own) for edge in self.cut.get(lot, ())]

    def boned(self, row: Any) -> int | None:
        """The meat that came off a cut that was boned out to its end; None where it was not."""
        if row.id not in self.cut:
            return None
        below = [self.rows[edge.child] for edge in self.cut[row.id]]
        has_bone = any(one.product in ("bone", STOCK_BONES) for one in below)
        if row.kind not in MEAT or row.grams_left or not has_bone:
            return None
        meat = [one for one in below if one.kind in MEAT and one.product != STOCK_BONES]
        if any(one.product == row.product and not is_boned(one) for one in meat):
            return None  # packed as it was
        gone = sum(one.grams_in for one in below) + row.unaccounted
        elsewhere: int = max(0, row.grams_in - gone)  # straight into a dish or a mix: meat all the same
        return int(sum(one.grams_in for one in meat)) + elsewhere

    def boned_by(self, row: Any) -> str:
        return next((self.cutters[e.child] for e in self.cut.get(row.id, ()) if e.child in self.cutters), "")


def _animal(row: Any, tree: _Tree, lost_before: int) -> AnimalYield:
    found = list(tree.walk())
    off = sum(
        lot.grams_in
        for lot, parent, _ in found
        if parent.id == tree.top and (lot.product in OFF_AT_DRESSING or lot.kind == LotKind.DRYING)
    )
    grams_in = row.grams_in - off - lost_before
    basis = basis_from(row.received_basis)
    return AnimalYield(
        code=code_of(row.lot_id),
        name=row.name,
        species=row.species,
        sex=row.sex,
        age_class=row.age_class,
        supplier=row.supplier,
        received_on=wall_day(instant(row.received_at)),
        grams_received=row.grams_in,
        received_in_skin=basis.in_skin,
        received_head_on=basis.head_on,
        grams_in=grams_in,
        unaccounted_grams=row.unaccounted - lost_before,
        left_grams=row.grams_left,
        cuts=tuple(
            _cut(tree, lot, parent, side, grams_in)
            for lot, parent, side in found
            if lot.kind != LotKind.DRYING
        ),
    )


def _cut(tree: _Tree, row: Any, parent: Any, side: str, grams_in: int) -> CutWeight:
    return CutWeight(
        code=code_of(row.id),
        part=row.product,
        side=side,
        grams=row.grams_in,
        animal_grams=grams_in,
        boneless_grams=tree.boned(row),
        cutter=tree.cutters.get(row.id, ""),
        boned_by=tree.boned_by(row),
        is_meat=row.kind in MEAT,
        is_boned=is_boned(row),
        within="" if parent.id == tree.top else parent.product,
    )


def part_name(part: str) -> str:
    """A product as people call it; what is no product (returned) by its own word."""
    known = {"returned": "returned to the supplier", "drying": "drying loss"}
    return known.get(part) or product(part).name
