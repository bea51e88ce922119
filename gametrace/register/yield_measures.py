"""The shares a yield sheet shows, each with the published rows that were measured the same way.

A share is only held against a source whose whole is the same: of the carcass, of all cuts on the bone, of
the same cut on the bone, of the beast in its skin. Nothing is converted and nothing is rescaled.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from gametrace.domain.findings import Finding
from gametrace.domain.yields import OwnMedian, compare, few_count, median_of
from gametrace.facts.cut_tree import tree_for
from gametrace.facts.sources import citation
from gametrace.facts.yields import WHOLE, PublishedYield, published_yields, spreads
from gametrace.register.cost_values import THROWN_AWAY
from gametrace.register.yield_reading import OFF_AT_DRESSING, STOCK_BONES, AnimalYield, part_name

OF_CARCASS, OF_CUTS, OF_MEAT = "carcass", "cuts on the bone", "boneless meat"
OF_SAME, OF_IN_SKIN = "the same cut on the bone", "gralloched in the skin"
_ORDER = (OF_CARCASS, OF_CUTS, OF_SAME, OF_MEAT, OF_IN_SKIN)
# Where a source's breast is ribs, belly and neck together, so is ours beside it.
_WIDE_BREAST = {"breast": ("breast", "belly", "neck")}


@dataclass(frozen=True, slots=True)
class Spread:
    """One published figure for a share."""

    low: Fraction
    high: Fraction
    name: str
    animals: int  # 0 where the source does not say
    source: str
    status: str
    note: str
    is_of_its_sex: bool = True  # False: of the other sex, shown because nothing nearer is published


@dataclass(frozen=True, slots=True)
class Measure:
    """What share is meant: a part, of what, and on which sides."""

    kind: str  # cuts | boneless | tissues | dressing
    part: str
    of: str
    side: str = ""

    @property
    def name(self) -> str:
        """'haunch', 'left haunch', 'boneless of haunch'."""
        plain = self.part if self.kind in ("tissues", "dressing") else part_name(self.part)
        sided = f"{self.side} {plain}" if self.side else plain
        return f"boneless of {sided}" if self.of == OF_SAME else sided


@dataclass(frozen=True, slots=True)
class Point:
    """One animal's share."""

    code: str
    share: Fraction


@dataclass(frozen=True, slots=True)
class MeasureYield:
    """A share over the animals asked for: each one, the median once there are five, and what is published."""

    measure: Measure
    own: tuple[Point, ...]
    median: OwnMedian | None
    few: Finding | None
    published: tuple[Spread, ...] = ()

    @property
    def range(self) -> tuple[Fraction, Fraction] | None:
        shares = [one.share for one in self.own]
        return (min(shares), max(shares)) if shares else None


@dataclass(frozen=True, slots=True)
class Compared:
    """One animal's share beside everything it can be held against."""

    measure: Measure
    grams: int | None
    share: Fraction
    others: MeasureYield  # the larder's own, this one among them
    findings: tuple[Finding, ...] = field(default=())


class Shares:
    """Shares of animals, each worked out once, in however many groups an animal stands."""

    def __init__(self) -> None:
        self._known: dict[tuple[Measure, str], dict[str, Fraction | None]] = {}

    def of(
        self, measure: Measure, animals: Iterable[AnimalYield], cutter: str = ""
    ) -> Iterator[tuple[str, Fraction]]:
        """(code, share) of those of these animals that have one, in their order."""
        known, work_out = self._known.setdefault((measure, cutter), {}), _SHARES[measure.of]
        for one in animals:
            if one.code not in known:
                known[one.code] = work_out(measure, one, cutter)
            share = known[one.code]
            if share is not None:
                yield one.code, share


def measures_for(
    species: str, animals: Iterable[AnimalYield], shares: Shares | None = None
) -> tuple[Measure, ...]:
    """Every share that can be said of these animals, joints first, in the order of the cut tree."""
    found, shares = list(animals), shares or Shares()
    weighed = {cut.part for one in found for cut in one.cuts if cut.is_meat}
    order = [cut.id for cut in tree_for(species).walk() if cut.id in weighed] if species else sorted(weighed)
    order += sorted(weighed - set(order))
    boned = {cut.part for one in found for cut in one.cuts if cut.boneless_grams is not None}
    measures = [Measure("cuts", part, OF_CARCASS) for part in order]
    measures += [Measure("boneless", part, OF_SAME) for part in order if part in boned]
    measures += [Measure("tissues", "bone", OF_CARCASS), Measure("tissues", "muscle and fat", OF_CARCASS)]
    for row in _rows(species):
        if row.of in (OF_CUTS, OF_MEAT, OF_IN_SKIN):
            measures += [Measure(row.kind, one.part, row.of) for one in row.parts]
    kept = [one for one in dict.fromkeys(measures) if any(True for _ in shares.of(one, found))]
    return tuple(sorted(kept, key=lambda one: _ORDER.index(one.of)))  # stable: the cut tree's order stays


def _rows(species: str) -> tuple[PublishedYield, ...]:
    return tuple(row for row in published_yields() if species in row.species)


def share_of(measure: Measure, animal: AnimalYield) -> Fraction | None:
    """One animal's share, exactly; None where it was not weighed, or is not weighed to its end."""
    return _SHARES[measure.of](measure, animal, "")


def _of_carcass(measure: Measure, animal: AnimalYield, cutter: str) -> Fraction | None:
    if measure.kind == "tissues":
        return _tissue(measure.part, animal)
    grams = animal.grams_of(measure.part, side=measure.side, cutter=cutter)
    return Fraction(grams, animal.grams_in) if grams and animal.is_finished else None


