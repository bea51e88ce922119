"""Acts: a dish cooked, kept hot, cooled, reheated, each ruled on as it is written down; and its allergens.

What was measured is kept whatever the ruling says. A stop keeps the dish from being served until it is
cooked on, or until somebody writes down what the kitchen's own food safety plan says instead.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from datetime import datetime

from gametrace.domain.cooking import cook_findings, cooling_findings, hot_hold_findings, reheat_findings
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.ingredients import Ingredient, ingredient_findings
from gametrace.domain.lots import LotKind
from gametrace.facts.allergens import allergens
from gametrace.facts.cooking import MEATS, meat_rule
from gametrace.facts.species import species as species_called
from gametrace.register.clock import instant
from gametrace.register.lot_facts import LotFacts
from gametrace.register.mixes import ingredients_in
from gametrace.register.opening import Register
from gametrace.register.plate_records import KitchenRecord
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_lots, look_plates
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

COOKING, HOT_HOLD, COOLING, REHEAT = "cooking", "hot hold", "cooling", "reheat"
_COLDEST, _HOTTEST = -300, 1300  # tenths of a degree a kitchen's probe can show
_LONGEST = 48 * 3600
_MINCED = frozenset({"mince", "sausage-meat", "dice", "trim"})
_OFFAL = frozenset({"liver", "heart", "kidney", "kidneys"})


def record_cooking(
    register: Register,
    *,
    by: str,
    code: str,
    tenths_c: int,
    seconds: int,
    probe: str = "",
    meat: str = "",
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """The temperature at the core and how long it was held, against the longer of two published tables.

    `meat` is whole, minced, boar or offal; left out, it is read from what went in, and it is never taken for
    less than that. `note` says what the kitchen's own plan allows instead. Changes.findings is the ruling.
    """

    def decide(work: Work) -> Plan:
        dish = _dish(work, code)
        sort = _meat(work.connection, dish, meat)
        findings = cook_findings(tenths_c, seconds, meat=sort)
        return _recorded(dish, COOKING, tenths_c, seconds, probe, note, findings, meat=sort)

    _check(tenths_c, seconds)
    return perform(register, "kitchen.recorded", decide, by=by, happened_at=happened_at, key=key)


def record_hot_hold(
    register: Register,
    *,
    by: str,
    code: str,
    tenths_c: int,
    minutes_below: int = 0,
    probe: str = "",
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """How hot the dish was kept, and for how many minutes it was below the figure of this jurisdiction."""
    _check(tenths_c, minutes_below * 60)

    def decide(work: Work) -> Plan:
        dish = _dish(work, code)
        findings = hot_hold_findings(tenths_c, minutes_below, _jurisdiction(register))
        return _recorded(dish, HOT_HOLD, tenths_c, minutes_below * 60, probe, note, findings)

    return perform(register, "kitchen.recorded", decide, by=by, happened_at=happened_at, key=key)


def record_cooling(
    register: Register,
    *,
    by: str,
    code: str,
    tenths_c: int,
    minutes: int,
    probe: str = "",
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """How cold the dish has become and how many minutes that took."""
    _check(tenths_c, minutes * 60)

    def decide(work: Work) -> Plan:
        dish = _dish(work, code)
        findings = cooling_findings(minutes, tenths_c)
        return _recorded(dish, COOLING, tenths_c, minutes * 60, probe, note, findings)

    return perform(register, "kitchen.recorded", decide, by=by, happened_at=happened_at, key=key)


def record_reheat(
    register: Register,
    *,
    by: str,
    code: str,
    tenths_c: int,
    seconds: int,
    probe: str = "",
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Reheated: by the figure in law where there is one, else by the cooking tables; a second time asks."""
    _check(tenths_c, seconds)

    def decide(work: Work) -> Plan:
        dish = _dish(work, code)
        before = times_reheated(work.connection, dish.id)
        findings = reheat_findings(tenths_c, seconds, _jurisdiction(register), times_before=before)
        return _recorded(dish, REHEAT, tenths_c, seconds, probe, note, findings)

    return perform(register, "kitchen.recorded", decide, by=by, happened_at=happened_at, key=key)


