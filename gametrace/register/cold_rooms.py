"""Acts of the cold stores: probes, rounds, loggers, what was done about warmth, a store that failed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import datetime
from itertools import pairwise
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import StopSort
from gametrace.register.opening import Register
from gametrace.register.places import store_of, stores_of
from gametrace.register.records import Changes
from gametrace.register.warm_times import Whereabouts
from gametrace.register.work import AHEAD, Plan, Work, clean, perform
from gametrace.store import attachments, look_lots, look_rooms, rows
from gametrace.store.projection.rooms import packed

MOST_READINGS = 3_000_000
_COLDEST, _WARMEST = -500, 600  # tenths of a degree a store's probe can mean
_WARMEST_PROBE = 1_200  # boiling water, misread by no more than a slip


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
    for field, tenths in (("ice_tenths_c", ice_tenths_c), ("boiling_tenths_c", boiling_tenths_c)):
        if tenths is not None and not _COLDEST <= tenths <= _WARMEST_PROBE:
            raise Refusal("That temperature cannot be.", "Read it again.", field)

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
        stores = stores_of(work.connection)
        for store, tenths in readings:
            if store not in stores:
                raise Refusal(f"There is no store {store}.", "Choose it from the list.", "readings")
            if not _COLDEST <= tenths <= _WARMEST:
                raise Refusal("That temperature cannot be.", "Read it again.", "readings")
        if twice := [store for store, n in Counter(store for store, _ in readings).items() if n > 1]:
            raise Refusal(f"{twice[0]} was read twice.", "Keep one reading of each store.", "readings")
        if probe and probe not in {row.code for row in look_rooms.probe_rows(work.connection)}:
            raise Refusal(f"There is no probe {probe[:40]}.", "Choose it from the list.", "probe")
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
    if not all(_COLDEST <= tenths <= _WARMEST for _, tenths in readings):
        raise Refusal("A temperature in it cannot be.", "Look at the mapping of its columns.", "readings")
    if readings[0][0] < 0 or readings[-1][0] > (register.clock() + AHEAD).timestamp():
        raise Refusal(
            "A reading in it is from a time that cannot be.",
            "Look at the time zone and the order of day and month.",
            "readings",
        )
    words = clean(name, "name")

    def decide(work: Work) -> Plan:
        if store not in stores_of(work.connection):
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
    if last_at < first_at:
        raise Refusal("It cannot have ended before it began.", "Check both times.", "last_at")

    def decide(work: Work) -> Plan:
        if store not in stores_of(work.connection):
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
    """A chiller or freezer failed: all in it goes on hold in one act. Changes.created are the holds.

    With the time it failed given, what stood there since and was carried elsewhere is held too.
    """
    why = clean(reason, "reason", most=500, needed="Say what happened.")

    def decide(work: Work) -> Plan:
        if store not in stores_of(work.connection):
            raise Refusal(f"There is no store {store}.", "Choose it from the list.", "store")
        shelved = look_lots.shelved_rows(work.connection)
        failed_at, now = int(work.happened_at.timestamp()), int(work.written_at.timestamp())
        stood = Whereabouts(work.connection, failed_at, now).in_store(store, failed_at, now)
        here = [row.id for row in shelved if store_of(row.place) == store or code_of(row.id) in stood]
        if not here:
            raise Refusal("Nothing stands in that store.", "Check which one it was.", "store")
        holds = [{**work.new_hold(StopSort.HOLD, why), "lot": lot} for lot in here]
        return Plan(
            {"store": store, "reason": why, "holds": holds},
            codes=tuple(code_of(lot) for lot in here),
            created=tuple(str(hold["hold"]) for hold in holds),
        )

    return perform(register, "store.failed", decide, by=by, happened_at=happened_at, key=key)
