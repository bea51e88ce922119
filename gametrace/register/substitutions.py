"""The act of the night that puts right what went into a dish: to the gram, with a reason, past the gate."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.block import gather
from gametrace.register.lot_facts import LotFacts, facts_of
from gametrace.register.opening import Register
from gametrace.register.pot import claims_of, pot_of, refuse_what_the_menu_denies
from gametrace.register.records import Changes
from gametrace.register.servings import MOST_PORTIONS, dish_of, portions_gone
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection


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
