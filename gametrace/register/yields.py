"""The questions about yields: one animal beside the published spreads and the larder's own, groups, sides.

No league of anybody is made: a cutter is shown beside the larder's median, and only where one is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from typing import Any

from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.yields import ENOUGH_FOR_A_MEDIAN, NEWEST, published_closes, weights_close
from gametrace.facts.species import species as species_called
from gametrace.facts.yields import published_yields
from gametrace.register.assembling import Assembler
from gametrace.register.lists import span
from gametrace.register.lot_facts import lot_facts
from gametrace.register.naming import age_name
from gametrace.register.opening import Register
from gametrace.register.yield_measures import (
    OF_CARCASS,
    OF_SAME,
    Compared,
    Measure,
    MeasureYield,
    Shares,
    beside_published,
    measured,
    measures_for,
    share_of,
)
from gametrace.register.yield_reading import OFF_AT_DRESSING, AnimalYield, read_animals
from gametrace.store import look_costs
from gametrace.store.engine import Connection

GROUPINGS = ("carcass", "species", "sex", "age", "supplier", "cutter", "side")
SIDES = ("left", "right")
_AT_ONCE = 1_000  # animals read in one look


@dataclass(frozen=True, slots=True)
class SideBySide:
    """One cut's left and right: grams, share of what lay on the block, boneless of bone-in."""

    part: str
    name: str
    grams: tuple[int, int]
    shares: tuple[Fraction, Fraction]
    boneless: tuple[Fraction | None, Fraction | None]
    cutters: tuple[str, str]


@dataclass(frozen=True, slots=True)
class YieldOf:
    """One animal's yields with everything they can be held against."""

    animal: AnimalYield
    compared: tuple[Compared, ...]
    sides: tuple[SideBySide, ...]
    like_it: int  # finished animals it is held against, itself among them
    like_words: str  # which those are: 'fallow doe, the newest 500', or wider while there are few
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class YieldGroup:
    """The animals (or cuts) that share one thing, and their yields."""

    key: str
    words: str
    animals: tuple[AnimalYield, ...]
    measures: tuple[MeasureYield, ...]


@dataclass(frozen=True, slots=True)
class YieldSheet:
    """Yields over a choice of animals, as a whole and in groups."""

    animals: tuple[AnimalYield, ...]
    measures: tuple[MeasureYield, ...]
    groups: tuple[YieldGroup, ...]
    findings: tuple[Finding, ...] = field(default=())
    is_cut_off: bool = False  # older animals were chosen too and left out, as `newest` said


