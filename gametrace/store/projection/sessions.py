"""Plays the roster, cutting sessions and the kitchen's own cut names."""

from __future__ import annotations

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection.rows import insert, note_entry, update
from gametrace.store.statements import text


def _roster_added(connection: Connection, entry: Entry) -> None:
    for student in entry.body["students"]:
        insert(
            connection,
            "student",
            {
                "code": student["student"],
                "group_code": student["group"],
                "is_active": 1,
                "card": student["card"],
            },
        )


def _roster_forgotten(connection: Connection, entry: Entry) -> None:
    update(connection, "student", "code", entry.body["student"], {"is_active": 0})


def _session_opened(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "session",
        {
            "code": body["session"],
            "on_day": body["on"],
            "group_code": body["group"],
            "tutor": body["tutor"],
            "opened_at": entry.happened_at,
            "closed_at": None,
            "reason": "",
        },
    )
    for position, name in enumerate(body["stations"], 1):
        insert(
            connection,
            "session_station",
            {"session": body["session"], "position": position, "name": name},
        )


def _session_laid(connection: Connection, entry: Entry) -> None:
    body = entry.body
    connection.execute(
        text(
            "INSERT INTO session_lot (session, lot_id, station, seq, reason, closed_by) "
            "VALUES (:session, :lot, :station, :seq, :reason, '') "
            "ON CONFLICT (session, lot_id) DO UPDATE SET station = excluded.station, seq = excluded.seq, "
            "reason = excluded.reason"
        ),
        {
            "session": body["session"],
            "lot": body["lot"],
            "station": body["station"],
            "seq": entry.seq,
            "reason": body["reason"],
        },
    )
    note_entry(connection, entry, [body["lot"]])


def _session_closed(connection: Connection, entry: Entry) -> None:
    body = entry.body
    closed = {"closed_at": entry.happened_at, "reason": body["reason"]}
    update(connection, "session", "code", body["session"], closed)


def _cut_changed(connection: Connection, entry: Entry) -> None:
    """A change replaces what was changed before of the same cut; `as_before` leaves nothing in its place."""
    body = entry.body
    which = {"species": body["species"], "cut": body["cut"]}
    connection.execute(text("DELETE FROM cut_change WHERE species = :species AND cut = :cut"), which)
    if body["as_before"]:
        return
    insert(
        connection,
        "cut_change",
        {
            "seq": entry.seq,
            **which,
            "name": body["name"],
            "parent": body["parent"],
            "synonyms": "\n".join(body["synonyms"]),
            "left_out": int(body["left_out"]),
            "reason": body["reason"],
            "person": entry.by,
        },
    )


PROJECTORS = {
    "roster.added": _roster_added,
    "roster.forgotten": _roster_forgotten,
    "session.opened": _session_opened,
    "session.laid": _session_laid,
    "session.closed": _session_closed,
    "cut.changed": _cut_changed,
}
