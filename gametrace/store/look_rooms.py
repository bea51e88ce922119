"""Every question about temperatures, probes and by-products that needs SQL."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

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


def lots_placed(connection: Connection, first: str, last: str) -> Rows:
    """Meat that stood somewhere in a span of UTC instants: since when and, if used up, when the last went."""
    meat = "place <> '' AND lot.kind IN ('carcass', 'batch', 'part', 'pack', 'mix') AND made_at <= :last"
    gone = (
        "SELECT lot_entry.lot_id, MAX(happening.happened_at) AS at FROM happening "
        "JOIN lot_entry ON lot_entry.seq = happening.seq WHERE happening.happened_at >= :first AND "
        "happening.kind IN ('lot.divided', 'lots.joined', 'lot.closed', 'lot.weighed', 'carcass.dressed', "
        "'weight.corrected', 'lots.issued', 'lots.supplied', 'dish.changed') GROUP BY lot_entry.lot_id"
    )
    return every(
        connection,
        f"SELECT id, place, made_at, NULL AS gone_at FROM lot WHERE grams_left > 0 AND {meat} "
        f"UNION ALL SELECT id, place, made_at, gone.at FROM ({gone}) AS gone "
        f"JOIN lot ON lot.id = gone.lot_id WHERE grams_left = 0 AND {meat} ORDER BY 1",
        first=first,
        last=last,
    )


def by_product_rows(connection: Connection, *, only_waiting: bool = False) -> Rows:
    """By-products and waste, or those that wait, with the collection that took each; the newest first."""
    # CROSS: those that wait first, and never through the by-products of all years.
    source = "bin_waiting CROSS JOIN lot" if only_waiting else "lot"
    waiting = "lot.id = bin_waiting.lot_id AND " if only_waiting else ""
    return every(
        connection,
        "SELECT lot.*, collected.category AS taken_as, collection.document_number, collection.collector, "
        f"collection.on_day FROM {source} LEFT JOIN collected ON collected.lot_id = lot.id "
        "LEFT JOIN collection ON collection.seq = collected.seq "
        f"WHERE {waiting}lot.kind IN ('by-product', 'waste') ORDER BY lot.id DESC",
    )


def first_by_product(connection: Connection) -> Row[Any] | None:
    """What was numbered first of all that is not for food: since when there are bins at all."""
    return one(
        connection,
        "SELECT made_at FROM lot WHERE id = (SELECT MIN(first.id) FROM (SELECT MIN(id) AS id FROM lot "
        "WHERE kind = 'by-product' UNION ALL SELECT MIN(id) FROM lot WHERE kind = 'waste') AS first)",
    )


def collected_of(connection: Connection, lots: Iterable[int]) -> set[int]:
    """Which of these lots a collector has taken."""
    rows = every(connection, f"SELECT lot_id FROM collected WHERE lot_id IN ({in_list(lots)})")
    return {row.lot_id for row in rows}


def by_products_fallen(connection: Connection, first: str, last: str, since: int) -> Rows:
    """Grams of by-products and waste that fell in a span of UTC instants (end excluded).

    A row for each product, category it was taken as (none where nobody took it) and hour. `since`: no lot of
    the span has a lower key, so that those of the years before are not looked at.
    """
    return every(
        connection,
        "SELECT lot.product, collected.category AS taken_as, SUBSTR(lot.made_at, 1, 13) AS hour, "
        "SUM(lot.grams_made) AS grams FROM lot LEFT JOIN collected ON collected.lot_id = lot.id "
        "WHERE lot.kind IN ('by-product', 'waste') AND lot.id >= :since "
        "AND lot.made_at >= :first AND lot.made_at < :last "
        "GROUP BY lot.product, collected.category, SUBSTR(lot.made_at, 1, 13) "
        "ORDER BY 3, 1, collected.category IS NULL, 2",
        first=first,
        last=last,
        since=since,
    )


def collection_count(connection: Connection) -> int:
    row = one(connection, "SELECT COUNT(*) AS papers FROM collection")
    return int(row.papers) if row else 0


def collection_rows(connection: Connection, limit: int, first: int) -> Rows:
    """Collections from the `first` on, the newest first, with how many pieces and grams each took."""
    page = "SELECT * FROM collection ORDER BY on_day DESC, seq DESC LIMIT :limit OFFSET :first"
    return every(
        connection,
        "SELECT page.seq, page.on_day, page.collector, page.document_number, COUNT(*) AS pieces, "
        f"SUM(lot.grams_made) AS grams FROM ({page}) AS page JOIN lot_entry ON lot_entry.seq = page.seq "
        "JOIN collected ON collected.lot_id = lot_entry.lot_id AND collected.seq = page.seq "
        "JOIN lot ON lot.id = collected.lot_id "
        "GROUP BY page.seq, page.on_day, page.collector, page.document_number "
        "ORDER BY page.on_day DESC, page.seq DESC",
        limit=limit,
        first=first,
    )
