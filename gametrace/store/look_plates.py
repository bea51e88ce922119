"""Every question about dishes after they are made, services, issues and supplies that needs SQL."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def kitchen_records(connection: Connection, lots: Iterable[int]) -> Rows:
    """Cooked, kept hot, cooled, reheated: in the order it happened."""
    return every(
        connection,
        "SELECT kitchen_record.*, happening.happened_at, happening.person FROM kitchen_record "
        "JOIN happening ON happening.seq = kitchen_record.seq "
        f"WHERE kitchen_record.lot_id IN ({in_list(lots)}) ORDER BY happening.happened_at, seq",
    )


def ingredients(connection: Connection, lots: Iterable[int]) -> Rows:
    return every(
        connection,
        f"SELECT * FROM dish_ingredient WHERE lot_id IN ({in_list(lots)}) ORDER BY seq, position",
    )


def servings(connection: Connection, lots: Iterable[int]) -> Rows:
    return every(
        connection,
        "SELECT serving.*, happening.happened_at, happening.person FROM serving "
        "JOIN happening ON happening.seq = serving.seq "
        f"WHERE serving.lot_id IN ({in_list(lots)}) ORDER BY happening.happened_at, seq",
    )


def left_overs(connection: Connection, dishes: Iterable[int]) -> Rows:
    return every(
        connection,
        "SELECT left_over.*, lot.kind, lot.grams_made, lot.use_by, lot.date_rule, lot.note, lot.made_at, "
        "lot.made_by FROM left_over JOIN lot ON lot.id = left_over.lot_id "
        f"WHERE left_over.dish IN ({in_list(dishes)}) ORDER BY left_over.lot_id",
    )


def are_left_overs(connection: Connection, lots: Iterable[int]) -> set[int]:
    """Which of these lots were left over from a dish, and so are cooked already."""
    rows = every(connection, f"SELECT lot_id FROM left_over WHERE lot_id IN ({in_list(lots)})")
    return {row.lot_id for row in rows}


def menu_row(connection: Connection, lot: int) -> Row[Any] | None:
    return one(connection, "SELECT claims, line FROM menu_line WHERE lot_id = :lot", lot=lot)


def first_cut(connection: Connection, lots: Iterable[int]) -> dict[int, str]:
    """The instant each of these animals was first cut: until then it hung."""
    rows = every(
        connection,
        "SELECT lot_entry.lot_id, MIN(happening.happened_at) AS at FROM lot_entry "
        "JOIN happening ON happening.seq = lot_entry.seq "
        f"WHERE happening.kind = 'lot.divided' AND lot_entry.lot_id IN ({in_list(lots)}) "
        "GROUP BY lot_entry.lot_id",
    )
    return {row.lot_id: row.at for row in rows}


def dishes_on(connection: Connection, day: str) -> Rows:
    """The dishes for services and classes of a day, by occasion."""
    return every(
        connection,
        "SELECT dish.*, lot.made_at FROM dish JOIN lot ON lot.id = dish.lot_id WHERE dish.on_day = :day "
        "ORDER BY dish.occasion_kind DESC, dish.occasion, dish.lot_id",
        day=day,
    )


def covers_on(connection: Connection, day: str) -> Rows:
    return every(connection, "SELECT * FROM covers WHERE on_day = :day ORDER BY occasion", day=day)


def service_days(connection: Connection, limit: int) -> list[str]:
    """Days on which something was made for a service or a class, or covers were counted; newest first."""
    rows = every(
        connection,
        "SELECT on_day FROM dish UNION SELECT on_day FROM covers UNION SELECT on_day FROM issue "
        "ORDER BY on_day DESC LIMIT :limit",
        limit=limit,
    )
    return [row.on_day for row in rows]


_ISSUES = (
    "SELECT issue.*, lot.name, lot.species, lot.grams_made, lot.made_at, lot.made_by, lineage.parent "
    "FROM issue JOIN lot ON lot.id = issue.lot_id JOIN lineage ON lineage.child = issue.lot_id "
)


def issues_on(connection: Connection, day: str) -> Rows:
    return every(connection, f"{_ISSUES} WHERE issue.on_day = :day ORDER BY issue.lot_id", day=day)


def issues(connection: Connection, limit: int) -> Rows:
    return every(connection, f"{_ISSUES} ORDER BY issue.lot_id DESC LIMIT :limit", limit=limit)


def issued(connection: Connection, lots: Iterable[int]) -> Rows:
    return every(connection, f"SELECT * FROM issue WHERE lot_id IN ({in_list(lots)})")


def supplied(connection: Connection, lots: Iterable[int]) -> Rows:
    return every(connection, f"SELECT * FROM supply WHERE lot_id IN ({in_list(lots)})")


def customers(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM customer ORDER BY code")


def supplies(connection: Connection, limit: int) -> Rows:
    """Lots that left for other businesses, newest first."""
    return every(
        connection,
        "SELECT supply.*, lot.grams_made, lot.made_by, lineage.parent FROM supply "
        "JOIN lot ON lot.id = supply.lot_id JOIN lineage ON lineage.child = supply.lot_id "
        "ORDER BY supply.lot_id DESC LIMIT :limit",
        limit=limit,
    )


def supplied_with(connection: Connection, lot: int) -> Rows:
    """The lots of the consignment this one went with, in order; nothing where it was not supplied."""
    return every(
        connection,
        "SELECT supply.*, lot.grams_made, lot.made_by, lineage.parent FROM supply "
        "JOIN lot ON lot.id = supply.lot_id JOIN lineage ON lineage.child = supply.lot_id "
        "WHERE supply.seq = (SELECT seq FROM supply WHERE lot_id = :lot) ORDER BY supply.lot_id",
        lot=lot,
    )


def changes_of(connection: Connection, lot: int) -> list[int]:
    """The entries that put right what went into a dish."""
    rows = every(
        connection,
        "SELECT happening.seq FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq "
        "WHERE lot_entry.lot_id = :lot AND happening.kind = 'dish.changed' ORDER BY happening.seq",
        lot=lot,
    )
    return [row.seq for row in rows]
