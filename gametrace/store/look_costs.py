"""Every question about money and yields that needs SQL: what was paid, credited and asked for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def purchase_rows(connection: Connection, lots: Iterable[int]) -> dict[int, Row[Any]]:
    """What each of these animals was bought by."""
    rows = every(
        connection,
        "SELECT carcass.lot_id, carcass.grams_received, carcass.received_basis, carcass.supplier_grams, "
        "carcass.pence_per_kg, carcass.supplier, supplier.price_basis FROM carcass "
        "JOIN supplier ON supplier.code = carcass.supplier "
        f"WHERE carcass.lot_id IN ({in_list(lots)})",
    )
    return {row.lot_id: row for row in rows}


def sold_by_products(connection: Connection, lots: Iterable[int]) -> dict[int, int]:
    """What was paid for those of these lots that were sold as by-products."""
    rows = every(
        connection,
        "SELECT lot_id, pence FROM collected WHERE pence IS NOT NULL "
        f"AND lot_id IN ({in_list(lots)}) ORDER BY lot_id",
    )
    return {row.lot_id: row.pence for row in rows}


def dish_price(connection: Connection, lot: int) -> Row[Any] | None:
    return one(connection, "SELECT * FROM dish_price WHERE lot_id = :lot", lot=lot)


def block_lots(
    connection: Connection,
    *,
    lot_id: int | None = None,
    species: str | None = None,
    sex: str | None = None,
    age_class: str | None = None,
    supplier: str | None = None,
    span: tuple[str, str] = ("", "~"),
    most: int | None = None,
) -> Rows:
    """Single animals that something was weighed off, newest first: whose yields can be asked for.

    None chooses all; `span` is the UTC instants they were received in, the end excluded.
    """
    wanted = {
        "lot_id": lot_id, "species": species, "sex": sex, "age_class": age_class, "supplier": supplier,
    }  # fmt: skip
    given: dict[str, Any] = {name: value for name, value in wanted.items() if value is not None}
    named = "".join(f"AND carcass.{name} = :{name} " for name in given)  # columns, never typed
    if span != ("", "~"):
        named += "AND carcass.received_at >= :start AND carcass.received_at < :end "
        given |= {"start": span[0], "end": span[1]}
    limit = "" if most is None else f" LIMIT {int(most)}"
    return every(
        connection,
        "SELECT carcass.lot_id, carcass.species, carcass.sex, carcass.age_class, carcass.supplier, "
        "lot.name, lot.grams_in, lot.grams_left, lot.unaccounted, lot.status, carcass.received_basis, "
        "carcass.received_at FROM carcass JOIN lot ON lot.id = carcass.lot_id "
        f"WHERE carcass.count = 1 {named}"
        "AND EXISTS (SELECT 1 FROM lineage JOIN lot AS child ON child.id = lineage.child "
        "WHERE lineage.parent = carcass.lot_id AND child.kind IN ('part', 'pack')) "
        f"ORDER BY carcass.lot_id DESC{limit}",
        **given,
    )


def entries_about(connection: Connection, kinds: Sequence[str], lots: Iterable[int]) -> list[tuple[int, int]]:
    """(lot, entry number) for the entries of these kinds that speak of these lots, in order."""
    named = ",".join(f"'{kind}'" for kind in kinds)  # kinds are words of the program, never typed
    rows = every(
        connection,
        "SELECT lot_entry.lot_id, lot_entry.seq FROM lot_entry JOIN happening ON happening.seq = "
        f"lot_entry.seq WHERE happening.kind IN ({named}) AND lot_entry.lot_id IN ({in_list(lots)}) "
        "ORDER BY lot_entry.seq",
    )
    return [(row.lot_id, row.seq) for row in rows]
