"""Fetches the graph around a lot, level by level with IN (...): faster than a recursive query from some
hundred nodes up, and the same on every database. Arithmetic on what comes back is domain.lineage's.

The driver is asked itself: over a few hundred rows SQLAlchemy's own costs more than finding them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from operator import attrgetter

from sqlalchemy import Connection

from gametrace.domain.lineage import Edge
from gametrace.store.statements import text

_AT_ONCE = 500  # bound variables a statement


def edges_above(connection: Connection, lots: Iterable[int]) -> list[Edge]:
    """Every edge from the given lots back to the animals, each once."""
    return _walk(connection, lots, known="child", wanted="parent")


def edges_below(connection: Connection, lots: Iterable[int]) -> list[Edge]:
    """Every edge from the given lots on to the plates and bins, each once."""
    return _walk(connection, lots, known="parent", wanted="child")


def edges_out_of(connection: Connection, lots: Iterable[int]) -> list[Edge]:
    """Every edge from the given lots to what was made of them, and no further."""
    cursor = connection.connection.cursor()
    found: list[Edge] = []
    for chunk in _chunks(sorted(set(lots))):
        cursor.execute(
            f"SELECT parent, child, grams FROM lineage WHERE parent IN ({_names(chunk)}) "
            "ORDER BY parent, child"
        )
        found.extend(map(Edge._make, cursor.fetchall()))
    cursor.close()
    return found


def _walk(connection: Connection, lots: Iterable[int], *, known: str, wanted: str) -> list[Edge]:
    cursor = connection.connection.cursor()
    found: list[Edge] = []
    level = set(lots)
    seen = set(level)
    wanted_of = attrgetter(wanted)
    while level:
        edges: list[Edge] = []
        for chunk in _chunks(sorted(level)):
            cursor.execute(
                f"SELECT parent, child, grams FROM lineage WHERE {known} IN ({_names(chunk)}) "
                f"ORDER BY {known}, {wanted}"
            )
            edges.extend(map(Edge._make, cursor.fetchall()))
        found.extend(edges)
        level = set(map(wanted_of, edges)) - seen
        seen |= level
    cursor.close()
    return found


def descendants(connection: Connection, lot: int) -> set[int]:
    """Every lot that anything of this lot went into."""
    return {edge.child for edge in edges_below(connection, [lot])}


def grams_in_of(connection: Connection, lots: Iterable[int]) -> dict[int, int]:
    """The total input of each lot, for sharing out its children."""
    return {
        row.id: row.grams_in
        for chunk in _chunks(sorted(set(lots)))
        for row in connection.execute(text(f"SELECT id, grams_in FROM lot WHERE id IN ({_names(chunk)})"))
    }


def _names(chunk: Sequence[int]) -> str:
    # Integers only, so there is nothing to inject; bound variables here cost as much as the walk.
    return ",".join(map(str, map(int, chunk)))


def _chunks(lots: list[int]) -> Iterable[list[int]]:
    return (lots[start : start + _AT_ONCE] for start in range(0, len(lots), _AT_ONCE))
