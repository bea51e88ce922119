"""Questions of the cold stores: probes, the curve, when one was warm or unmeasured, what stood there then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import cached_property
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.excursions import excursions, gaps
from gametrace.register.clock import instant, instant_text, wall_instant
from gametrace.register.opening import Register
from gametrace.register.places import store_of, stores_of
from gametrace.register.policies import Policies, policies_of
from gametrace.store import journal, look_rooms, rows
from gametrace.store.engine import Connection

_STILL = 1 << 62


@dataclass(frozen=True, slots=True)
class Probe:
    code: str  # T01
    name: str
    checked_at: datetime | None
    ice_tenths_c: int | None
    boiling_tenths_c: int | None


@dataclass(frozen=True, slots=True)
class Episode:
    """A time a store was above the kitchen's limit ('warm'), or nobody measured ('gap')."""

    store: str
    store_name: str
    sort: str  # warm | gap
    first_at: datetime
    last_at: datetime
    highest_tenths_c: int | None
    limit_tenths_c: int
    lots: tuple[str, ...]  # codes of what stood there then
    action: str = ""  # what was done, '' while nobody said
    result: str = ""
    answered_by: str = ""


def probes(register: Register) -> tuple[Probe, ...]:
    with register.store.reading() as connection:
        return tuple(
            Probe(
                row.code,
                row.name,
                instant(row.checked_at) if row.checked_at else None,
                row.ice_tenths_c,
                row.boiling_tenths_c,
            )
            for row in look_rooms.probe_rows(connection)
        )


def temperatures(
    register: Register, store: str, first: datetime, last: datetime
) -> tuple[tuple[int, int], ...]:
    """(seconds UTC, tenths of a degree) of a store, for a plot."""
    with register.store.reading() as connection:
        return tuple(look_rooms.series(connection, store, int(first.timestamp()), int(last.timestamp())))


def last_readings(register: Register) -> dict[str, tuple[datetime, int]]:
    """The newest reading of each store that has one."""
    with register.store.reading() as connection:
        found = {store: look_rooms.last_reading(connection, store) for store in stores_of(connection)}
        return {
            store: (datetime.fromtimestamp(reading[0], UTC), reading[1])
            for store, reading in found.items()
            if reading
        }


def episodes_of_days(register: Register, first: date, last: date) -> tuple[Episode, ...]:
    """The same of whole days, the last one included, until now at the latest."""
    start, end = wall_instant(first, 0), wall_instant(last + timedelta(days=1), 0) - timedelta(seconds=1)
    end = min(end, register.clock())
    return episodes(register, start, end) if end > start else ()


def episodes(register: Register, first: datetime, last: datetime) -> tuple[Episode, ...]:
    """Every time a store was warm or unmeasured in a span, with what stood there and what was done."""
    with register.store.reading() as connection:
        own = policies_of(connection)
        where = Whereabouts(connection, int(first.timestamp()), int(last.timestamp()))
        found = []
        for store, (name, sort) in stores_of(connection).items():
            span = look_rooms.series(connection, store, int(first.timestamp()), int(last.timestamp()))
            answers = look_rooms.answered(connection, store)
            initials = rows.cards(connection)
            for kind, start, end, highest in _found(span, own, sort):
                answer = _answer_to(answers, kind, start, end)
                found.append(
                    Episode(
                        store=store,
                        store_name=name,
                        sort=kind,
                        first_at=datetime.fromtimestamp(start, UTC),
                        last_at=datetime.fromtimestamp(end, UTC),
                        highest_tenths_c=highest,
                        limit_tenths_c=own.limit_of(sort),
                        lots=where.in_store(store, start, end),
                        action=answer.action if answer else "",
                        result=answer.result if answer else "",
                        answered_by=initials.get(answer.person, {}).get("initials", answer.person)
                        if answer
                        else "",
                    )
                )
    return tuple(sorted(found, key=lambda one: (one.first_at, one.store)))


def _answer_to(answers: Sequence[Any], kind: str, start: int, end: int) -> Any:
    """The last answer given to this time: it may have been asked about in a longer or shorter span."""
    found = [a for a in answers if a.sort == kind and a.first_at <= end and a.last_at >= start]
    return found[-1] if found else None


def _found(span: list[tuple[int, int]], own: Policies, sort: str) -> list[tuple[str, int, int, int | None]]:
    apart = own.reading_minutes * 60
    warm = [
        ("warm", one.first_at, one.last_at, one.highest_tenths_c)
        for one in excursions(
            span,
            limit_tenths_c=own.limit_of(sort),
            tolerance_seconds=own.tolerance_minutes * 60,
            longest_gap_seconds=apart * 3 // 2,
        )
    ]
    missing: list[tuple[str, int, int, int | None]] = [
        ("gap", one.last_before, one.first_after, None) for one in gaps(span, expected_seconds=apart)
    ]
    return [*warm, *missing]


class Whereabouts:
    """Where lots stood in a span of seconds, from where they are now and every move in the journal.

    Read when it is first asked: most spans have no warm time in them.
    """

    def __init__(self, connection: Connection, first: int, last: int) -> None:
        self._connection, self._first, self._last = connection, first, last

    def in_store(self, store: str, first: int, last: int) -> tuple[str, ...]:
        """Codes of lots that stood in the store at any time of the span, those used up since included."""
        return tuple(
            dict.fromkeys(
                code_of(lot)
                for lot, begins, ends in self._stood.get(store, ())
                if begins <= last and ends >= first
            )
        )

    @cached_property
    def _stood(self) -> dict[str, list[tuple[int, int, int]]]:
        """(lot, from, until) of each stay, by store, in the order of the lots."""
        stood: dict[str, list[tuple[int, int, int]]] = {}
        first, last = (instant_text(datetime.fromtimestamp(at, UTC)) for at in (self._first, self._last))
        for row in look_rooms.lots_placed(self._connection, first, last):
            gone = _seconds(row.gone_at) if row.gone_at else _STILL
            for spot, begins, ends in self._stays(row.id, row.place, _seconds(row.made_at)):
                stood.setdefault(store_of(spot), []).append((row.id, begins, min(ends, gone)))
        return stood

    @cached_property
    def _moves(self) -> dict[int, list[tuple[int, str, str]]]:
        moves: dict[int, list[tuple[int, str, str]]] = {}
        for row in look_rooms.moves(self._connection):
            body = journal.body_of(row.text)
            moves.setdefault(body["lot"], []).append((_seconds(row.happened_at), body["was"], body["to"]))
        return moves

    def _stays(self, lot: int, place: str, made: int) -> list[tuple[str, int, int]]:
        moves = self._moves.get(lot, [])
        if not moves:
            return [(place, made, _STILL)]
        stays, since = [], made
        for at, was, _to in moves:
            stays.append((was, since, at))
            since = at
        return [*stays, (moves[-1][2], since, _STILL)]


def _seconds(at: str) -> int:
    return int(instant(at).timestamp())
