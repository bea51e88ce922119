"""Plays entries into the tables: the only code that changes them, live and when rebuilding alike.

One function a kind of entry, found by its name. A projector reads nothing but the entry and the tables, and
decides nothing: what was allowed was ruled on before the entry was sealed.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection import animals, door, lots, people, plates, rooms, sessions, strikes, tracing
from gametrace.store.projection.lot_texts import write_all_words, write_texts
from gametrace.store.statements import text

__all__ = ["KINDS", "play_tables", "project", "write_all_words"]

_PROJECTORS: dict[str, Callable[[Connection, Entry], None]] = {
    **people.PROJECTORS,
    **animals.PROJECTORS,
    **door.PROJECTORS,
    **lots.PROJECTORS,
    **rooms.PROJECTORS,
    **sessions.PROJECTORS,
    **plates.PROJECTORS,
    **strikes.PROJECTORS,
    **tracing.PROJECTORS,
}


def project(connection: Connection, entry: Entry) -> None:
    """Let the tables follow one entry. Raises KeyError for a kind this program does not know (a bug)."""
    play_tables(connection, entry)
    write_texts(connection, entry)


def play_tables(connection: Connection, entry: Entry) -> None:
    """All but the words, which who plays a whole journal writes once, at the end (`write_all_words`)."""
    connection.execute(
        text(
            "INSERT INTO happening (seq, kind, happened_at, written_at, late_seconds, person) "
            "VALUES (:seq, :kind, :happened_at, :written_at, :late_seconds, :person)"
        ),
        {
            "seq": entry.seq,
            "kind": entry.kind,
            "happened_at": entry.happened_at,
            "written_at": entry.written_at,
            "late_seconds": _late_seconds(entry),
            "person": entry.by,
        },
    )
    _PROJECTORS[entry.kind](connection, entry)


def _late_seconds(entry: Entry) -> int:
    written, happened = (datetime.fromisoformat(at) for at in (entry.written_at, entry.happened_at))
    return int((written - happened).total_seconds())


KINDS = frozenset(_PROJECTORS)