def _of_same(measure: Measure, animal: AnimalYield, cutter: str) -> Fraction | None:
    boned = [
        cut
        for cut in animal.cuts
        if cut.part == measure.part
        and cut.boneless_grams is not None
        and (not measure.side or cut.side == measure.side)
        and (not cutter or cut.boned_by == cutter)
    ]
    grams = sum(cut.grams for cut in boned)
    return Fraction(sum(cut.boneless_grams or 0 for cut in boned), grams) if grams else None


def _joint(part: str, animal: AnimalYield) -> int:
    return animal.grams_of(*_WIDE_BREAST.get(part, (part,)))


def _of_cuts(measure: Measure, animal: AnimalYield, _cutter: str) -> Fraction | None:
    all_joints = sum(_joint(part, animal) for part in ("saddle", "haunch", "shoulder", "breast"))
    mine = _joint(measure.part, animal)
    return Fraction(mine, all_joints) if mine and animal.is_finished else None


def _boneless(parts: tuple[str, ...], animal: AnimalYield) -> int | None:
    """The boneless meat of some joints; None where one of them was not boned."""
    mine = [cut for cut in animal.cuts if cut.part in parts and cut.within not in parts]
    if not mine or any(cut.boneless_grams is None for cut in mine):
        return None
    return sum(cut.boneless_grams or 0 for cut in mine)


_JOINTS = ("saddle", "haunch", "shoulder", "breast", "belly", "neck")


def _of_meat(measure: Measure, animal: AnimalYield, _cutter: str) -> Fraction | None:
    whole = _boneless(_JOINTS, animal)
    mine = _boneless(_WIDE_BREAST.get(measure.part, (measure.part,)), animal)
    return Fraction(mine, whole) if mine and whole and animal.is_finished else None


_STILL_MEAT = frozenset({"bone", "fat", THROWN_AWAY})  # bone is taken off by itself; the bin got good meat


def _tissue(part: str, animal: AnimalYield) -> Fraction | None:
    """Bone, or meat and fat, of a carcass whose joints were all boned."""
    if not animal.is_finished or _boneless(_JOINTS, animal) is None:
        return None
    bone = sum(
        cut.grams for cut in animal.cuts if cut.part in ("bone", STOCK_BONES) and cut.within != STOCK_BONES
    )
    if part == "bone":
        return Fraction(bone, animal.grams_in)
    lost = sum(cut.grams for cut in animal.cuts if not cut.is_meat and cut.part not in _STILL_MEAT)
    off = sum(cut.grams for cut in animal.cuts if cut.part in OFF_AT_DRESSING)
    kept = animal.grams_in - bone - (lost - off) - animal.unaccounted_grams
    return Fraction(kept, animal.grams_in)


def _of_in_skin(measure: Measure, animal: AnimalYield, _cutter: str) -> Fraction | None:
    if not (animal.received_in_skin and animal.received_head_on and animal.is_finished):
        return None
    if measure.part == "skin, head and feet":
        off = [animal.grams_of(part) for part in ("skin", "head", "feet")]
        return Fraction(sum(off), animal.grams_received) if all(off) else None
    if measure.part == "boneless":
        meat = _boneless(_JOINTS, animal)
        return Fraction(meat, animal.grams_received) if meat else None
    if measure.part == "bone":
        bone = animal.grams_of("bone", STOCK_BONES)
        return Fraction(bone, animal.grams_received) if bone and _boneless(_JOINTS, animal) else None
    return None  # trim and drying: what they hold differs from kitchen to kitchen


_SHARES: dict[str, Callable[[Measure, AnimalYield, str], Fraction | None]] = {
    OF_CARCASS: _of_carcass,
    OF_CUTS: _of_cuts,
    OF_SAME: _of_same,
    OF_MEAT: _of_meat,
    OF_IN_SKIN: _of_in_skin,
}


def measured(
    measure: Measure,
    animals: Iterable[AnimalYield],
    *,
    species: str,
    sex: str,
    cutter: str = "",
    known: Shares | None = None,
) -> MeasureYield:
    """A share over these animals. Of one side or one cutter nothing published is shown for a paired joint."""
    own = tuple(Point(code, share) for code, share in (known or Shares()).of(measure, animals, cutter))
    shares = [one.share for one in own]
    is_part = bool(measure.side or cutter) and measure.of != OF_SAME
    return MeasureYield(
        measure,
        own,
        median_of(shares),
        few_count(len(own)) if own else None,
        () if is_part or not species else published(measure, species, sex),
    )


def published(measure: Measure, species: str, sex: str) -> tuple[Spread, ...]:
    """What sources print for this share, measured of the same whole."""
    nearest = _printed(measure, species, sex)
    if nearest:
        return tuple(_spread(row, measure.part) for row in nearest)
    others = _printed(measure, species, "unknown")
    return tuple(replace(_spread(row, measure.part), is_of_its_sex=False) for row in others)


def _printed(measure: Measure, species: str, sex: str) -> tuple[PublishedYield, ...]:
    rows = spreads(species, sex or "unknown", measure.part, measure.kind)
    return tuple(row for row in rows if row.of == measure.of)


def _spread(row: PublishedYield, part: str) -> Spread:
    held = row.share(part)
    assert held is not None  # `spreads` gives only rows that have it
    low, high = Fraction(held.low, WHOLE), Fraction(held.high, WHOLE)
    return Spread(low, high, row.name, row.n, citation(row.source), row.status, row.note)


def beside_published(measure: Measure, share: Fraction, species: str, sex: str) -> tuple[Finding, ...]:
    """One finding a source: within what it prints, a little off it, or far off it."""
    return compare(measure.part, share, _printed(measure, species, sex))
