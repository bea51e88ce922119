"""Every question about deliveries that were announced that needs SQL."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, one

Rows = Sequence[Row[Any]]


def expected_rows(connection: Connection, *, open_only: bool) -> Rows:
    """The nearest day first; of what is over, the newest first, after what is to come."""
    rows = every(
        connection,
        "SELECT * FROM expected WHERE status = 'expected' ORDER BY on_day, at = '', at, code",
    )
    if open_only:
        return rows
    over = every(
        connection, "SELECT * FROM expected WHERE status <> 'expected' ORDER BY on_day DESC, code DESC"
    )
    return [*rows, *over]


def expected_row(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM expected WHERE code = :code", code=code)


def ticked_for(connection: Connection, lot: int) -> str:
    row = one(connection, "SELECT expected FROM ticked WHERE lot_id = :lot", lot=lot)
    return str(row.expected) if row else ""


def lots_of(connection: Connection, codes: Iterable[str]) -> dict[str, list[int]]:
    wanted = set(codes)
    found: dict[str, list[int]] = defaultdict(list)
    for row in every(connection, "SELECT expected, lot_id FROM ticked ORDER BY lot_id"):
        if row.expected in wanted:
            found[row.expected].append(row.lot_id)
    return found


def taken_hooks(connection: Connection) -> set[str]:
    """Hooks with something on them."""
    rows = every(
        connection,
        "SELECT code FROM place WHERE kind = 'hook' AND EXISTS "
        "(SELECT 1 FROM lot WHERE lot.place = place.code AND lot.grams_left > 0)",
    )
    return {row.code for row in rows}
