"""The bag with no label: which lots it may be, ranked with why; a person decides or bins it; that is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from gametrace.domain.bag_matching import Bag, Known, ranked
from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import MEAT_KINDS
from gametrace.domain.plain_words import plain_words
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, wall_day
from gametrace.register.door_checks import MOST_GRAMS
from gametrace.register.opening import Register
from gametrace.register.places import store_of
from gametrace.register.records import Changes, Lot
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_tracing


@dataclass(frozen=True, slots=True)
class Candidate:
    """One lot the bag may be, with what speaks for and against it."""

    lot: Lot
    points: int
    for_it: tuple[str, ...]
    against: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DecidedBag:
    """A bag that was found without a label, and what became of it."""

    at: datetime
    by: str
    grams: int | None
    look: str
    code: str  # '' where it was binned
    reason: str


def bag_candidates(
    register: Register,
    *,
    grams: int | None = None,
    on: date | None = None,
    look: str = "",
    place: str = "",
) -> tuple[Candidate, ...]:
    """What a bag may be, the likeliest first. Refuses to guess from nothing at all."""
    if grams is None and on is None and not plain_words(look) and not place:
        raise Refusal(
            "Nothing is known of the bag yet.", "Weigh it, or say how it looks or where it lay.", "look"
        )
    bag = Bag(grams, on, look, store_of(place) if place else "", place)
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        rows = [row for row in look_lots.stock_rows(connection) if row.kind in MEAT_KINDS]
        known = [
            Known(
                id=row.id,
                words=frozenset(plain_words(f"{row.name} {row.species} {row.kind} {row.pack_state}")),
                grams_left=row.grams_left,
                made_on=wall_day(instant(row.made_at)),
                use_by=date.fromisoformat(row.use_by) if row.use_by else None,
                store=store_of(row.place),
                place=row.place,
            )
            for row in rows
        ]
        found = ranked(bag, known)
        lots = read.lots_by_id([one.id for one in found])
    return tuple(Candidate(lots[one.id], one.points, one.for_it, one.against) for one in found)


def decide_bag(
    register: Register,
    *,
    by: str,
    reason: str,
    code: str = "",
    grams: int | None = None,
    on: date | None = None,
    look: str = "",
    place: str = "",
    offered: Sequence[str] = (),
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Say which lot a bag is (`code`), or that it was binned (no code). What was offered is kept with it.

    A binned bag takes no grams from any lot, because nobody knows from which: the shelf count shows it.
    """
    why = clean(reason, "reason", most=500, needed="Say what decided it.")
    seen = clean(look, "look")
    where = clean(place, "place")
    if grams is not None and not 0 < grams <= MOST_GRAMS:
        raise Refusal("That weight cannot be.", "Weigh the bag and type the kilograms.", "grams")

    def decide(work: Work) -> Plan:
        lot = work.lot(code) if code else None
        if lot is not None and (lot.kind not in MEAT_KINDS or lot.grams_left == 0):
            raise Refusal(f"Nothing is left of {lot.code}.", "Choose another, or bin the bag.", "code")
        body = {
            "grams": grams,
            "on_day": on.isoformat() if on else None,
            "look": seen,
            "place": where,
            "lot": lot.id if lot else None,
            "reason": why,
            "offered": [lot_id_of(one) for one in offered],
        }
        return Plan(body, codes=(lot.code,) if lot else ())

    return perform(
        register,
        "bag.decided",
        decide,
        by=by,
        happened_at=happened_at,
        key=key,
    )


def decided_bags(register: Register) -> tuple[DecidedBag, ...]:
    """Every bag without a label so far, newest first."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return tuple(
            DecidedBag(
                at=instant(row.happened_at),
                by=read.initials(row.person),
                grams=row.grams,
                look=row.look,
                code=code_of(row.lot_id) if row.lot_id else "",
                reason=row.reason,
            )
            for row in look_tracing.bags(connection)
        )
