"""Every question about looks, calls, pictures, claims and results that needs SQL."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def _by_lot(rows: Rows) -> dict[int, list[Row[Any]]]:
    found: dict[int, list[Row[Any]]] = defaultdict(list)
    for row in rows:
        found[row.lot_id].append(row)
    return found


def looks_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    return _by_lot(
        every(connection, f"SELECT * FROM look WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id, stage, seq")
    )


def marks_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    return _by_lot(
        every(
            connection,
            f"SELECT * FROM mark WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id, stage, position",
        )
    )


def calls_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    return _by_lot(
        every(
            connection,
            "SELECT call.*, happening.happened_at, happening.person FROM call JOIN happening ON "
            f"happening.seq = call.seq WHERE call.lot_id IN ({in_list(lots)}) ORDER BY call.seq",
        )
    )


def pictures_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    return _by_lot(
        every(
            connection,
            "SELECT picture.*, happening.happened_at, happening.person FROM picture JOIN happening ON "
            f"happening.seq = picture.seq WHERE picture.lot_id IN ({in_list(lots)}) ORDER BY picture.seq",
        )
    )


def second_decisions_of(connection: Connection, lots: Iterable[int]) -> dict[int, Row[Any]]:
    rows = every(
        connection,
        "SELECT second_decision.*, happening.happened_at, happening.person FROM second_decision JOIN "
        "happening ON happening.seq = second_decision.seq "
        f"WHERE second_decision.lot_id IN ({in_list(lots)})",
    )
    return {row.lot_id: row for row in rows}


def claims_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    """Claims that stand: the number of a struck one stays given out, and nothing else of it."""
    which = f"status <> 'struck' AND lot_id IN ({in_list(lots)})"
    return _by_lot(every(connection, f"SELECT * FROM claim WHERE {which} ORDER BY id"))


def claim_row(connection: Connection, claim: int) -> Row[Any] | None:
    return one(connection, "SELECT * FROM claim WHERE id = :claim AND status <> 'struck'", claim=claim)


def open_claims(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM claim WHERE status IN ('raised', 'agreed') ORDER BY id")


def last_claim_id(connection: Connection) -> int:
    row = one(connection, "SELECT COALESCE(MAX(id), 0) AS last FROM claim")
    return int(row.last) if row else 0


def laboratory_of(connection: Connection, lots: Iterable[int]) -> dict[int, Row[Any]]:
    rows = every(connection, f"SELECT * FROM laboratory WHERE lot_id IN ({in_list(lots)})")
    return {row.lot_id: row for row in rows}


def policies(connection: Connection) -> dict[str, str]:
    return {row.name: row.value for row in every(connection, "SELECT name, value FROM policy")}


def policy_rows(connection: Connection) -> Rows:
    return every(
        connection,
        "SELECT policy.*, happening.written_at, happening.person FROM policy JOIN happening ON "
        "happening.seq = policy.seq ORDER BY policy.name",
    )


def supplier_counts(connection: Connection, supplier: str = "") -> dict[str, Row[Any]]:
    """What the larder's own records say of each supplier's deliveries, or of one supplier's."""
    which = "WHERE supplier = :supplier " if supplier else ""
    rows = every(
        connection,
        "SELECT supplier, COUNT(*) AS animals, "
        "SUM(CASE WHEN decision = 'reject' OR EXISTS (SELECT 1 FROM second_decision WHERE "
        "second_decision.lot_id = carcass.lot_id AND second_decision.decision = 'reject') THEN 1 ELSE 0 END) "
        "AS refused, "
        "SUM(CASE WHEN EXISTS (SELECT 1 FROM finding WHERE finding.lot_id = carcass.lot_id AND "
        "finding.code = 'too-warm') THEN 1 ELSE 0 END) AS warm, "
        "SUM(CASE WHEN EXISTS (SELECT 1 FROM finding WHERE finding.lot_id = carcass.lot_id AND "
        "(finding.code = 'declaration-call-back' OR finding.code LIKE '%-missing')) THEN 1 ELSE 0 END) "
        "AS paper_gaps, "
        "COALESCE(SUM((SELECT SUM(lineage.grams) FROM lineage JOIN lot ON lot.id = lineage.child WHERE "
        "lineage.parent = carcass.lot_id AND lot.product = 'shot-damage')), 0) AS damaged_grams, "
        "SUM(CASE WHEN EXISTS (SELECT 1 FROM lineage JOIN lot ON lot.id = lineage.child WHERE "
        "lineage.parent = carcass.lot_id AND lot.product = 'shot-damage') THEN 1 ELSE 0 END) AS damaged, "
        f"SUM(grams_received) AS grams FROM carcass {which}GROUP BY supplier",
        **({"supplier": supplier} if supplier else {}),
    )
    return {row.supplier: row for row in rows}
