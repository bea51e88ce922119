"""The sums and lists that the page of the day asks and no station does: small, no walk over years."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def results_awaited(connection: Connection) -> Rows:
    """Animals whose meat waits for the laboratory: the hold, and since when."""
    return every(
        connection,
        "SELECT hold.lot_id, hold.placed_at, hold.placed_by, lot.name FROM hold "
        "JOIN lot ON lot.id = hold.lot_id "
        "WHERE hold.released_at IS NULL AND hold.sort = 'result' AND NOT EXISTS "
        "(SELECT 1 FROM laboratory WHERE laboratory.lot_id = hold.lot_id AND laboratory.result = 'positive') "
        "ORDER BY hold.id",
    )


def locked(connection: Connection) -> Rows:
    """Animals the laboratory locked for ever, with what it found."""
    return every(connection, "SELECT lot_id, reason FROM hold WHERE sort = 'locked' ORDER BY id")


def signs_not_rung(connection: Connection) -> Rows:
    """Animals on hold with a notifiable sign that was seen and no call about it."""
    return every(
        connection,
        "SELECT DISTINCT look.lot_id, look.point, lot.name FROM hold "
        "JOIN look ON look.lot_id = hold.lot_id JOIN lot ON lot.id = hold.lot_id "
        "WHERE hold.released_at IS NULL AND look.answer = 'not so' AND look.point LIKE 'sign-%' "
        "AND NOT EXISTS (SELECT 1 FROM call WHERE call.lot_id = look.lot_id AND call.about = 'notifiable') "
        "ORDER BY look.lot_id, look.point",
    )


def first_above(connection: Connection, store: str, first: int, last: int, limit_tenths_c: int) -> int | None:
    """When a store was first read above a limit in a span of seconds: most stores never were."""
    row = one(
        connection,
        "SELECT at FROM store_reading WHERE store = :store AND at BETWEEN :first AND :last "
        "AND tenths_c > :above ORDER BY at LIMIT 1",
        store=store,
        first=first,
        last=last,
        above=limit_tenths_c,
    )
    return row.at if row else None


def stores_in_use(connection: Connection) -> set[str]:
    """Stores in which something stands."""
    rows = every(connection, "SELECT DISTINCT place FROM lot WHERE grams_left > 0 AND place > ''")
    return {row.place.split(".")[0] for row in rows}


def by_products_waiting(connection: Connection) -> Row[Any] | None:
    """How many by-products and bins nobody has collected, their grams, and since when."""
    return one(
        connection,
        "SELECT COUNT(*) AS lots, COALESCE(SUM(grams_made), 0) AS grams, MIN(made_at) AS since "
        "FROM bin_waiting JOIN lot ON lot.id = bin_waiting.lot_id",
    )


def not_claimed(connection: Connection, since: str) -> Rows:
    """Animals received since an instant from a supplier with a claim window, nothing claimed on them yet.

    With the window's days, whether it was dressed, and the shot damage weighed off it so far.
    """
    return every(
        connection,
        "SELECT carcass.lot_id, carcass.received_at, carcass.supplier, carcass.basis, lot.name, "
        "supplier.claim_days, "
        "COALESCE((SELECT SUM(lineage.grams) FROM lineage JOIN lot AS part ON part.id = lineage.child "
        " WHERE lineage.parent = carcass.lot_id AND part.product = 'shot-damage'), 0) AS damaged_grams "
        "FROM carcass JOIN supplier ON supplier.code = carcass.supplier "
        "JOIN lot ON lot.id = carcass.lot_id "
        "WHERE carcass.received_at >= :since AND supplier.claim_days > 0 AND supplier.damage_rule <> 'none' "
        "AND carcass.decision <> 'reject' "
        "AND NOT EXISTS (SELECT 1 FROM claim WHERE claim.lot_id = carcass.lot_id "
        "AND claim.status <> 'struck') ORDER BY carcass.lot_id",
        since=since,
    )


def bought_since(connection: Connection, since: str) -> set[str]:
    """Suppliers that brought something since an instant."""
    # Without DISTINCT, which would go through every animal there ever was by supplier.
    rows = every(connection, "SELECT supplier FROM carcass WHERE received_at >= :since", since=since)
    return {row.supplier for row in rows}


def paper_rows(connection: Connection, lots: Iterable[int]) -> Rows:
    """The declared fields of these animals, to tell what must be rung about."""
    return every(connection, f"SELECT * FROM carcass WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id")


def dishes_at_work(connection: Connection, since: str) -> Rows:
    """Dishes made since an instant of which a temperature or a plate was written down lately."""
    # The newest of each are a few days' worth; older ones need not be looked at.
    lately = "SELECT lot_id FROM (SELECT lot_id FROM {} ORDER BY seq DESC LIMIT 300) AS newest"
    return every(
        connection,
        "SELECT lot.id, lot.name FROM "
        f"({lately.format('kitchen_record')} UNION {lately.format('serving')}) AS seen "
        "JOIN lot ON lot.id = seen.lot_id WHERE lot.made_at >= :since ORDER BY lot.id",
        since=since,
    )
