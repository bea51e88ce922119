"""What a weighing or a closing says of the session, the table and the hand: keys that older entries lack."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection

from gametrace.store.projection.rows import insert
from gametrace.store.statements import text


def note_cutting(connection: Connection, body: Mapping[str, Any], lot: int) -> None:
    """Where and by whom a lot was cut, where that was said."""
    said = {key: body.get(key, "") for key in ("session", "station", "cutter")}
    if any(said.values()):
        insert(connection, "cutting", {"lot_id": lot, **said})


def note_closing(connection: Connection, body: Mapping[str, Any]) -> None:
    """Who closed a lot that lay on a table."""
    if body.get("session"):
        connection.execute(
            text("UPDATE session_lot SET closed_by = :by WHERE session = :session AND lot_id = :lot"),
            {"by": body.get("cutter", ""), "session": body["session"], "lot": body["lot"]},
        )
