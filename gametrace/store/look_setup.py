"""Every question about people, suppliers and places that needs SQL."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, one

Rows = Sequence[Row[Any]]


def person_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM person ORDER BY code")


def supplier_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM supplier ORDER BY code")


def names_from_outside(connection: Connection) -> Rows:
    """(code, last_at) of every supplier, hunter and customer: when a lot last came or went, if any did."""
    return every(
        connection,
        # Every animal is looked at once, not once for each name.
        "SELECT supplier.code, came.last_at FROM supplier LEFT JOIN (SELECT supplier, MAX(received_at) "
        "AS last_at FROM carcass GROUP BY supplier) AS came ON came.supplier = supplier.code "
        "UNION ALL SELECT hunter.code, came.last_at FROM hunter LEFT JOIN (SELECT trained_person, "
        "MAX(received_at) AS last_at FROM carcass WHERE trained_person <> '' GROUP BY trained_person) "
        "AS came ON came.trained_person = hunter.code UNION ALL SELECT customer.code, "
        "(SELECT MAX(happening.happened_at) FROM supply JOIN happening ON happening.seq = supply.seq "
        "WHERE supply.customer = customer.code) FROM customer",
    )


def place_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM place ORDER BY store, position, code")


def place_row(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM place WHERE code = :code COLLATE NOCASE", code=code)


def store_count(connection: Connection) -> int:
    row = one(connection, "SELECT COUNT(*) AS n FROM place WHERE kind = 'store'")
    return int(row.n) if row else 0


def supplier_row(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM supplier WHERE code = :code", code=code)


def last_backup(connection: Connection) -> Row[Any] | None:
    """The newest copy that was noted: seq, happened_at, person, place, entries, seal."""
    return one(
        connection,
        "SELECT backup.*, happening.happened_at, happening.person FROM backup "
        "JOIN happening ON happening.seq = backup.seq ORDER BY backup.seq DESC LIMIT 1",
    )


def last_written(connection: Connection) -> str | None:
    row = one(connection, "SELECT written_at FROM happening ORDER BY seq DESC LIMIT 1")
    return row.written_at if row else None


def count_of_carcasses(connection: Connection) -> int:
    row = one(connection, "SELECT COUNT(*) AS carcasses FROM carcass")
    return row.carcasses if row else 0
