"""One day of the register: what came in, what was served, how cold it was, and everything else in order."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from gametrace.domain.codes import code_of
from gametrace.domain.quantities import celsius_text, kg_to_the_gram
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, wall_instant, wall_text
from gametrace.register.lists import span
from gametrace.register.opening import Register
from gametrace.register.places import stores_of
from gametrace.register.records import Carcass, Larder, Seal
from gametrace.register.stories import is_told, lines
from gametrace.store import journal, look_carcasses, look_visit

_MOST = 10_000


@dataclass(frozen=True, slots=True)
class DayLine:
    """One sentence of a day, and the lot it leads to, '' for none."""

    sentence: str
    code: str = ""


@dataclass(frozen=True, slots=True)
class DayPage:
    larder: Larder
    day: date
    printed_at: datetime
    groups: tuple[tuple[str, tuple[DayLine, ...]], ...]  # head, lines; an empty group says so on the page
    seal: Seal


def day_page(register: Register, day: date | None = None) -> DayPage:
    """That day, or today, by the larder's calendar."""
    on = day or register.today()
    start, end = span(on, on)
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        received = look_carcasses.received_between(connection, start, end, _MOST)[::-1]
        told = [row.seq for row in look_visit.happened_between(connection, start, end) if is_told(row.kind)]
        groups = (
            ("Received", tuple(_received(one) for one in read.carcasses(received))),
            ("Served", _served(read, on)),
            ("How cold the stores were", _cold(read, on)),
            ("On hold at the end of the day", _held(read, start, end)),
            (
                "Everything written down, in order",
                tuple(
                    DayLine(
                        f"{wall_text(one.happened_at)[-5:]} {one.by}: {one.sentence}"
                        + (f" (written {wall_text(one.written_at)})" if one.is_late else "")
                    )
                    for one in lines(read, told)
                ),
            ),
        )
        head = Seal(*journal.head_of(connection))
    return DayPage(register.larder, on, register.clock(), groups, head)


def _received(one: Carcass) -> DayLine:
    tag = f", tag {one.tag}" if one.tag else ""
    warm = f", {celsius_text(max(tenths for _, tenths in one.readings))}" if one.readings else ""
    return DayLine(
        f"{one.code} {one.title}{tag}, {kg_to_the_gram(one.grams_received)}{warm}, from "
        f"{one.supplier.name}: {one.decision}; papers {one.evidence}.",
        one.code,
    )


def _served(read: Assembler, on: date) -> tuple[DayLine, ...]:
    found = look_visit.dishes_on(read.connection, on.isoformat(), on.isoformat())
    return tuple(
        DayLine(
            f"{code_of(row.lot_id)} {row.name}, {row.portions} portions for {row.occasion_kind} "
            f"{row.occasion}.",
            code_of(row.lot_id),
        )
        for row in found
    )


def _cold(read: Assembler, on: date) -> tuple[DayLine, ...]:
    first, last = wall_instant(on, 0), wall_instant(on + timedelta(days=1), 0) - timedelta(seconds=1)
    seen = {
        row.store: row
        for row in look_visit.stores_read(read.connection, int(first.timestamp()), int(last.timestamp()))
    }
    found = []
    for store, (name, _sort) in stores_of(read.connection).items():
        row = seen.get(store)
        if row is None:
            found.append(DayLine(f"{name}: nobody measured."))
            continue
        times = "once" if row.readings == 1 else f"{row.readings:,} times"
        found.append(
            DayLine(f"{name}: read {times}, {celsius_text(row.coldest)} to {celsius_text(row.warmest)}.")
        )
    return tuple(found)


def _held(read: Assembler, start: str, end: str) -> tuple[DayLine, ...]:
    rows = look_carcasses.holds_between(read.connection, start, end)
    return tuple(
        DayLine(f"{code_of(row.lot_id)}, {row.sort}: {row.reason}", code_of(row.lot_id))
        for row in rows
        if row.sort in ("hold", "result") and (row.released_at is None or row.released_at >= end)
    )


def title_of(page: DayPage) -> str:
    return f"The day of {day_text(page.day)}"
