"""Questions about many lots at once that need SQL: by time, store, supplier, day, session; and saved sets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store import journal
from gametrace.store.rows import every, in_list, lowered

Rows = Sequence[Row[Any]]
_CARCASS_COLUMNS = frozenset({"supplier", "killed_on"})


def animals_where(connection: Connection, column: str, value: str) -> list[int]:
    """Animals by one column of their paper, which must be exactly this."""
    if column not in _CARCASS_COLUMNS:
        raise ValueError(column)
    rows = every(
        connection, f"SELECT lot_id FROM carcass WHERE {column} = :value ORDER BY lot_id", value=value
    )
    return [row.lot_id for row in rows]


def animals_like(connection: Connection, column: str, value: str) -> list[int]:
    """Animals whose place of killing or declaration is this, whatever the case."""
    if column not in ("kill_place", "declaration_number"):
        raise ValueError(column)
    rows = every(
        connection,
        f"SELECT lot_id FROM carcass WHERE LOWER({column}) = :value ORDER BY lot_id",
        value=lowered(value),
    )
    return [row.lot_id for row in rows]


def animals_of_hunter(connection: Connection, hunters: Sequence[str]) -> list[int]:
    """Animals whose declaration names one of these trained persons, by their codes."""
    names = {f"hunter{at}": code for at, code in enumerate(hunters)}
    if not names:
        return []
    marks = ", ".join(f":{name}" for name in names)
    rows = every(
        connection,
        f"SELECT lot_id FROM carcass WHERE trained_person IN ({marks}) ORDER BY lot_id",
        **names,
    )
    return [row.lot_id for row in rows]


def animals_received(connection: Connection, first: str, last: str) -> list[int]:
    rows = every(
        connection,
        "SELECT lot_id FROM carcass WHERE received_at >= :first AND received_at < :last ORDER BY lot_id",
        first=first,
        last=last,
    )
    return [row.lot_id for row in rows]


def dishes_on(connection: Connection, first: str, last: str) -> list[int]:
    """Dishes for a day of the span, both days included."""
    rows = every(
        connection,
        "SELECT lot_id FROM dish WHERE on_day >= :first AND on_day <= :last ORDER BY lot_id",
        first=first,
        last=last,
    )
    return [row.lot_id for row in rows]


def dishes_at(connection: Connection, occasion: str, on: str) -> list[int]:
    rows = every(
        connection,
        "SELECT lot_id FROM dish WHERE LOWER(occasion) = :occasion AND on_day = :day ORDER BY lot_id",
        occasion=lowered(occasion),
        day=on,
    )
    return [row.lot_id for row in rows]


def services_called(connection: Connection, words: str, limit: int) -> Rows:
    """Services and classes whose name holds the words, newest first, with how many dishes each had."""
    names = _occasions_called(connection, words)
    found = [row for name in names for row in _services(connection, name, limit)]
    found.sort(key=lambda row: row.occasion)
    found.sort(key=lambda row: row.on_day, reverse=True)
    return found[:limit]


def _occasions_called(connection: Connection, words: str) -> list[str]:
    """The few names services go by, found by stepping from one to the next: the dishes are many."""
    literal = lowered(words).replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
    rows = every(
        connection,
        "WITH RECURSIVE named (occasion) AS (SELECT MIN(occasion) FROM dish UNION ALL "
        "SELECT (SELECT MIN(occasion) FROM dish WHERE dish.occasion > named.occasion) FROM named "
        "WHERE named.occasion IS NOT NULL) "
        "SELECT occasion FROM named WHERE LOWER(occasion) LIKE :words ESCAPE '\\'",
        words=f"%{literal}%",
    )
    return [row.occasion for row in rows]


def _services(connection: Connection, occasion: str, limit: int) -> Rows:
    """The newest of that name. Grouped and ordered as the index is, so no more than they are read."""
    return every(
        connection,
        "SELECT MIN(occasion) AS occasion, occasion_kind, on_day, COUNT(*) AS dishes FROM dish "
        "WHERE occasion = :occasion GROUP BY on_day, occasion_kind "
        "ORDER BY on_day DESC, occasion_kind DESC LIMIT :limit",
        occasion=occasion,
        limit=limit,
    )


def held_together(connection: Connection) -> list[int]:
    """The entries that held several lots at once and of which a hold is still there, newest first."""
    rows = every(
        connection,
        "SELECT DISTINCT happening.seq FROM hold JOIN lot_entry ON lot_entry.lot_id = hold.lot_id "
        "JOIN happening ON happening.seq = lot_entry.seq "
        "WHERE hold.released_at IS NULL AND happening.kind = 'set.held' ORDER BY happening.seq DESC",
    )
    return [row.seq for row in rows]


def here(connection: Connection, lots: Iterable[int]) -> set[int]:
    """Those of these lots with something left that is still the larder's."""
    found: set[int] = set()
    for chunk in _chunks(sorted(lots)):
        rows = every(
            connection,
            f"SELECT id FROM lot WHERE grams_left > 0 AND id IN ({in_list(chunk)}) AND kind IN "
            "('carcass', 'batch', 'part', 'pack', 'mix')",
        )
        found.update(row.id for row in rows)
    return found


