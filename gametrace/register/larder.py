"""Acts in the larder: move, weigh again, put a weight right, hold and release."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import GONE_KINDS, KEPT_KINDS, LotKind, StopSort
from gametrace.facts.species import species as species_called
from gametrace.register.delivery import judged_again
from gametrace.register.door_checks import MOST_GRAMS
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.pins import refuse_one_person
from gametrace.register.places import check_free_place, check_kept_at
from gametrace.register.policies import scale_step
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_lots

# A reason is asked when one re-weighing loses more than this. The kitchen's own figure; inference.
ASK_DRYING_ABOVE_PERCENT = 10


def move_lot(
    register: Register,
    *,
    by: str,
    code: str,
    to: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Move a lot to another hook or shelf."""

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        if lot.grams_left == 0 or lot.kind in GONE_KINDS or lot.kind == LotKind.DISH:
            raise Refusal(f"Nothing of {lot.code} is here to move.", "Check the number.", "code")
        place = check_free_place(work.connection, to, lot=lot.id)
        if lot.kind in KEPT_KINDS:
            check_kept_at(work.connection, place, is_frozen=lot.is_frozen)
        if place == lot.place:
            raise Refusal(f"{lot.code} is there already.", "Choose another place.", "to")
        return Plan({"lot": lot.id, "to": place, "was": lot.place}, codes=(lot.code,))

    return perform(register, "lot.moved", decide, by=by, happened_at=happened_at, key=key)


