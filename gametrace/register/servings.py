"""Acts and questions of the night: what was served to whom, what changed in the pot, what was left over."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.dates import rule
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind
from gametrace.domain.portions import grams_of_portions
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.block import gather
from gametrace.register.clock import instant, wall_day
from gametrace.register.cooking_records import COOLING, records_of, unanswered_stop
from gametrace.register.lot_facts import LotFacts, facts_of, refuse_too_much
from gametrace.register.opening import Register
from gametrace.register.places import check_free_place
from gametrace.register.plates import OCCASIONS
from gametrace.register.pot import claims_of, pot_of, refuse_what_the_menu_denies
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection

MOST_PORTIONS = 10_000
_FINISHED = "cooling-done"


def serve_dish(
    register: Register,
    *,
    by: str,
    code: str,
    portions: int,
    to_group: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """So many portions went out, to a table, a group or whoever. The last gate stands here once more."""
    group = clean(to_group, "to_group")

    def decide(work: Work) -> Plan:
        dish = dish_of(work, code)
        if dish.stops:
            raise Refusal(f"{dish.why}.", "It does not go out. Ask the tutor.", "code")
        if why := unanswered_stop(records_of(work.connection, dish.id, {})):
            raise Refusal(
                why, "Put that right, or write down what the kitchen's own food safety plan says.", "code"
            )
        refuse_more_than_here(work.connection, dish, portions)
        return Plan({"lot": dish.id, "portions": portions, "to_group": group}, codes=(dish.code,))

    return perform(register, "dish.served", decide, by=by, happened_at=happened_at, key=key)


def change_dish(
    register: Register,
    *,
    by: str,
    code: str,
    added: Sequence[tuple[str, int | None]] = (),
    not_used: Sequence[tuple[str, int | None]] = (),
    portions: int | None = None,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Substitutions on the night, written as what they are: meat that went in too, meat that did not.

    What is added passes the last gate. What was not used goes back to the lot it came from, gram for gram.
    `portions` puts the number of portions right.
    """
    why = clean(reason, "reason", most=500, needed="Say why it changed.")

    def decide(work: Work) -> Plan:
        dish = dish_of(work, code)
        made = look_lots.dish_details(work.connection, [dish.id])[dish.id]
        now = made.portions if portions is None else portions
        if not (added or not_used) and now == made.portions:
            raise Refusal("Nothing is different.", "Say what went in, or what did not.", "added")
        gone = portions_gone(work.connection, dish.id)
        if not max(1, gone) <= now <= MOST_PORTIONS:
            raise Refusal(
                f"{gone} portions have gone out or come back already.", "Count the plates again.", "portions"
            )
        taken = gather(work, added) if added else []
        _refuse_younger(dish, taken)
        back = _back(work, dish, not_used)
        after = _inputs_after(work.connection, dish, taken, back)
        lots = {lot: facts_of(work.connection, lot, work.day) for lot, _ in after}
        _refuse_menu(work.connection, dish, after)
        species = {lot.species for lot in lots.values()}
        body = {
            "lot": dish.id,
            "added": [[lot.id, grams] for lot, grams in taken],
            "not_used": [[lot.id, grams] for lot, grams in back],
            "species": species.pop() if len(species) == 1 else "",
            "portions": now,
            "was_portions": made.portions,
            "reason": why,
        }
        codes = (dish.code, *(lot.code for lot, _ in (*taken, *back)))
        return Plan(body, codes=tuple(dict.fromkeys(codes)))

    return perform(register, "dish.changed", decide, by=by, happened_at=happened_at, key=key)


def _refuse_younger(dish: LotFacts, taken: Sequence[tuple[LotFacts, int]]) -> None:
    for lot, _ in taken:
        if lot.id > dish.id:
            raise Refusal(
                f"{lot.code} was made after {dish.code}, so it cannot have gone into it.",
                "Make it a dish of its own for the same service.",
                "added",
            )


