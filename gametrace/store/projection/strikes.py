"""Plays the striking of an entry: what it made is nothing, what it took flows back, its line stays told.

`happening` is told that the entry was struck, so that whatever is read by kind no longer meets it. The
numbers it gave out stay given out.
"""

from __future__ import annotations

from sqlalchemy import Connection

from gametrace.domain.lots import LotKind
from gametrace.store.journal import Entry
from gametrace.store.projection.rows import note_entry, update
from gametrace.store.statements import text

_EMPTY = {"kind": LotKind.STRUCK, "grams_in": 0, "grams_made": 0, "grams_left": 0, "unaccounted": 0}
_OF_A_LOT = (
    "stop", "dish", "menu_line", "ingredient", "cutting", "issue", "supply", "finding", "reading", "carcass"
)  # fmt: skip


def _entry_struck(connection: Connection, entry: Entry) -> None:
    body = entry.body
    update(connection, "happening", "seq", body["seq"], {"kind": "struck"})
    for hold in body["holds"]:
        words = {"released_by": entry.by, "released_at": entry.happened_at}
        update(connection, "hold", "id", hold, {**words, "release_reason": f"struck: {body['reason']}"})
        connection.execute(text("DELETE FROM stop WHERE hold_id = :hold"), {"hold": hold})
    for lot in body["lots"]:
        connection.execute(text("DELETE FROM lineage WHERE child = :lot"), {"lot": lot})
        for table in _OF_A_LOT:
            connection.execute(text(f"DELETE FROM {table} WHERE lot_id = :lot"), {"lot": lot})
        update(connection, "lot", "id", lot, {**_EMPTY, "status": "closed", "use_by": None})
    for back in body["back"]:
        connection.execute(
            text(
                "UPDATE lot SET grams_left = grams_left + :left, unaccounted = unaccounted + :aside, "
                "status = :status WHERE id = :lot"
            ),
            back,
        )
    if body["kind"] == "lot.closed":  # on a table of a session, if it lay on one
        for back in body["back"]:
            update(connection, "session_lot", "lot_id", back["lot"], {"closed_by": ""})
    for lot, place in body["places"]:
        update(connection, "lot", "id", lot, {"place": place})
    for lot in body["labels"]["lots"]:
        label = {"lot": lot, "sort": body["labels"]["sort"]}
        which = "WHERE lot_id = :lot AND sort = :sort"
        connection.execute(text(f"UPDATE label_print SET times = times - 1 {which}"), label)
        connection.execute(text(f"DELETE FROM label_print {which} AND times <= 0"), label)
    note_entry(connection, entry, body["tells"])


PROJECTORS = {"entry.struck": _entry_struck}
