"""Trace drills: a lot or an animal at random or by hand, a clock, what was found, what balanced, the book.

A drill reads the same records as a real question and is kept in the same journal; it moves no meat.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS, MEAT_KINDS
from gametrace.domain.terms import term_of
from gametrace.register.assembling import Assembler
from gametrace.register.balance_standing import judged
from gametrace.register.clock import instant, instant_text, wall_day
from gametrace.register.finding_things import Match
from gametrace.register.opening import Register
from gametrace.register.records import Balance, Changes, Lot
from gametrace.register.tracing import trace_of
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import lineage, look_lots, look_tracing, rows

SORTS = {"animal": ("carcass", "batch"), "lot": ("part", "pack", "mix", "dish")}
_LOOK_BACK = timedelta(days=400)


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill in the book. `found` of `asked` is what stood where the register says."""

    code: str
    lot: str
    name: str
    manner: str
    begun_at: datetime
    by: str
    term: str
    ended_at: datetime | None
    seconds: int
    asked: int
    found: int
    received_grams: int
    unaccounted_grams: int
    standing: str
    note: str

    @property
    def percent(self) -> int:
        """Of the packs to be found; rounded down, so that only all of them is 100."""
        return 100 if self.asked == 0 else self.found * 100 // self.asked


@dataclass(frozen=True, slots=True)
class RunningDrill:
    """What the person drilled has before them: the question, the animals, what must be found, the balance."""

    drill: Drill
    animals: tuple[Lot, ...]
    to_find: tuple[Lot, ...]
    balance: Balance
    balance_words: str


def begin_drill(
    register: Register,
    *,
    by: str,
    code: str = "",
    sort: str = "lot",
    pick: Callable[[int], int] = secrets.randbelow,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Start the clock on a lot given by hand, or on one picked at random. Changes.code: D001."""
    if sort not in SORTS:
        raise Refusal("A drill is on an animal or on a lot.", "Choose one.", "sort")

    def decide(work: Work) -> Plan:
        if code:
            lot, manner = work.lot(code).id, "by hand"
        else:
            since = instant_text(work.happened_at - _LOOK_BACK)
            found = look_tracing.lots_to_drill(work.connection, SORTS[sort], since)
            lots = [lot for lot, left in found if left] or [lot for lot, _ in found]  # there is more to find
            if not lots:
                raise Refusal("There is nothing to drill on yet.", "Cut and pack an animal first.", "sort")
            lot, manner = lots[pick(len(lots))], "at random"
        number = rows.next_code(work.connection, "drill", "D")
        return Plan({"drill": number, "lot": lot, "manner": manner}, codes=(code_of(lot),), created=(number,))

    return perform(register, "drill.begun", decide, by=by, happened_at=happened_at, key=key)


def end_drill(
    register: Register,
    *,
    by: str,
    drill: str,
    found: Sequence[str],
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Stop the clock. `found` are the codes that stood where the register says; the score is kept."""
    words = clean(note, "note", most=500)

    def decide(work: Work) -> Plan:
        row = look_tracing.drill(work.connection, drill)
        if row is None:
            raise Refusal(f"There is no drill {drill}.", "Choose one of the list.", "drill")
        if row.ended_at is not None:
            raise Refusal(f"Drill {drill} has ended.", "Begin a new one.", "drill")
        read = Assembler(work.connection, register.today())
        running = _running(read, row)
        asked = [lot_id_of(lot.code) for lot in running.to_find]
        seen = sorted({lot_id_of(one) for one in found} & set(asked))
        balance = running.balance
        seconds = int((work.happened_at - instant(row.begun_at)).total_seconds())
        judgement = judged(work.connection, balance)
        body = {
            "drill": drill,
            "seconds": max(0, seconds),
            "asked": asked,
            "found": seen,
            "received_grams": balance.received_grams,
            "unaccounted_grams": judgement.missing_grams,
            "standing": str(judgement.standing),
            "note": words,
        }
        return Plan(body, codes=(drill,))

    return perform(register, "drill.ended", decide, by=by, happened_at=happened_at, key=key)


def running_drill(register: Register, code: str) -> RunningDrill:
    """The question of a drill and the whole answer the register gives to it."""
    with register.store.reading() as connection:
        row = look_tracing.drill(connection, code)
        if row is None:
            raise Refusal(f"There is no drill {code}.", "Choose one of the list.", "drill")
        return _running(Assembler(connection, register.today()), row)


def drill_book(register: Register) -> tuple[Drill, ...]:
    """Every drill, newest first; each names its term."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = look_tracing.drills(connection)
        names = {row.id: row.name for row in look_lots.lot_rows(connection, {row.lot_id for row in found})}
        return tuple(_drill(read, row, names[row.lot_id]) for row in found)


def _running(read: Assembler, row: Any) -> RunningDrill:
    connection = read.connection
    above = {row.lot_id, *(edge.parent for edge in lineage.edges_above(connection, [row.lot_id]))}
    kinds = {one.id: one.kind for one in look_lots.lot_rows(connection, above)}
    animals = tuple(sorted(lot for lot in above if kinds[lot] in ANIMAL_KINDS))
    answer = trace_of(read, Match("drill", "drill", "", animals))
    below = {*animals, *(edge.child for edge in lineage.edges_below(connection, animals))}
    lots = read.lots_by_id(below)
    assert answer.balance is not None
    balance = answer.balance
    return RunningDrill(
        drill=_drill(read, row, read.lots_by_id([row.lot_id])[row.lot_id].name),
        animals=tuple(lots[lot] for lot in animals),
        to_find=tuple(
            lots[lot] for lot in sorted(below) if lots[lot].kind in MEAT_KINDS and lots[lot].grams > 0
        ),
        balance=balance,
        balance_words=judged(connection, balance).words,
    )


def _drill(read: Assembler, row: Any, name: str) -> Drill:
    begun = instant(row.begun_at)
    return Drill(
        code=row.code,
        lot=code_of(row.lot_id),
        name=name,
        manner=row.manner,
        begun_at=begun,
        by=read.initials(row.begun_by),
        term=term_of(wall_day(begun)),
        ended_at=instant(row.ended_at) if row.ended_at else None,
        seconds=row.seconds or 0,
        asked=row.asked,
        found=row.found,
        received_grams=row.received_grams,
        unaccounted_grams=row.unaccounted_grams,
        standing=row.standing,
        note=row.note,
    )
