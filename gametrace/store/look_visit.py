"""What a visit's period holds beyond deliveries and holds: entries of a kind, and what animals carry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list

Rows = Sequence[Row[Any]]


def entries_of_kind(connection: Connection, kind: str, first: str = "", last: str = "~") -> list[int]:
    """Entries of one kind written in a span of UTC instants (end excluded), in order."""
    rows = every(
        connection,
        "SELECT seq FROM happening WHERE kind = :kind AND written_at >= :first AND written_at < :last "
        "ORDER BY seq",
        kind=kind,
        first=first,
        last=last,
    )
    return [row.seq for row in rows]


def claims_between(connection: Connection, first: str, last: str) -> Rows:
    """Claims raised or settled in the span."""
    return every(
        connection,
        "SELECT claim.*, lot.name AS name, carcass.supplier FROM claim JOIN lot ON lot.id = claim.lot_id "
        "JOIN carcass ON carcass.lot_id = claim.lot_id WHERE claim.status <> 'struck' "
        "AND ((raised_at >= :first AND raised_at < :last) "
        "OR (settled_at >= :first AND settled_at < :last)) ORDER BY claim.id",
        first=first,
        last=last,
    )


def stores_read(connection: Connection, first: int, last: int) -> Rows:
    """Each store with its readings in a span of seconds: how many, the coldest and the warmest."""
    return every(
        connection,
        "SELECT store, COUNT(*) AS readings, MIN(tenths_c) AS coldest, MAX(tenths_c) AS warmest "
        "FROM store_reading WHERE at BETWEEN :first AND :last GROUP BY store ORDER BY store",
        first=first,
        last=last,
    )


def collected_between(connection: Connection, first_day: str, last_day: str) -> Rows:
    """By-products collected on a day of the span (both included), a row a lot."""
    return every(
        connection,
        "SELECT collection.*, collected.category, lot.id AS lot_id, lot.name, lot.grams_made "
        "FROM collection JOIN collected ON collected.seq = collection.seq "
        "JOIN lot ON lot.id = collected.lot_id "
        "WHERE collection.on_day BETWEEN :first AND :last ORDER BY collection.seq, lot.id",
        first=first_day,
        last=last_day,
    )


def happened_between(connection: Connection, first: str, last: str) -> Rows:
    """seq and kind of every entry that tells of a span of UTC instants (end excluded), in order of time."""
    return every(
        connection,
        "SELECT seq, kind FROM happening WHERE happened_at >= :first AND happened_at < :last "
        "ORDER BY happened_at, seq",
        first=first,
        last=last,
    )


def dishes_on(connection: Connection, first_day: str, last_day: str) -> Rows:
    """Dishes for a day of the span (both included), with what they were called and for how many."""
    return every(
        connection,
        "SELECT dish.*, lot.grams_made FROM dish JOIN lot ON lot.id = dish.lot_id "
        "WHERE dish.on_day BETWEEN :first AND :last ORDER BY dish.on_day, dish.lot_id",
        first=first_day,
        last=last_day,
    )


def made_of_several(connection: Connection, kind: str, first: str, last: str) -> Rows:
    """Mixes or dishes made in a span of UTC instants, a row a parent, in order."""
    return every(
        connection,
        "SELECT lot.id, lot.name, lot.made_at, lot.made_by, lot.grams_in, lot.grams_made, lot.unaccounted, "
        "lot.use_by, lineage.parent, lineage.grams, parent.name AS parent_name FROM lot "
        "JOIN lineage ON lineage.child = lot.id JOIN lot AS parent ON parent.id = lineage.parent "
        "WHERE lot.kind = :kind AND lot.made_at >= :first AND lot.made_at < :last "
        "ORDER BY lot.id, lineage.parent",
        kind=kind,
        first=first,
        last=last,
    )


def closed_between(connection: Connection, first: str, last: str) -> Rows:
    """Break-downs closed in a span of UTC instants."""
    return every(
        connection,
        "SELECT lot.id, lot.name, lot.grams_in, lot.unaccounted, happening.seq, happening.happened_at, "
        "happening.person FROM happening JOIN lot_entry ON lot_entry.seq = happening.seq "
        "JOIN lot ON lot.id = lot_entry.lot_id WHERE happening.kind = 'lot.closed' "
        "AND happening.written_at >= :first AND happening.written_at < :last ORDER BY happening.seq",
        first=first,
        last=last,
    )


def came_of(connection: Connection, lots: Iterable[int]) -> Rows:
    """What was made of each of these lots, by kind: how many lots, how many grams."""
    return every(
        connection,
        "SELECT lineage.parent, lot.kind, COUNT(*) AS lots, SUM(lineage.grams) AS grams FROM lineage "
        f"JOIN lot ON lot.id = lineage.child WHERE lineage.parent IN ({in_list(lots)}) "
        "GROUP BY lineage.parent, lot.kind ORDER BY lineage.parent, lot.kind",
    )


def dates_given(connection: Connection, first: str, last: str) -> Rows:
    """The rules by which lots made in a span were dated, with how many of each."""
    return every(
        connection,
        "SELECT date_rule, pack_state, COUNT(*) AS lots, MIN(use_by) AS earliest, MAX(use_by) AS latest "
        "FROM lot WHERE use_by IS NOT NULL AND made_at >= :first AND made_at < :last "
        "GROUP BY date_rule, pack_state ORDER BY date_rule, pack_state",
        first=first,
        last=last,
    )


def pictures_of(connection: Connection, lots: Iterable[int]) -> Rows:
    """The pictures that belong to these animals, in order."""
    return every(
        connection,
        "SELECT picture.*, happening.happened_at, happening.person FROM picture "
        "JOIN happening ON happening.seq = picture.seq "
        f"WHERE picture.lot_id IN ({in_list(lots)}) ORDER BY picture.lot_id, picture.seq",
    )
