"""The few statements several projectors share: insert a row, note a lot's entry, hand stops down."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Any

from sqlalchemy import Connection, TextClause

from gametrace.store.journal import Entry
from gametrace.store.lineage import descendants
from gametrace.store.statements import text

_FOR_THE_COLLECTOR = ("by-product", "waste")
_TAKE = text(
    "UPDATE lot SET grams_left = grams_left - :grams, "
    "status = CASE WHEN grams_left = :grams THEN 'closed' ELSE status END WHERE id = :lot"
)
_HAND_DOWN = text(
    "INSERT INTO stop (lot_id, hold_id) SELECT :child, hold_id FROM stop WHERE lot_id = :parent "
    "ON CONFLICT DO NOTHING"
)


def insert(connection: Connection, table: str, row: Mapping[str, Any]) -> None:
    connection.execute(_insert(table, tuple(row)), dict(row))


@cache
def _insert(table: str, columns: tuple[str, ...]) -> TextClause:
    names = ", ".join(f'"{column}"' for column in columns)
    values = ", ".join(f":{column}" for column in columns)
    return text(f"INSERT INTO {table} ({names}) VALUES ({values})")


def update(connection: Connection, table: str, key: str, value: Any, columns: Mapping[str, Any]) -> None:
    if columns:
        connection.execute(_update(table, key, tuple(columns)), {**columns, "which_": value})


@cache
def _update(table: str, key: str, columns: tuple[str, ...]) -> TextClause:
    sets = ", ".join(f'"{column}" = :{column}' for column in columns)
    return text(f'UPDATE {table} SET {sets} WHERE "{key}" = :which_')


def note_entry(connection: Connection, entry: Entry, lots: Iterable[int]) -> None:
    """This entry is part of these lots' stories."""
    rows = [{"lot_id": lot, "seq": entry.seq} for lot in sorted(set(lots))]
    if rows:
        connection.execute(text("INSERT INTO lot_entry (lot_id, seq) VALUES (:lot_id, :seq)"), rows)


def add_lot(
    connection: Connection, entry: Entry, lot: Mapping[str, Any], parents: Sequence[tuple[int, int]]
) -> None:
    """A new lot of `lot['grams_in']` grams out of `parents` (key, grams): edges, stops and story with it."""
    insert(
        connection,
        "lot",
        {
            "id": lot["lot"],
            "kind": lot["kind"],
            "product": lot["product"],
            "side": lot["side"],
            "name": lot["name"],
            "species": lot["species"],
            "grams_in": lot["grams_in"],
            "grams_made": lot["grams"],
            "grams_left": lot["grams"],
            "unaccounted": lot["grams_in"] - lot["grams"],
            "status": "whole",
            "place": lot["place"],
            "made_at": entry.happened_at,
            "made_by": entry.by,
            "use_by": lot["use_by"],
            "date_rule": lot["date_rule"],
            "pack_state": lot["pack_state"],
            "cut_state": lot.get("cut_state", ""),
            "first_packed_on": lot.get("first_packed_on"),
            "first_frozen_on": lot.get("first_frozen_on"),
            "thawed_on": lot.get("thawed_on"),
            "portions": lot.get("portions", 0),
            "note": lot["note"],
        },
    )
    if lot["kind"] in _FOR_THE_COLLECTOR:
        insert(connection, "bin_waiting", {"lot_id": lot["lot"]})
    if parents:
        _come_of(connection, lot["lot"], parents)


def _come_of(connection: Connection, child: int, parents: Sequence[tuple[int, int]]) -> None:
    """One statement for all parents: to a server each is a trip."""
    edges = [{"child": child, "parent": parent, "grams": grams} for parent, grams in parents]
    connection.execute(_insert("lineage", ("child", "parent", "grams")), edges)
    connection.execute(_TAKE, [{"lot": parent, "grams": grams} for parent, grams in parents])
    connection.execute(_HAND_DOWN, edges)


def take(connection: Connection, lot: int, grams: int) -> None:
    """Grams leave a lot; what is quite used up is closed."""
    connection.execute(_TAKE, {"lot": lot, "grams": grams})


def set_aside(connection: Connection, lot: int, grams: int) -> None:
    """Grams nobody weighed leave what is left and are kept as unaccounted."""
    connection.execute(
        text(
            "UPDATE lot SET unaccounted = unaccounted + :grams, grams_left = grams_left - :grams "
            "WHERE id = :lot"
        ),
        {"lot": lot, "grams": grams},
    )


def place_hold(connection: Connection, entry: Entry, hold: Mapping[str, Any], lot: int) -> None:
    """A hold on a lot and on everything already made of it."""
    insert(
        connection,
        "hold",
        {
            "id": hold["hold"],
            "lot_id": lot,
            "sort": hold["sort"],
            "reason": hold["reason"],
            "placed_by": entry.by,
            "placed_at": entry.happened_at,
            "released_by": "",
            "released_at": None,
            "release_reason": "",
        },
    )
    hand_stop_down(connection, hold["hold"], lot)


def hand_stop_down(connection: Connection, hold: int, lot: int) -> None:
    """A hold stops its lot and everything already made of it."""
    reached = sorted({lot, *descendants(connection, lot)})
    rows = [{"lot_id": one, "hold_id": hold} for one in reached]
    connection.execute(text("INSERT INTO stop (lot_id, hold_id) VALUES (:lot_id, :hold_id)"), rows)
