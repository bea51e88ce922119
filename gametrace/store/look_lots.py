"""Every question about lots that needs SQL: one lot, lists of them, what stops them, what they came from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


class Stop(NamedTuple):
    """An unlifted hold that reaches a lot, and where it was put."""

    hold_id: int
    sort: str
    reason: str
    held_lot: int


def lot_row(connection: Connection, lot: int) -> Row[Any] | None:
    return one(connection, "SELECT * FROM lot WHERE id = :lot", lot=lot)


def lot_rows(connection: Connection, lots: Iterable[int]) -> Rows:
    return every(connection, f"SELECT * FROM lot WHERE id IN ({in_list(lots)}) ORDER BY id")


class CutRow(NamedTuple):
    """What is asked of a lot where only its cutting counts."""

    id: int
    kind: str
    product: str
    side: str
    cut_state: str
    grams_in: int
    grams_left: int
    unaccounted: int


def cut_rows(connection: Connection, lots: Iterable[int]) -> list[CutRow]:
    """Lots with what their cutting needs. The driver is asked itself: there may be tens of thousands."""
    wanted = f"SELECT {', '.join(CutRow._fields)} FROM lot WHERE id IN ({in_list(lots)}) ORDER BY id"
    cursor = connection.connection.cursor()
    cursor.execute(wanted)
    found = list(map(CutRow._make, cursor.fetchall()))
    cursor.close()
    return found


def stops_on(connection: Connection, lots: Iterable[int]) -> dict[int, list[Stop]]:
    """What stops each of these lots, worst word first left to domain.lots.state_of."""
    found: dict[int, list[Stop]] = defaultdict(list)
    rows = every(
        connection,
        "SELECT stop.lot_id, hold.id, hold.sort, hold.reason, hold.lot_id AS held_lot FROM stop "
        f"JOIN hold ON hold.id = stop.hold_id WHERE stop.lot_id IN ({in_list(lots)}) ORDER BY hold.id",
    )
    for row in rows:
        found[row.lot_id].append(Stop(row.id, row.sort, row.reason, row.held_lot))
    return found


def stock_rows(connection: Connection, *, only_unplaced: bool = False) -> Rows:
    """Packs, parts and mixes with something left, or those that lie nowhere; the one to use first on top."""
    where = "AND place = '' " if only_unplaced else ""
    return every(
        connection,
        f"SELECT * FROM lot WHERE grams_left > 0 AND kind IN ('pack', 'part', 'mix') {where}"
        "ORDER BY use_by IS NULL, use_by, id",
    )


def block_rows(connection: Connection) -> Rows:
    """What may lie on the block: whole or opened lots of meat with something left."""
    return every(
        connection,
        "SELECT * FROM lot WHERE grams_left > 0 AND kind IN ('carcass', 'batch', 'part', 'mix') "
        "AND NOT (kind = 'mix' AND product = '') ORDER BY status <> 'open', id",
    )


def open_block_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM lot WHERE status = 'open' AND grams_left > 0 ORDER BY id")


def dish_rows(connection: Connection, limit: int, first: int = 0) -> Rows:
    """Dishes, the newest first; `first` are passed over in the index, without reading them."""
    return every(
        connection,
        "SELECT lot.* FROM (SELECT id FROM lot WHERE kind = 'dish' ORDER BY id DESC "
        "LIMIT :limit OFFSET :first) AS page JOIN lot ON lot.id = page.id ORDER BY lot.id DESC",
        limit=limit,
        first=first,
    )


def dish_count(connection: Connection) -> int:
    row = one(connection, "SELECT COUNT(*) AS dishes FROM lot WHERE kind = 'dish'")
    return int(row.dishes) if row else 0


def newest_dish(connection: Connection, first: str, last: str) -> int | None:
    """The last dish made in a span of UTC instants."""
    row = one(
        connection,
        "SELECT id FROM lot WHERE kind = 'dish' AND made_at >= :first AND made_at < :last "
        "ORDER BY id DESC LIMIT 1",
        first=first,
        last=last,
    )
    return row.id if row else None


def shelved_rows(connection: Connection) -> Rows:
    """Everything that stands somewhere, by place."""
    return every(
        connection,
        "SELECT * FROM lot WHERE grams_left > 0 AND place <> '' AND kind IN "
        "('carcass', 'batch', 'pack', 'part', 'mix') ORDER BY place, id",
    )


def children_rows(connection: Connection, lot: int) -> Rows:
    """What was made of a lot, with the grams it gave to each."""
    return every(
        connection,
        "SELECT lot.*, lineage.grams AS given FROM lineage JOIN lot ON lot.id = lineage.child "
        "WHERE lineage.parent = :lot ORDER BY lot.id",
        lot=lot,
    )


def parents_of(connection: Connection, lot: int) -> list[tuple[int, int]]:
    rows = every(connection, "SELECT parent, grams FROM lineage WHERE child = :lot ORDER BY parent", lot=lot)
    return [(row.parent, row.grams) for row in rows]


def dish_details(connection: Connection, lots: Iterable[int]) -> dict[int, Row[Any]]:
    rows = every(connection, f"SELECT * FROM dish WHERE lot_id IN ({in_list(lots)})")
    return {row.lot_id: row for row in rows}


def ingredients_of(connection: Connection, lots: Iterable[int]) -> Rows:
    """What went into these lots besides meat, lot by lot in the order it was written down."""
    return every(
        connection, f"SELECT * FROM ingredient WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id, position"
    )


def labels_printed(connection: Connection, lots: Iterable[int]) -> dict[int, dict[str, int]]:
    """How often each sort of label was printed, lot by lot."""
    found: dict[int, dict[str, int]] = {}
    for row in every(connection, f"SELECT * FROM label_print WHERE lot_id IN ({in_list(lots)})"):
        found.setdefault(row.lot_id, {})[row.sort] = row.times
    return found


def lot_on_hook(connection: Connection, place: str) -> int | None:
    row = one(
        connection,
        "SELECT id FROM lot WHERE place = :place AND grams_left > 0 AND kind IN "
        "('carcass', 'batch', 'pack', 'part', 'mix') LIMIT 1",
        place=place,
    )
    return row.id if row else None


def dishes_called(connection: Connection, name: str, limit: int) -> list[int]:
    """Dishes of just this name, however it is capitalised; newest first."""
    rows = every(
        connection,
        "SELECT lot_id FROM dish WHERE name = :name COLLATE NOCASE ORDER BY lot_id DESC LIMIT :limit",
        name=name,
        limit=limit,
    )
    return [row.lot_id for row in rows]


def counts(connection: Connection) -> Row[Any]:
    """How much waits at each station, in one look."""
    row = one(
        connection,
        "SELECT (SELECT COUNT(*) FROM lot WHERE kind IN ('carcass', 'batch') AND grams_left > 0 "
        "AND id NOT IN (SELECT stop.lot_id FROM stop JOIN hold ON hold.id = stop.hold_id "
        "WHERE hold.sort = 'rejected')) AS hanging, "
        "(SELECT COUNT(*) FROM lot WHERE status = 'open' AND grams_left > 0) AS open_blocks, "
        "(SELECT COUNT(*) FROM lot WHERE kind = 'pack' AND grams_left > 0) AS packs, "
        "(SELECT COUNT(*) FROM hold WHERE released_at IS NULL AND sort = 'hold') AS holds",
    )
    assert row is not None
    return row
