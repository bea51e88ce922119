"""Every question about temperatures, probes and by-products that needs SQL."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, one

Rows = Sequence[Row[Any]]


def probe_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM probe ORDER BY code")


def series(connection: Connection, store: str, first: int, last: int) -> list[tuple[int, int]]:
    """(seconds UTC, tenths of a degree) of one store in a span, both ends included, in order."""
    rows = every(
        connection,
        "SELECT at, tenths_c FROM store_reading WHERE store = :store AND at BETWEEN :first AND :last "
        "ORDER BY at",
        store=store,
        first=first,
        last=last,
    )
    return [(row.at, row.tenths_c) for row in rows]


def last_reading(connection: Connection, store: str) -> tuple[int, int] | None:
    row = one(
        connection,
        "SELECT at, tenths_c FROM store_reading WHERE store = :store ORDER BY at DESC LIMIT 1",
        store=store,
    )
    return (row.at, row.tenths_c) if row else None


def answered(connection: Connection, store: str) -> Rows:
    return every(
        connection,
        "SELECT excursion.*, happening.person, happening.written_at FROM excursion JOIN happening ON "
        "happening.seq = excursion.seq WHERE store = :store ORDER BY excursion.seq",
        store=store,
    )


def moves(connection: Connection) -> Rows:
    """Every move ever, to tell where a lot was at a time."""
    return every(
        connection,
        "SELECT entry.text, happening.happened_at FROM happening JOIN entry ON entry.seq = happening.seq "
        "WHERE happening.kind = 'lot.moved' ORDER BY happening.seq",
    )


def lots_placed(connection: Connection) -> Rows:
    """Meat that ever stood somewhere, with when each was made and, of what is used up, when the last went."""
    return every(
        connection,
        "SELECT id, place, made_at, CASE WHEN grams_left = 0 THEN (SELECT MAX(happening.happened_at) "
        "FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq WHERE lot_entry.lot_id = lot.id AND "
        "happening.kind IN ('lot.divided', 'lots.joined', 'lot.closed', 'lot.weighed', 'carcass.dressed', "
        "'weight.corrected')) END AS gone_at FROM lot WHERE place <> '' AND kind IN "
        "('carcass', 'batch', 'part', 'pack', 'mix') ORDER BY id",
    )


def by_product_rows(connection: Connection) -> Rows:
    """By-products and waste, with the collection that took each."""
    return every(
        connection,
        "SELECT lot.*, collected.category AS taken_as, collection.document_number, collection.collector, "
        "collection.on_day FROM lot LEFT JOIN collected ON collected.lot_id = lot.id LEFT JOIN collection "
        "ON collection.seq = collected.seq WHERE lot.kind IN ('by-product', 'waste') ORDER BY lot.id DESC",
    )


def collection_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM collection ORDER BY seq DESC")
