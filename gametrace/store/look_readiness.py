"""What an officer would find: break-downs that did not add up, refusals, and the last drill."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, one

Rows = Sequence[Row[Any]]


def not_accounted(connection: Connection, first: str, last: str, tenths_of_a_percent: int) -> Rows:
    """Break-downs closed in a span of UTC instants with more unaccounted than that share of what went in."""
    return every(
        connection,
        # CROSS: from the few entries of the span to their lots, not through every lot there ever was.
        "SELECT lot.id, lot.name, lot.grams_in, lot.unaccounted, happening.seq FROM happening "
        "CROSS JOIN lot_entry CROSS JOIN lot WHERE lot_entry.seq = happening.seq "
        "AND lot.id = lot_entry.lot_id AND happening.kind = 'lot.closed' AND happening.written_at >= :first "
        "AND happening.written_at < :last AND lot.unaccounted * 1000 > lot.grams_in * :share "
        "ORDER BY lot.unaccounted DESC, lot.id",
        first=first,
        last=last,
        share=tenths_of_a_percent,
    )


def last_refusal(connection: Connection) -> int | None:
    """The animal that was refused at the door last."""
    row = one(
        connection,
        "SELECT lot_id FROM carcass WHERE decision = 'reject' ORDER BY received_at DESC, lot_id DESC LIMIT 1",
    )
    return row.lot_id if row else None


def last_drill(connection: Connection) -> int | None:
    """The entry that ended the newest drill. Where none was ended the entries are not looked through."""
    if one(connection, "SELECT code FROM drill WHERE ended_at IS NOT NULL LIMIT 1") is None:
        return None
    row = one(connection, "SELECT MAX(seq) AS seq FROM happening WHERE kind = 'drill.ended'")
    return row.seq if row else None


def received_after(connection: Connection, supplier: str, since: str) -> int:
    """How many deliveries of a supplier came after an instant."""
    row = one(
        connection,
        "SELECT COUNT(*) AS n FROM carcass WHERE supplier = :supplier AND received_at >= :since "
        "AND decision <> 'reject'",
        supplier=supplier,
        since=since,
    )
    return int(row.n) if row else 0


def entry_of_hold(connection: Connection, lot: int, placed_at: str) -> int | None:
    """The entry that put a hold on a lot."""
    row = one(
        connection,
        "SELECT lot_entry.seq FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq "
        "WHERE lot_entry.lot_id = :lot AND happening.happened_at = :at ORDER BY lot_entry.seq DESC LIMIT 1",
        lot=lot,
        at=placed_at,
    )
    return row.seq if row else None


def received_by_entry(connection: Connection, lot: int) -> int | None:
    """The entry a lot began with."""
    row = one(connection, "SELECT MIN(seq) AS seq FROM lot_entry WHERE lot_id = :lot", lot=lot)
    return row.seq if row else None
