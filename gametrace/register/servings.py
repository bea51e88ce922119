"""Acts of the night: what was served to whom, and how many sat down."""

from __future__ import annotations

from datetime import date, datetime

from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind
from gametrace.register.cooking_records import records_of, unanswered_stop
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.plates import OCCASIONS
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection

MOST_PORTIONS = 10_000


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
