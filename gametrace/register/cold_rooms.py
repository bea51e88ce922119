"""Acts and questions of the cold stores: probes, rounds, loggers, what was too warm, a store that failed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import pairwise
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.excursions import excursions, gaps
from gametrace.domain.lots import StopSort
from gametrace.register.clock import instant
from gametrace.register.opening import Register
from gametrace.register.policies import Policies, policies_of
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import attachments, journal, look_lots, look_rooms, look_setup, rows
from gametrace.store.engine import Connection
from gametrace.store.projection.rooms import packed

MOST_READINGS = 3_000_000
_COLDEST, _WARMEST = -500, 600  # tenths of a degree a store's probe can mean


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


def add_probe(register: Register, *, by: str, name: str, key: str | None = None) -> Changes:
    """Add a thermometer. Changes.code is its number, 'T01'."""
    words = clean(name, "name", needed="A probe needs a name.")

    def decide(work: Work) -> Plan:
        code = rows.next_code(work.connection, "probe", "T")
        return Plan({"probe": code, "name": words}, created=(code,))

    return perform(register, "probe.added", decide, by=by, key=key)


def check_probe(
    register: Register,
    *,
    by: str,
    probe: str,
    ice_tenths_c: int | None = None,
    boiling_tenths_c: int | None = None,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A probe held in melting ice, in boiling water, or both."""
    if ice_tenths_c is None and boiling_tenths_c is None:
        raise Refusal("Nothing was read.", "Hold it in melting ice or boiling water.", "ice_tenths_c")

    def decide(work: Work) -> Plan:
        if probe not in {row.code for row in look_rooms.probe_rows(work.connection)}:
            raise Refusal(f"There is no probe {probe}.", "Choose it from the list.", "probe")
        return Plan({"probe": probe, "ice_tenths_c": ice_tenths_c, "boiling_tenths_c": boiling_tenths_c})

    return perform(register, "probe.checked", decide, by=by, happened_at=happened_at, key=key)


