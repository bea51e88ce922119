"""Many acts as one unit of work: all of them are written, or none; or all are tried and undone again."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection

from gametrace.store.engine import Store


class _Undo(Exception):
    """Inside only: undoes what was tried."""


class OneUnit(Store):
    """Stands in for a store: whatever reads or writes shares one connection that has begun already."""

    def __init__(self, store: Store, connection: Connection) -> None:
        self.path = store.path
        self._place, self._connection = store.place, connection

    @property
    def place(self) -> str:
        return self._place

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        yield self._connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One act; what it wrote is taken back when it raises, and what went before stays."""
        with self._connection.begin_nested():
            yield self._connection

    def settle(self, *, wait: bool = True) -> None:
        """When all is done the real store settles."""


@contextmanager
def one_unit(store: Store) -> Iterator[tuple[OneUnit, list[bool]]]:
    """The stand-in, and a list: with True put into it the unit is kept, else everything is undone."""
    kept: list[bool] = []
    try:
        with store.writing() as connection:
            yield OneUnit(store, connection), kept
            if not any(kept):
                raise _Undo
    except _Undo:
        return
