"""Acts: portions left over go back to stock as a cooked lot with a date of its own, or to waste."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.dates import rule
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind
from gametrace.domain.portions import grams_of_portions
from gametrace.register.clock import instant, wall_day
from gametrace.register.cooking_records import COOLING, records_of
from gametrace.register.lot_facts import LotFacts, refuse_too_much
from gametrace.register.opening import Register
from gametrace.register.places import check_free_place
from gametrace.register.records import Changes
from gametrace.register.servings import dish_of, portions_gone, refuse_more_than_here
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection

_FINISHED = "cooling-done"


def keep_left_over(
    register: Register,
    *,
    by: str,
    code: str,
    portions: int,
    place: str = "",
    use_by: date | None = None,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Portions left over go back to stock as a cooked lot of their own, with a new date by the rule.

    The rule counts from the day the dish was made; `use_by` may only be sooner. A dish that nobody wrote
    down as cooled, or that was itself made of left-overs, asks for a reason. Changes.code is the new lot.
    """
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        dish = dish_of(work, code)
        refuse_more_than_here(work.connection, dish, portions)
        asked = _asked_of_left_over(work.connection, dish)
        if asked and not why:
            raise Refusal(asked, "Write it down, or say why it may be kept all the same.", "reason")
        last, words = _left_over_date(work.connection, dish)
        if use_by is not None and use_by > last:
            raise Refusal("The date may be sooner than the rule's, not later.", words, "use_by")
        if last < work.day:
            raise Refusal("Its days are over already.", "It goes to waste.", "use_by")
        output = _output(work, dish, portions)
        output |= {
            "kind": LotKind.MIX,  # without a product: see LotFacts.is_cooked
            "name": f"{dish.name}, left over",
            "place": check_free_place(work.connection, place) if place else "",
            "use_by": (use_by or last).isoformat(),
            "date_rule": words,
            "pack_state": "cooked",
            "note": why,
        }
        return _left_over(dish, output, portions)

    return perform(register, "dish.left-over", decide, by=by, happened_at=happened_at, key=key)


def bin_left_over(
    register: Register,
    *,
    by: str,
    code: str,
    portions: int,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Portions left over go to waste, with the reason; also of a dish that may not be served."""
    why = clean(reason, "reason", most=500, needed="Say why it goes.")

    def decide(work: Work) -> Plan:
        dish = dish_of(work, code)
        refuse_more_than_here(work.connection, dish, portions)
        output = _output(work, dish, portions)
        output |= {"kind": LotKind.WASTE, "product": "binned", "name": f"{dish.name}, binned", "note": why}
        return _left_over(dish, output, portions)

    return perform(register, "dish.left-over", decide, by=by, happened_at=happened_at, key=key)


def _output(work: Work, dish: LotFacts, portions: int) -> dict[str, Any]:
    made = look_lots.dish_details(work.connection, [dish.id])[dish.id]
    all_back = portions == made.portions - portions_gone(work.connection, dish.id, but_served=True)
    share = grams_of_portions(
        portions, of_portions=made.portions, grams_in=dish.grams_in, grams_left=dish.grams_left
    )
    grams = dish.grams_left if all_back else share
    refuse_too_much(dish, grams)
    return {
        "lot": work.new_lot(),
        "kind": "",
        "product": "",
        "side": "",
        "name": "",
        "species": dish.species,
        "grams": grams,
        "place": "",
        "use_by": None,
        "date_rule": "",
        "pack_state": "",
        "note": "",
    }


def _left_over(dish: LotFacts, output: dict[str, Any], portions: int) -> Plan:
    code = code_of(output["lot"])
    body = {"lot": dish.id, "portions": portions, "output": output}
    return Plan(body, codes=(code, dish.code), created=(code,))


def _asked_of_left_over(connection: Connection, dish: LotFacts) -> str:
    parents = [lot for lot, _ in look_lots.parents_of(connection, dish.id)]
    if look_plates.are_left_overs(connection, parents):
        return f"{dish.code} was made of left-overs already; kitchens keep and reheat once."
    cooled = [one for one in records_of(connection, dish.id, {}) if one.sort == COOLING]
    if not cooled:
        return f"Nobody has written down how {dish.code} was cooled."
    if not any(finding.code == _FINISHED for finding in cooled[-1].findings):
        return f"{dish.code} was not cooled in time by its last record."
    return ""


def _left_over_date(connection: Connection, dish: LotFacts) -> tuple[date, str]:
    """Two days from the day it was cooked, and never later than a left-over that went into it."""
    cooked = rule("cooked")
    last = cooked.last_day(wall_day(instant(dish.made_at)))
    parents = [lot for lot, _ in look_lots.parents_of(connection, dish.id)]
    already = look_plates.are_left_overs(connection, parents)
    dates = [
        date.fromisoformat(row.use_by)
        for row in look_lots.lot_rows(connection, parents)
        if row.use_by and row.id in already
    ]
    if dates and min(dates) < last:
        return min(dates), "the date of the left-overs in it"
    return last, f"{cooked.name}: {cooked.days} days ({cooked.source})"
