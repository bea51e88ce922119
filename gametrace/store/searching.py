"""Finding lots by words. What differs between a file and a server in this is in here.

A server indexes the words by itself. In a file the index stands beside them and is told of every change: a
trigger could do it, but then opening a file from elsewhere would run what is written in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection
from sqlalchemy.exc import DatabaseError

from gametrace.store.rows import every
from gametrace.store.statements import text

_IN_A_FILE = (
    "SELECT rowid AS lot_id FROM lot_index WHERE lot_index MATCH :wanted ORDER BY rowid DESC LIMIT :most"
)
_ON_A_SERVER = (
    "SELECT lot_id FROM lot_text WHERE to_tsvector('simple', words) @@ to_tsquery('simple', :wanted) "
    "ORDER BY lot_id DESC LIMIT :most"
)

_UPSERT = text(
    "INSERT INTO lot_text (lot_id, words) VALUES (:lot_id, :words) "
    "ON CONFLICT (lot_id) DO UPDATE SET words = excluded.words"
)
_OUT = text("INSERT INTO lot_index (lot_index, rowid, words) VALUES ('delete', :lot_id, :words)")
_IN = text("INSERT INTO lot_index (rowid, words) VALUES (:lot_id, :words)")


@dataclass(frozen=True, slots=True)
class Changed:
    """A lot that is found by other words from now on."""

    lot_id: int
    had: str | None  # None where it is new
    words: str


def keep_words(connection: Connection, changed: Sequence[Changed]) -> None:
    """Find these lots by their new words from now on, and no longer by what they had before."""
    if not changed:
        return
    new = [{"lot_id": one.lot_id, "words": one.words} for one in changed]
    connection.execute(_UPSERT, new)
    if connection.dialect.name != "postgresql":
        old = [{"lot_id": one.lot_id, "words": one.had} for one in changed if one.had is not None]
        if old:
            connection.execute(_OUT, old)
        connection.execute(_IN, new)


def words_hold(connection: Connection) -> bool:
    """Whether a file's index of words is whole and fits the words beside it; a server sees to its own.

    The question is put as a statement that would write, so where nothing may be written it is not put.
    """
    if connection.dialect.name == "postgresql":
        return True
    try:
        connection.exec_driver_sql("INSERT INTO lot_index (lot_index, rank) VALUES ('integrity-check', 1)")
    except DatabaseError as error:
        return "readonly" in str(error) or "locked" in str(error)
    return True


def lots_with_words(connection: Connection, words: Sequence[str], most: int) -> list[int]:
    """Lots that hold every one of the words, the last of them perhaps only begun; newest first.

    `words` are plain (domain.plain_words): letters and figures only, so nothing in them means anything here.
    """
    if not words:
        return []
    if connection.dialect.name == "postgresql":
        statement, wanted = _ON_A_SERVER, " & ".join((*words[:-1], f"{words[-1]}:*"))
    else:
        statement = _IN_A_FILE
        wanted = " ".join((*(f'"{word}"' for word in words[:-1]), f'"{words[-1]}"*'))
    return [row.lot_id for row in every(connection, statement, wanted=wanted, most=most)]


def index_anew(connection: Connection) -> None:
    """Read the whole table into the index of a file, after it was filled by other ways."""
    if connection.dialect.name != "postgresql":
        connection.exec_driver_sql("INSERT INTO lot_index(lot_index) VALUES ('rebuild')")