def reweigh(
    register: Register,
    *,
    by: str,
    code: str,
    grams: int,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Weigh a lot again. What is gone since becomes a drying lot; Changes.created holds it if there is one.

    More than drying usually takes is only written as drying with a reason: a missing piece is not water.
    """
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        if lot.grams_left == 0 or lot.kind in GONE_KINDS or lot.kind == LotKind.DISH:
            raise Refusal(f"Nothing of {lot.code} is here to weigh.", "Check the number.", "code")
        if grams <= 0:
            raise Refusal("A weight is more than nothing.", "Weigh it and type the kilograms.", "grams")
        if grams > lot.grams_left + scale_step(work.connection):
            raise Refusal(
                f"{lot.code} cannot have grown from {lot.grams_left / 1000:.3f} to {grams / 1000:.3f} kg.",
                "Check the scale. If the first weight was wrong, correct that one with a reason.",
                "grams",
            )
        lost = max(0, lot.grams_left - grams)
        if lost * 100 > lot.grams_left * ASK_DRYING_ABOVE_PERCENT and not why:
            raise Refusal(
                f"{lost / 1000:.3f} kg of {lot.code} are gone, more than {ASK_DRYING_ABOVE_PERCENT} %.",
                "Look whether something was taken off it unweighed, or say why it dried so much.",
                "reason",
            )
        drying = _drying(work, lot, lost, why) if lost else None
        body = {"lot": lot.id, "grams": grams, "was": lot.grams_left, "drying": drying, "reason": why}
        created = (code_of(drying["lot"]),) if drying else ()
        return Plan(body, codes=(lot.code, *created), created=created)

    return perform(register, "lot.weighed", decide, by=by, happened_at=happened_at, key=key)


def _drying(work: Work, lot: LotFacts, grams: int, why: str) -> dict[str, Any]:
    return {
        "lot": work.new_lot(),
        "kind": LotKind.DRYING,
        "product": "drying",
        "side": "",
        "name": "drying loss",
        "species": lot.species,
        "grams": grams,
        "place": "",
        "use_by": None,
        "date_rule": "",
        "pack_state": "",
        "note": why,
    }


def correct_weight(
    register: Register,
    *,
    by: str,
    code: str,
    grams: int,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Put right the weight a lot was written with. The old figure stays on view with the reason."""
    why = clean(reason, "reason", most=500, needed="Changing a weight needs a reason.")

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        parents = look_lots.parents_of(work.connection, lot.id)
        with_others = parents and sum(grams for _, grams in parents) != lot.grams_in
        if len(parents) > 1 or with_others or lot.grams_in != lot.grams_made:
            raise Refusal(
                f"{lot.code} was made of lots with weights of their own.",
                "Correct the weight of the lot that was written wrong.",
                "code",
            )
        is_closed = lot.status == "closed"
        # Of a closed lot nothing lies on the table: a wrong weight shows in what is unaccounted.
        room = lot.unaccounted + scale_step(work.connection) if is_closed else lot.grams_left
        if grams <= 0 or grams < lot.grams_in - room:
            gone = lot.grams_in - lot.grams_left - (lot.unaccounted if is_closed else 0)
            raise Refusal(
                f"{gone / 1000:.3f} kg of {lot.code} has already gone on, so it cannot have weighed "
                f"{grams / 1000:.3f} kg.",
                "Correct what was made of it first.",
                "grams",
            )
        if grams > MOST_GRAMS:
            raise Refusal("That weight cannot be.", f"Kilograms, at most {MOST_GRAMS // 1000}.", "grams")
        if grams == lot.grams_in:
            raise Refusal("That is the weight it has.", "Type the right one.", "grams")
        parent = parents[0][0] if parents else None
        closed = _room_in_parent(work, lot, parent, grams - lot.grams_in) if parent is not None else False
        found, holds = judged_again(work, lot.id, grams) if parent is None else (None, [])
        body = {
            "lot": lot.id,
            "was": lot.grams_in,
            "grams": grams,
            "reason": why,
            "parent": parent,
            "parent_is_closed": closed,
            "is_closed": is_closed,
            "findings": found,
            "holds": holds,
        }
        return Plan(body, codes=(lot.code, *((code_of(parent),) if parent is not None else ())))

    return perform(register, "weight.corrected", decide, by=by, happened_at=happened_at, key=key)


def _room_in_parent(work: Work, lot: LotFacts, parent: int, more: int) -> bool:
    """Whether the parent is closed; refuses when it cannot give what the corrected weight asks for."""
    row = look_lots.lot_row(work.connection, parent)
    assert row is not None
    is_closed = bool(row.status == "closed")
    room = row.unaccounted if is_closed else row.grams_left
    if more > room + (scale_step(work.connection) if is_closed else 0):
        raise Refusal(
            f"{code_of(parent)} has only {room / 1000:.3f} kg more to give.",
            "Correct the weight of that lot first.",
            "grams",
        )
    return is_closed


def hold_lot(
    register: Register,
    *,
    by: str,
    code: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Put a lot, and everything ever made of it, on hold. Changes.code is the hold's number."""
    why = clean(reason, "reason", most=500, needed="A hold needs a reason.")

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        hold = work.new_hold(StopSort.HOLD, why)
        return Plan({"lot": lot.id, **hold}, codes=(lot.code,), created=(str(hold["hold"]),))

    return perform(register, "hold.placed", decide, by=by, happened_at=happened_at, key=key)


def release_hold(
    register: Register,
    *,
    by: str,
    hold: int,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Lift a hold: by another person than the one who placed it, with a reason."""
    why = clean(reason, "reason", most=500, needed="Lifting a hold needs a reason.")

    def decide(work: Work) -> Plan:
        row = look_carcasses.hold_row(work.connection, hold)
        if row is None:
            raise Refusal(f"There is no hold number {hold}.", "Choose it from the list.", "hold")
        is_wait = row.sort == StopSort.RESULT
        if is_wait and _is_boar(work, row.lot_id):
            raise Refusal(
                "This waits for the laboratory.",
                "Only its result, entered by a second person, lifts it.",
                "hold",
            )
        if row.sort != StopSort.HOLD and not is_wait:
            raise Refusal(f"What is {row.sort} stays so for ever.", "Record what becomes of it.", "hold")
        if row.released_at is not None:
            raise Refusal("This hold has been lifted already.", "", "hold")
        if row.placed_by == by:
            raise Refusal(
                "You placed this hold, so another person lifts it.",
                "Ask a colleague to look and decide.",
                "by",
            )
        refuse_one_person(work, row.placed_by, by)
        return Plan({"hold": hold, "lot": row.lot_id, "reason": why}, codes=(code_of(row.lot_id),))

    return perform(register, "hold.released", decide, by=by, happened_at=happened_at, key=key)


def _is_boar(work: Work, lot: int) -> bool:
    """Whether the animal is written down as a boar now; a slip of the species must not hold it for ever."""
    rows = look_carcasses.carcass_rows(work.connection, [lot])
    return bool(rows) and species_called(rows[0].species).group == "boar"