def take_round(
    register: Register,
    *,
    by: str,
    readings: Sequence[tuple[str, int]],
    probe: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A round by hand: (store code, tenths of a degree) for each store read."""
    if not readings:
        raise Refusal("No store has been read.", "Read one and type its degrees.", "readings")

    def decide(work: Work) -> Plan:
        stores = _stores(work.connection)
        for store, tenths in readings:
            if store not in stores:
                raise Refusal(f"There is no store {store}.", "Choose it from the list.", "readings")
            if not _COLDEST <= tenths <= _WARMEST:
                raise Refusal("That temperature cannot be.", "Read it again.", "readings")
        body = {
            "at": int(work.happened_at.timestamp()),
            "probe": probe,
            "readings": [{"store": store, "tenths_c": tenths} for store, tenths in readings],
        }
        return Plan(body, codes=tuple(store for store, _ in readings))

    return perform(register, "round.taken", decide, by=by, happened_at=happened_at, key=key)


def import_readings(
    register: Register,
    *,
    by: str,
    store: str,
    readings: Sequence[tuple[int, int]],
    name: str,
    mapping: dict[str, Any],
    key: str | None = None,
) -> Changes:
    """A logger's readings (seconds UTC, tenths of a degree), sorted and each instant once, all or none."""
    if not readings:
        raise Refusal("There is no reading in this file.", "Look at the mapping of its columns.", "readings")
    if len(readings) > MOST_READINGS:
        raise Refusal(f"More than {MOST_READINGS:,} readings at once.", "Split the file.", "readings")
    if any(later[0] <= earlier[0] for earlier, later in pairwise(readings)):
        raise ValueError("readings must be sorted, each instant once")
    words = clean(name, "name")

    def decide(work: Work) -> Plan:
        if store not in _stores(work.connection):
            raise Refusal(f"There is no store {store}.", "Choose it from the list.", "store")
        kept = attachments.keep(work.connection, packed(list(readings)), attachments.READINGS)
        body = {
            "store": store,
            "hash": kept,
            "count": len(readings),
            "first_at": readings[0][0],
            "last_at": readings[-1][0],
            "name": words,
            "mapping": {k: v if isinstance(v, bool | int) else str(v or "") for k, v in mapping.items()},
        }
        return Plan(body, codes=(store,))

    return perform(register, "readings.imported", decide, by=by, key=key)


def answer_episode(
    register: Register,
    *,
    by: str,
    store: str,
    first_at: datetime,
    last_at: datetime,
    sort: str,
    action: str,
    result: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """What was done about a warm store or a gap. A gap stays a gap: the answer stands beside it."""
    if sort not in ("warm", "gap"):
        raise Refusal("A store was warm, or nobody measured.", "Choose one.", "sort")
    done = clean(action, "action", most=500, needed="Say what was done.")
    outcome = clean(result, "result", most=500)

    def decide(work: Work) -> Plan:
        if store not in _stores(work.connection):
            raise Refusal(f"There is no store {store}.", "Choose it from the list.", "store")
        body = {
            "store": store,
            "first_at": int(first_at.timestamp()),
            "last_at": int(last_at.timestamp()),
            "sort": sort,
            "action": done,
            "result": outcome,
        }
        return Plan(body, codes=(store,))

    return perform(register, "excursion.answered", decide, by=by, happened_at=happened_at, key=key)


def store_failed(
    register: Register,
    *,
    by: str,
    store: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A chiller or freezer failed: all in it goes on hold in one act. Changes.created are the holds."""
    why = clean(reason, "reason", most=500, needed="Say what happened.")

    def decide(work: Work) -> Plan:
        if store not in _stores(work.connection):
            raise Refusal(f"There is no store {store}.", "Choose it from the list.", "store")
        here = [row.id for row in look_lots.shelved_rows(work.connection) if row.place.split(".")[0] == store]
        if not here:
            raise Refusal("Nothing stands in that store.", "Check which one it was.", "store")
        holds = [{**work.new_hold(StopSort.HOLD, why), "lot": lot} for lot in here]
        return Plan(
            {"store": store, "reason": why, "holds": holds},
            codes=tuple(code_of(lot) for lot in here),
            created=tuple(str(hold["hold"]) for hold in holds),
        )

    return perform(register, "store.failed", decide, by=by, happened_at=happened_at, key=key)


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
        found = {store: look_rooms.last_reading(connection, store) for store in _stores(connection)}
        return {
            store: (datetime.fromtimestamp(reading[0], UTC), reading[1])
            for store, reading in found.items()
            if reading
        }


def episodes(register: Register, first: datetime, last: datetime) -> tuple[Episode, ...]:
    """Every time a store was warm or unmeasured in a span, with what stood there and what was done."""
    with register.store.reading() as connection:
        own = policies_of(connection)
        where = _Whereabouts(connection)
        found = []
        for store, (name, sort) in _stores(connection).items():
            span = look_rooms.series(connection, store, int(first.timestamp()), int(last.timestamp()))
            answers = {(row.first_at, row.sort): row for row in look_rooms.answered(connection, store)}
            initials = rows.cards(connection)
            for kind, start, end, highest in _found(span, own, sort):
                answer = answers.get((start, kind))
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


def _stores(connection: Connection) -> dict[str, tuple[str, str]]:
    """Store code to (name, sort)."""
    return {
        row.code: (row.name, row.sort) for row in look_setup.place_rows(connection) if row.kind == "store"
    }


class _Whereabouts:
    """Where lots stood over time, from where they are now and every move in the journal."""

    def __init__(self, connection: Connection) -> None:
        self._moves: dict[int, list[tuple[int, str, str]]] = {}
        for row in look_rooms.moves(connection):
            body = journal.body_of(row.text)
            at = int(instant(row.happened_at).timestamp())
            self._moves.setdefault(body["lot"], []).append((at, body["was"], body["to"]))
        self._lots = [
            (row.id, row.place, int(instant(row.made_at).timestamp()))
            for row in look_rooms.lots_placed(connection)
        ]

    def in_store(self, store: str, first: int, last: int) -> tuple[str, ...]:
        """Codes of lots that stood in the store at any time of the span (used-up ones included)."""
        return tuple(
            code_of(lot)
            for lot, place, made in self._lots
            if made <= last
            and any(
                spot.split(".")[0] == store and begins <= last and ends >= first
                for spot, begins, ends in self._stays(lot, place, made)
            )
        )

    def _stays(self, lot: int, place: str, made: int) -> list[tuple[str, int, int]]:
        moves = self._moves.get(lot, [])
        if not moves:
            return [(place, made, 1 << 62)]
        stays, since = [], made
        for at, was, _to in moves:
            stays.append((was, since, at))
            since = at
        return [*stays, (moves[-1][2], since, 1 << 62)]
