"""Plays what is measured and done in the cold stores, what leaves as by-product, the kitchen's rules."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection.rows import insert, note_entry, place_hold, update
from gametrace.store.statements import text

_READING = struct.Struct("<qh")  # seconds since 1970, tenths of a degree


def packed(readings: list[tuple[int, int]]) -> bytes:
    """A logger's readings as they are kept: small, and exact."""
    return zlib.compress(b"".join(_READING.pack(*reading) for reading in readings), 6)


def unpacked(content: bytes) -> Iterator[tuple[int, int]]:
    yield from _READING.iter_unpack(zlib.decompress(content))


def _policy_set(connection: Connection, entry: Entry) -> None:
    connection.execute(
        text(
            "INSERT INTO policy (name, value, reason, seq) VALUES (:name, :value, :reason, :seq) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value, reason = excluded.reason, "
            "seq = excluded.seq"
        ),
        {
            "name": entry.body["name"],
            "value": entry.body["value"],
            "reason": entry.body["reason"],
            "seq": entry.seq,
        },
    )


def _probe_added(connection: Connection, entry: Entry) -> None:
    insert(
        connection,
        "probe",
        {
            "code": entry.body["probe"],
            "name": entry.body["name"],
            "checked_at": None,
            "ice_tenths_c": None,
            "boiling_tenths_c": None,
        },
    )


def _probe_checked(connection: Connection, entry: Entry) -> None:
    """The newest check counts; one written down late takes nothing from a newer one."""
    connection.execute(
        text(
            "UPDATE probe SET checked_at = :at, ice_tenths_c = :ice_tenths_c, "
            "boiling_tenths_c = :boiling_tenths_c WHERE code = :probe AND COALESCE(checked_at, '') <= :at"
        ),
        {"at": entry.happened_at, **entry.body},
    )


def _round_taken(connection: Connection, entry: Entry) -> None:
    _write_readings(
        connection, entry, [(r["store"], entry.body["at"], r["tenths_c"]) for r in entry.body["readings"]]
    )


def _readings_imported(connection: Connection, entry: Entry) -> None:
    body = entry.body
    content = connection.execute(
        text("SELECT content FROM attachment WHERE hash = :hash"), {"hash": body["hash"]}
    ).scalar_one()
    _write_readings(connection, entry, [(body["store"], at, tenths) for at, tenths in unpacked(content)])


def _write_readings(connection: Connection, entry: Entry, found: list[tuple[str, int, int]]) -> None:
    """A reading for an instant that already has one replaces it: the later entry knows better."""
    if not found:
        return
    connection.execute(
        text(
            "INSERT INTO store_reading (store, at, tenths_c, seq) VALUES (:store, :at, :tenths_c, :seq) "
            "ON CONFLICT (store, at) DO UPDATE SET tenths_c = excluded.tenths_c, seq = excluded.seq"
        ),
        [{"store": s, "at": at, "tenths_c": t, "seq": entry.seq} for s, at, t in found],
    )


def _excursion_answered(connection: Connection, entry: Entry) -> None:
    columns = ("store", "first_at", "last_at", "sort", "action", "result")
    insert(connection, "excursion", {"seq": entry.seq, **{name: entry.body[name] for name in columns}})


def _store_failed(connection: Connection, entry: Entry) -> None:
    """A chiller or freezer that failed: everything in it goes on hold in one act, each under its own hold."""
    for hold in entry.body["holds"]:
        place_hold(connection, entry, hold, hold["lot"])
    if entry.body["holds"]:
        note_entry(connection, entry, [hold["lot"] for hold in entry.body["holds"]])


def _by_products_collected(connection: Connection, entry: Entry) -> None:
    body = entry.body
    columns = ("on_day", "collector", "document_number", "destination", "note")
    insert(connection, "collection", {"seq": entry.seq, **{name: body[name] for name in columns}})
    for item in body["lots"]:
        connection.execute(text("DELETE FROM bin_waiting WHERE lot_id = :lot"), {"lot": item["lot"]})
        insert(
            connection,
            "collected",
            {
                "lot_id": item["lot"],
                "seq": entry.seq,
                "category": item["category"],
                "pence": item.get("pence"),
            },
        )
    note_entry(connection, entry, [item["lot"] for item in body["lots"]])


def _delivery_expected(connection: Connection, entry: Entry) -> None:
    body = entry.body
    columns = ("supplier", "on_day", "at", "species", "bodies", "store", "note")
    insert(
        connection,
        "expected",
        {
            "code": body["expected"],
            **{name: body[name] for name in columns},
            "came": 0,
            "status": "expected",
            "reason": "",
            "seq": entry.seq,
        },
    )


def _expected_arrived(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(connection, "ticked", {"lot_id": body["lot"], "expected": body["expected"]})
    connection.execute(
        text("UPDATE expected SET came = came + :bodies, status = :status WHERE code = :expected"),
        {
            "bodies": body["bodies"],
            "status": "arrived" if body["is_done"] else "expected",
            "expected": body["expected"],
        },
    )
    note_entry(connection, entry, [body["lot"]])


def _expected_cancelled(connection: Connection, entry: Entry) -> None:
    update(
        connection,
        "expected",
        "code",
        entry.body["expected"],
        {"status": "cancelled", "reason": entry.body["reason"]},
    )


PROJECTORS = {
    "delivery.expected": _delivery_expected,
    "expected.arrived": _expected_arrived,
    "expected.cancelled": _expected_cancelled,
    "policy.set": _policy_set,
    "probe.added": _probe_added,
    "probe.checked": _probe_checked,
    "round.taken": _round_taken,
    "readings.imported": _readings_imported,
    "excursion.answered": _excursion_answered,
    "store.failed": _store_failed,
    "by-products.collected": _by_products_collected,
}