def note_ingredients(
    register: Register,
    *,
    by: str,
    code: str,
    ingredients: Sequence[Ingredient],
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """What is in the dish besides game, each with its packet's lot and its allergens, None where unread.

    An ingredient past its last day is refused; what is missing is a finding.
    """
    if not ingredients:
        raise Refusal("No ingredient has been written.", "Type its name.", "name")

    def decide(work: Work) -> Plan:
        dish = _dish(work, code)
        findings = tuple(f for one in ingredients for f in ingredient_findings(one, work.day))
        if stop := next((f for f in findings if f.severity is Severity.STOP), None):
            raise Refusal(stop.sentence, stop.what_to_do, "last_day")
        spelled = [
            {
                "name": clean(one.name, "name", needed="What is it called?"),
                "packet": clean(one.lot, "packet"),
                "supplier": clean(one.supplier, "supplier"),
                "allergens": None if one.allergens is None else _in_order(one.allergens),
                "last_day": one.last_day.isoformat() if one.last_day else None,
            }
            for one in ingredients
        ]
        return Plan({"lot": dish.id, "ingredients": spelled}, codes=(dish.code,), findings=findings)

    return perform(register, "dish.ingredients", decide, by=by, happened_at=happened_at, key=key)


def _in_order(declared: Iterable[str]) -> list[str]:
    return [one.id for one in allergens() if one.id in set(declared)]


def _dish(work: Work, code: str) -> LotFacts:
    lot = work.lot(code)
    if lot.kind != LotKind.DISH:
        raise Refusal(f"{lot.code} is not a dish.", "Make the dish first, then write this down.", "code")
    return lot


def _check(tenths_c: int, seconds: int) -> None:
    if not _COLDEST <= tenths_c <= _HOTTEST:
        raise Refusal("No kitchen's probe shows that.", "Read it again, in °C.", "tenths_c")
    if not 0 <= seconds <= _LONGEST:
        raise Refusal("That time cannot be.", "Count it again.", "seconds")


def _jurisdiction(register: Register) -> str:
    return register.larder.jurisdiction or "england-wales"


def _recorded(
    dish: LotFacts,
    sort: str,
    tenths_c: int,
    seconds: int,
    probe: str,
    note: str,
    findings: tuple[Finding, ...],
    *,
    meat: str = "",
) -> Plan:
    body = {
        "lot": dish.id,
        "sort": sort,
        "tenths_c": tenths_c,
        "seconds": seconds,
        "probe": clean(probe, "probe", most=80),
        "meat": meat,
        "note": clean(note, "note", most=500),
        "findings": [finding.to_dict() for finding in findings],
    }
    return Plan(body, codes=(dish.code,), findings=findings)


def meat_of(connection: Connection, dish: int) -> str:
    """What the ruling takes a dish for: boar before minced before offal before whole, by all that went in."""
    edges = edges_above(connection, [dish])
    above = look_lots.lot_rows(connection, {edge.parent for edge in edges})
    animals = look_carcasses.carcass_rows(connection, [row.id for row in above])
    given = {edge.parent for edge in edges if edge.child == dish}
    if any(species_called(row.species).group == "boar" for row in animals):
        return "boar"
    # An animal or a cut that was only a parent of whole cuts says nothing; mince anywhere above stays mince.
    if any(row.kind == LotKind.MIX or (row.id in given and row.product in _MINCED) for row in above):
        return "minced"
    return "offal" if any(row.id in given and row.product in _OFFAL for row in above) else "whole"


def _meat(connection: Connection, dish: LotFacts, said: str) -> str:
    held = meat_of(connection, dish.id)
    if not said:
        return held
    if said not in MEATS:
        raise Refusal("Meat is whole, minced, boar or offal.", "Choose one.", "meat")
    if meat_rule(said).may_be_pink and not meat_rule(held).may_be_pink:
        raise Refusal(
            f"What went into {dish.code} is {meat_rule(held).name}.",
            "It is not a whole cut: leave the choice to what went in.",
            "meat",
        )
    return said


def times_reheated(connection: Connection, dish: int) -> int:
    """How often any of what is in the pot was reheated before, this dish and those it came from."""
    lots = {dish, *(edge.parent for edge in edges_above(connection, [dish]))}
    return sum(row.sort == REHEAT for row in look_plates.kitchen_records(connection, lots))


def records_of(connection: Connection, dish: int, initials: dict[str, str]) -> tuple[KitchenRecord, ...]:
    """Every record of a dish, in the order it happened. `initials` by person; their code where unknown."""
    return tuple(
        KitchenRecord(
            seq=row.seq,
            sort=row.sort,
            at=instant(row.happened_at),
            by=initials.get(row.person, row.person),
            tenths_c=row.tenths_c,
            seconds=row.seconds,
            probe=row.probe,
            meat=row.meat,
            note=row.note,
            findings=tuple(Finding.from_dict(one) for one in json.loads(row.findings)),
        )
        for row in look_plates.kitchen_records(connection, [dish])
    )


def unanswered_stop(records: Sequence[KitchenRecord]) -> str:
    """Why a dish may not go out by its own records; '' where nothing there stops it.

    The last cooking or reheating counts; a hot hold that was too long is not undone by another.
    """
    heated = [one for one in records if one.sort in (COOKING, REHEAT)][-1:]
    for one in (*heated, *(one for one in records if one.sort == HOT_HOLD)):
        for finding in one.findings:
            if finding.severity is Severity.STOP and not one.note:
                return finding.sentence
    return ""


def ingredients_behind(connection: Connection, lot: int) -> tuple[Ingredient, ...]:
    """Everything besides game in a lot and in all the mixes and dishes it was made from, each once."""
    lots = sorted({lot, *(edge.parent for edge in edges_above(connection, [lot]))})
    found = [
        Ingredient(
            name=row.name,
            lot=row.packet,
            supplier=row.supplier,
            allergens=None if row.allergens is None else frozenset(row.allergens.split()),
        )
        for row in look_plates.ingredients(connection, lots)
    ]
    return tuple(dict.fromkeys([*ingredients_in(connection, lot), *found]))
