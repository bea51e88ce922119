"""What the surroundings complain of becomes a sentence; what is our own mistake stays one."""

from __future__ import annotations

import sqlite3

import pytest

from gametrace.domain.errors import Trouble
from gametrace.store.troubles import as_trouble


class FromTheDriver(Exception):
    """As the server's driver raises it: with the state the server gave, none where it never answered."""

    def __init__(self, sqlstate: str | None) -> None:
        super().__init__("as the server words it")
        self.sqlstate = sqlstate


class OperationalError(FromTheDriver):
    """What a driver calls it when the line is cut (PEP 249)."""


@pytest.mark.parametrize(
    ("sqlstate", "words"),
    [(None, "does not answer"), ("57P01", "does not answer"), ("53100", "no room left")],
)
def test_a_driver_asked_directly_is_understood_like_one_asked_through_sqlalchemy(sqlstate, words) -> None:
    # States by PostgreSQL 15, appendix A: 57P01 admin_shutdown, 53100 disk_full.
    with pytest.raises(Trouble, match=words), as_trouble():
        raise OperationalError(sqlstate)


@pytest.mark.parametrize("sqlstate", ["42703", None])  # undefined_column; an error that never left here
def test_a_mistake_of_our_own_is_not_blamed_on_the_server(sqlstate) -> None:
    with pytest.raises(FromTheDriver), as_trouble():
        raise FromTheDriver(sqlstate)


def test_a_table_whose_key_is_declared_otherwise_by_now_is_damage() -> None:
    connection = sqlite3.connect(":memory:")
    connection.executescript(
        "CREATE TABLE lot (id INTEGER); CREATE TABLE hold (lot INTEGER REFERENCES lot (id)); "
        "INSERT INTO hold VALUES (1)"
    )
    try:
        with pytest.raises(Trouble, match="damaged"), as_trouble():
            connection.execute("PRAGMA foreign_key_check").fetchall()
    finally:
        connection.close()


def test_other_errors_pass_as_they_are() -> None:
    with pytest.raises(KeyError), as_trouble():
        raise KeyError("species")
