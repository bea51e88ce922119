"""Questions about bags without a label, recalls and drills that need SQL."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, one

Rows = Sequence[Row[Any]]


def bags(connection: Connection) -> Rows:
    return every(
        connection,
        "SELECT bag.*, happening.happened_at, happening.person FROM bag "
        "JOIN happening ON happening.seq = bag.seq ORDER BY bag.seq DESC",
    )


def recalls(connection: Connection) -> Rows:
    """The running ones first, then the newest."""
    return every(connection, "SELECT * FROM recall ORDER BY closed_at IS NOT NULL, seq DESC")


def recall(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM recall WHERE code = :code", code=code)


def recalled_lots(connection: Connection, code: str) -> list[int]:
    rows = every(
        connection, "SELECT lot_id FROM recalled_lot WHERE recall = :code ORDER BY lot_id", code=code
    )
    return [row.lot_id for row in rows]


def recall_calls(connection: Connection, code: str) -> Rows:
    return every(connection, "SELECT * FROM recall_call WHERE recall = :code ORDER BY seq", code=code)


def recall_steps(connection: Connection, code: str) -> Rows:
    return every(connection, "SELECT * FROM recall_step WHERE recall = :code ORDER BY step", code=code)


def drills(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM drill ORDER BY begun_at DESC, code DESC")


def drill(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM drill WHERE code = :code", code=code)


def lots_to_drill(connection: Connection, kinds: Sequence[str], since: str) -> list[tuple[int, int]]:
    """(lot, grams left) of these kinds made since then; animals where something was made of them."""
    marks = {f"kind{at}": kind for at, kind in enumerate(kinds)}
    rows = every(
        connection,
        f"SELECT id, grams_left FROM lot WHERE kind IN ({', '.join(f':{mark}' for mark in marks)}) "
        "AND made_at >= :since "
        "AND (kind NOT IN ('carcass', 'batch') OR EXISTS (SELECT 1 FROM lineage WHERE parent = lot.id)) "
        "ORDER BY id",
        since=since,
        **marks,
    )
    return [(row.id, row.grams_left) for row in rows]
