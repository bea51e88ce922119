"""Finding lots by words. What differs between a file and a server in this is in here."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection

from gametrace.store.rows import every

_IN_A_FILE = (
    "SELECT rowid AS lot_id FROM lot_index WHERE lot_index MATCH :wanted ORDER BY rowid DESC LIMIT :most"
)
_ON_A_SERVER = (
    "SELECT lot_id FROM lot_text WHERE to_tsvector('simple', words) @@ to_tsquery('simple', :wanted) "
    "ORDER BY lot_id DESC LIMIT :most"
)


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