def lived_between(connection: Connection, first: str, last: str) -> Rows:
    """Lots that were there at any time in the span, with when the last of them left ('' while some is left).

    A lot ends when the last of it went on: with its last child, or when it was closed on the block.
    """
    return every(
        connection,
        "SELECT * FROM (SELECT lot.id, lot.place, lot.made_at, CASE WHEN lot.grams_left > 0 THEN '' ELSE "
        "COALESCE((SELECT MAX(at) FROM (SELECT child.made_at AS at FROM lineage JOIN lot AS child "
        "ON child.id = lineage.child WHERE lineage.parent = lot.id UNION ALL SELECT happening.happened_at "
        "FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq WHERE lot_entry.lot_id = lot.id "
        "AND happening.kind = 'lot.closed') AS ends), lot.made_at) END AS ended_at "
        "FROM lot WHERE lot.made_at < :last) AS lives WHERE ended_at = '' OR ended_at >= :first ORDER BY id",
        first=first,
        last=last,
    )


def moves_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[tuple[str, str, str]]]:
    """(when, from, to) of every move of these lots, in order."""
    seqs: list[int] = []
    for chunk in _chunks(sorted(lots)):
        rows = every(
            connection,
            "SELECT lot_entry.seq FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq "
            f"WHERE happening.kind = 'lot.moved' AND lot_entry.lot_id IN ({in_list(chunk)})",
        )
        seqs += [row.seq for row in rows]
    found: dict[int, list[tuple[str, str, str]]] = defaultdict(list)
    for entry in journal.entries(connection, sorted(set(seqs))):
        found[entry.body["lot"]].append((entry.happened_at, entry.body["was"], entry.body["to"]))
    return {lot: sorted(moves) for lot, moves in found.items()}


def cut_by(connection: Connection, key: str, value: str) -> list[int]:
    """What was cut in a session, by a cutter or at a station, what that was cut from, and what lay there."""
    if key not in ("session", "cutter", "station"):
        raise ValueError(key)
    laid = "closed_by" if key == "cutter" else key
    rows = every(
        connection,
        f"SELECT lot_id FROM cutting WHERE LOWER({key}) = :value "
        "UNION SELECT lineage.parent FROM cutting JOIN lineage ON lineage.child = cutting.lot_id "
        f"WHERE LOWER(cutting.{key}) = :value "
        f"UNION SELECT lot_id FROM session_lot WHERE LOWER({laid}) = :value ORDER BY 1",
        value=lowered(value),
    )
    return [row.lot_id for row in rows]


def saved_sets(connection: Connection) -> Rows:
    return every(
        connection,
        "SELECT saved_set.*, happening.happened_at, happening.person, (SELECT COUNT(*) FROM saved_lot "
        "WHERE saved_lot.code = saved_set.code) AS lots FROM saved_set "
        "JOIN happening ON happening.seq = saved_set.seq ORDER BY saved_set.seq DESC",
    )


def saved_lots(connection: Connection, code: str) -> list[int]:
    rows = every(
        connection, "SELECT lot_id FROM saved_lot WHERE code = :code ORDER BY lot_id", code=code.upper()
    )
    return [row.lot_id for row in rows]


def _chunks(lots: list[int]) -> Iterable[list[int]]:
    return (lots[start : start + 500] for start in range(0, len(lots), 500))