def yield_of(register: Register, code: str, newest: int = NEWEST) -> YieldOf:
    """The yields of one animal, held against the `newest` of its like."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today())
        row = next(iter(look_costs.block_lots(connection, lot_id=lot.id)), None)
        if row is None:
            raise Refusal(
                f"Nothing has been weighed off {lot.code} yet, or it is not one animal.",
                "Choose a carcass that was cut on the block.",
                "code",
            )
        (mine,) = read_animals(connection, [row])
        like_rows, like_words = _like(connection, row, newest)
        like = read_animals(connection, like_rows, with_cutters=False)
    measures = measures_for(mine.species, [mine])
    compared = tuple(
        Compared(
            measure,
            mine.grams_of(measure.part) if measure.of == OF_CARCASS and measure.kind == "cuts" else None,
            share,
            measured(measure, like, species=mine.species, sex=mine.sex),
            beside_published(measure, share, mine.species, mine.sex),
        )
        for measure in measures
        if (share := share_of(measure, mine)) is not None
    )
    return YieldOf(
        animal=mine,
        compared=compared,
        sides=side_by_side(mine),
        like_it=sum(one.is_finished for one in like),
        like_words=like_words,
        findings=(*_balance(mine), *_printed_findings(mine.species)),
    )


def _like(connection: Connection, mine: Any, newest: int) -> tuple[list[Any], str]:
    """Animals of its species, sex and age; of its species and sex, or its species, while there are few.

    The newest of them, and itself.
    """
    kind = species_called(mine.species).name
    for narrower, words in (
        ({"sex": mine.sex, "age_class": mine.age_class}, mine.name),
        ({"sex": mine.sex}, f"{kind}, {mine.sex}"),
        ({}, kind),
    ):
        found = list(look_costs.block_lots(connection, species=mine.species, **narrower, most=newest + 1))
        if not narrower or sum(one.grams_left == 0 for one in found) >= ENOUGH_FOR_A_MEDIAN:
            return _newest(found, words, mine, newest)
    raise AssertionError("the last choice is always taken")


def _newest(found: list[Any], words: str, mine: Any, newest: int) -> tuple[list[Any], str]:
    if len(found) <= newest:
        return found, words
    found = found[:newest]
    words = f"{words}, the newest {newest}"
    if all(one.lot_id != mine.lot_id for one in found):
        return [*found, mine], f"{words} and itself"
    return found, words


def _balance(one: AnimalYield) -> tuple[Finding, ...]:
    """What is not accounted for, to the gram; before the end of a break-down it is simply unweighed."""
    weighed = {cut.code: cut.grams for cut in one.cuts if not cut.within and cut.part not in OFF_AT_DRESSING}
    found = weights_close(weighed, one.grams_in - one.left_grams)
    return (
        () if found is None else (replace(found, severity=Severity.NOTE),)
    )  # asked about when it was closed


def _printed_findings(species: str) -> tuple[Finding, ...]:
    """Published rows of this kind that should come to 100 and do not."""
    return tuple(
        found
        for row in published_yields()
        if species in row.species and (found := published_closes(row)) is not None
    )


def side_by_side(animal: AnimalYield) -> tuple[SideBySide, ...]:
    """Every cut that has a left and a right, in the order it was weighed."""
    parts = dict.fromkeys(cut.part for cut in animal.cuts if cut.side and cut.is_meat)
    found = []
    for part in parts:
        pairs = [
            [cut for cut in animal.cuts if cut.part == part and cut.side == side and cut.within != part]
            for side in SIDES
        ]
        if not all(pairs):
            continue
        boned = [share_of(Measure("boneless", part, OF_SAME, side), animal) for side in SIDES]
        grams = [sum(cut.grams for cut in cuts) for cuts in pairs]
        who = [", ".join(sorted({cut.boned_by or cut.cutter for cut in cuts} - {""})) for cuts in pairs]
        measure = Measure("cuts", part, OF_CARCASS)
        found.append(
            SideBySide(
                part=part,
                name=measure.name,
                grams=(grams[0], grams[1]),
                shares=(Fraction(grams[0], animal.grams_in), Fraction(grams[1], animal.grams_in)),
                boneless=(boned[0], boned[1]),
                cutters=(who[0], who[1]),
            )
        )
    return tuple(found)


def yields(
    register: Register,
    *,
    by: str = "species",
    species: str = "",
    sex: str = "",
    age_class: str = "",
    supplier: str = "",
    cutter: str = "",
    side: str = "",
    first: date | None = None,
    last: date | None = None,
    newest: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> YieldSheet:
    """Yields of the animals chosen, grouped by one thing: see GROUPINGS. '' chooses all.

    `first` and `last` are days of receipt, both included; `newest` takes the newest so many of those.
    `progress(done, of)` is told in animals on the way: ten years of a busy house take many seconds.
    """
    if by not in GROUPINGS:
        raise Refusal(f"Yields are not grouped by “{by[:40]}”.", f"Choose {', '.join(GROUPINGS)}.", "by")
    if side and side not in SIDES:
        raise Refusal(f"“{side[:40]}” is not a side.", "Choose left or right, or neither.", "side")
    with register.store.reading() as connection:
        rows = look_costs.block_lots(
            connection,
            species=species or None,
            sex=sex or None,
            age_class=age_class or None,
            supplier=supplier or None,
            span=span(first, last),
            most=None if newest is None else newest + 1,
        )
        is_cut_off = newest is not None and len(rows) > newest
        rows = rows[:newest]
        read: list[AnimalYield] = []
        for at in range(0, len(rows), _AT_ONCE):
            if progress is not None:
                progress(at, len(rows))
            some = rows[at : at + _AT_ONCE]
            read += read_animals(connection, some, with_cutters=by == "cutter" or bool(cutter))
        animals = tuple(one for one in read if not cutter or cutter in one.cutters)
        names = {code: one.name for code, one in Assembler(connection, register.today()).suppliers.items()}
    kinds, known = {one.species for one in animals}, Shares()
    return YieldSheet(
        animals=animals,
        measures=_measures(animals, known, side, cutter),
        groups=_groups(by, animals, names, known, side, cutter),
        findings=tuple(found for kind in sorted(kinds) for found in _printed_findings(kind)),
        is_cut_off=is_cut_off,
    )


def _measures(
    animals: Iterable[AnimalYield], known: Shares, side: str, cutter: str
) -> tuple[MeasureYield, ...]:
    """Over animals of one kind with what is published; over several kinds only the larder's own."""
    found = list(animals)
    kinds, sexes = {one.species for one in found}, {one.sex for one in found}
    kind = kinds.pop() if len(kinds) == 1 else ""
    sex = sexes.pop() if len(sexes) == 1 else "unknown"
    wanted = measures_for(kind, found, known)
    if side or cutter:
        wanted = tuple(
            Measure(one.kind, one.part, one.of, side)
            for one in wanted
            if one.of in (OF_SAME, OF_CARCASS) and one.kind != "tissues"
        )
    made = (measured(one, found, species=kind, sex=sex, cutter=cutter, known=known) for one in wanted)
    return tuple(one for one in made if one.own)


def _groups(
    by: str,
    animals: tuple[AnimalYield, ...],
    names: dict[str, str],
    known: Shares,
    side: str,
    cutter: str,
) -> tuple[YieldGroup, ...]:
    if by == "side":
        made = [YieldGroup(one, one, animals, _measures(animals, known, one, cutter)) for one in SIDES]
        return tuple(one for one in made if one.measures)
    if by == "cutter":
        codes = sorted({one for animal in animals for one in animal.cutters})
        return tuple(
            YieldGroup(code, code, cut, _measures(cut, known, side, code))
            for code in codes
            if (cut := tuple(animal for animal in animals if code in animal.cutters))
        )
    groups: dict[str, list[AnimalYield]] = {}
    for one in animals:
        groups.setdefault(_key(by, one), []).append(one)
    return tuple(
        YieldGroup(key, _words(by, found[0], names), tuple(found), _measures(found, known, side, cutter))
        for key, found in sorted(groups.items(), key=lambda group: (-len(group[1]), group[0]))
    )


def _key(by: str, one: AnimalYield) -> str:
    return {
        "carcass": one.code,
        "species": one.species,
        "sex": one.sex,
        "age": f"{one.species} {one.age_class}",
        "supplier": one.supplier,
    }[by]


def _age(one: AnimalYield) -> str:
    return age_name(one.species, one.sex, one.age_class)


def _words(by: str, one: AnimalYield, names: dict[str, str]) -> str:
    match by:
        case "carcass":
            return f"{one.code}, {one.name}"
        case "species":
            return species_called(one.species).name
        case "sex":
            return one.sex
        case "age":
            return f"{species_called(one.species).name}, {_age(one) or 'age not said'}"
    return names.get(one.supplier, one.supplier)
