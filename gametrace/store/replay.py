"""Plays a whole journal into empty tables: for a rebuild, and beside the live tables when they are checked.

The projectors are those of a live act. But hundreds of thousands of entries are played here, so a file is
spoken to without SQLAlchemy between (five times as quick), and the words by which lots are found are written
once at the end.
"""

from __future__ import annotations

import sqlite3
from collections import namedtuple
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any, cast

from sqlalchemy import Connection, TextClause

from gametrace.store.journal import entries, head_of
from gametrace.store.projection import play_tables, write_all_words


def play(journal: Connection, tables: Connection, progress: Callable[[int, int], None]) -> None:
    """Fill empty `tables` with what the entries of `journal` say, within the unit of work of `tables`."""
    total, _ = head_of(journal)
    target = _straight_to(tables)
    for entry in entries(journal):
        play_tables(target, entry)
        if entry.seq % 1_000 == 0:
            progress(entry.seq, total)
    write_all_words(target)
    progress(total, total)


def _straight_to(connection: Connection) -> Connection:
    """The same connection by the shortest way there is; a server's is that way already."""
    raw = connection.connection.driver_connection
    return cast(Connection, _Straight(connection, raw)) if isinstance(raw, sqlite3.Connection) else connection


class _Straight:
    """As much of a Connection as projectors use, on sqlite3 itself: named values mean the same to both."""

    def __init__(self, connection: Connection, raw: sqlite3.Connection) -> None:
        self.dialect, self.connection = connection.dialect, raw

    def execute(self, statement: TextClause, values: Any = ()) -> _Answer:
        if isinstance(values, list):
            return _Answer(self.connection.executemany(statement.text, values))
        return _Answer(self.connection.execute(statement.text, values))

    def exec_driver_sql(self, statement: str, values: Any = ()) -> _Answer:
        return _Answer(self.connection.execute(statement, values))


class _Answer:
    """What a statement answered, a row as a tuple with named fields."""

    def __init__(self, cursor: sqlite3.Cursor) -> None:
        self._cursor = cursor
        if cursor.description:
            cursor.row_factory = _row_factory(tuple(column[0] for column in cursor.description))

    def __iter__(self) -> Iterator[Any]:
        return iter(self._cursor)

    def all(self) -> list[Any]:
        return self._cursor.fetchall()

    def first(self) -> Any:
        return self._cursor.fetchone()

    def scalars(self) -> list[Any]:
        return [row[0] for row in self._cursor]

    def scalar_one(self) -> Any:
        ((found,),) = self._cursor.fetchall()
        return found


@cache
def _row_factory(names: tuple[str, ...]) -> Callable[[sqlite3.Cursor, tuple[Any, ...]], Any]:
    row = namedtuple("Row", names, rename=True)  # type: ignore[misc]  # names known when it runs
    make = row._make
    return lambda _cursor, found: make(found)
