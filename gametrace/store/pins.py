"""The hashed PINs and the wrong tries, beside the journal: never sealed, never rebuilt."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import one
from gametrace.store.statements import text


def kept(connection: Connection, person: str) -> Row[Any] | None:
    return one(connection, "SELECT hash, wrong, wrong_at FROM pin WHERE code = :code", code=person)


def keep(connection: Connection, person: str, hashed: str) -> None:
    connection.execute(
        text(
            "INSERT INTO pin (code, hash, wrong, wrong_at) VALUES (:code, :hash, 0, '') "
            "ON CONFLICT (code) DO UPDATE SET hash = excluded.hash, wrong = 0, wrong_at = ''"
        ),
        {"code": person, "hash": hashed},
    )


def tear(connection: Connection, person: str) -> None:
    connection.execute(text("DELETE FROM pin WHERE code = :code"), {"code": person})


def count_tries(connection: Connection, person: str, wrong: int, at: str) -> None:
    connection.execute(
        text("UPDATE pin SET wrong = :wrong, wrong_at = :at WHERE code = :code"),
        {"code": person, "wrong": wrong, "at": at},
    )