def _back(
    work: Work, dish: LotFacts, not_used: Sequence[tuple[str, int | None]]
) -> list[tuple[LotFacts, int]]:
    """What goes back, never more than went in of it, and of the dish never more than is still there."""
    given = dict(look_lots.parents_of(work.connection, dish.id))
    back: dict[int, tuple[LotFacts, int]] = {}
    for code, weight in not_used:
        lot = work.lot(code)
        if lot.id not in given or lot.id in back:
            raise Refusal(f"{lot.code} did not go into {dish.code}.", "Choose it from the list.", "not_used")
        grams = given[lot.id] if weight is None else weight
        if not 0 < grams <= given[lot.id]:
            raise Refusal(
                f"{kg_to_the_gram(given[lot.id])} of {lot.code} went in.", "Weigh it again.", "not_used"
            )
        back[lot.id] = (lot, grams)
    return [back[lot] for lot in sorted(back)]


def _inputs_after(
    connection: Connection,
    dish: LotFacts,
    taken: Sequence[tuple[LotFacts, int]],
    back: Sequence[tuple[LotFacts, int]],
) -> list[tuple[int, int]]:
    given = dict(look_lots.parents_of(connection, dish.id))
    for lot, grams in taken:
        given[lot.id] = given.get(lot.id, 0) + grams
    for lot, grams in back:
        given[lot.id] -= grams
    after = [(lot, grams) for lot, grams in given.items() if grams]
    if not after:
        raise Refusal("Then nothing is in the dish.", "Say what went in instead.", "not_used")
    room = dish.grams_left + sum(grams for _, grams in taken) - sum(grams for _, grams in back)
    if room < 0:
        raise Refusal(
            f"Only {kg_to_the_gram(dish.grams_left)} of {dish.code} is not left over or binned.",
            "Less can have stayed out of it.",
            "not_used",
        )
    return after


def _refuse_menu(connection: Connection, dish: LotFacts, inputs: Sequence[tuple[int, int]]) -> None:
    menu = look_plates.menu_row(connection, dish.id)
    claims = claims_of(menu.claims) if menu else ()
    refuse_what_the_menu_denies(dish.name, claims, pot_of(connection, inputs))


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
            "kind": LotKind.MIX,
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


def note_covers(
    register: Register,
    *,
    by: str,
    occasion_kind: str = "service",
    occasion: str,
    on: date,
    covers: int,
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """How many sat down, or how many stood in the class; a later count replaces it, and both are kept."""
    event = clean(occasion, "occasion", needed="Say which service or class.")
    words = clean(note, "note", most=500)
    if occasion_kind not in OCCASIONS:
        raise Refusal("It is a service or a class.", "Choose one.", "occasion_kind")
    if not 0 <= covers <= MOST_PORTIONS:
        raise Refusal("That number of covers cannot be.", "Count them again.", "covers")
    body = {
        "occasion_kind": occasion_kind,
        "occasion": event,
        "on_day": on.isoformat(),
        "covers": covers,
        "note": words,
    }
    return perform(
        register, "covers.noted", lambda _work: Plan(body), by=by, happened_at=happened_at, key=key
    )


def dish_of(work: Work, code: str) -> LotFacts:
    """The dish behind a code; refuses anything else."""
    lot = work.lot(code)
    if lot.kind != LotKind.DISH:
        raise Refusal(f"{lot.code} is not a dish.", "Choose a dish that was made.", "code")
    return lot


def portions_gone(connection: Connection, dish: int, *, but_served: bool = False) -> int:
    """Portions served and left over; `but_served` counts the left-overs only."""
    back: int = sum(row.portions for row in look_plates.left_overs(connection, [dish]))
    if but_served:
        return back
    return back + sum(int(row.portions) for row in look_plates.servings(connection, [dish]))


def refuse_more_than_here(connection: Connection, dish: LotFacts, portions: int) -> None:
    made = look_lots.dish_details(connection, [dish.id])[dish.id].portions
    here = made - portions_gone(connection, dish.id)
    if portions < 1:
        raise Refusal("At least one portion.", "Count them.", "portions")
    if portions > here:
        raise Refusal(
            f"{dish.code} made {made} portions; {here} {'is' if here == 1 else 'are'} still here.",
            "Count again, or put the number of portions right first.",
            "portions",
        )
