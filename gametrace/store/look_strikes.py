"""Every question about striking entries that needs SQL: what a lot's story holds, and what came after.

Each answers with what still stands: a struck entry's kind is 'struck' here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def kind_of(connection: Connection, seq: int) -> str | None:
    """The kind of an entry, 'struck' where it was struck; None where there is none of that number."""
    row = one(connection, "SELECT kind FROM happening WHERE seq = :seq", seq=seq)
    return row.kind if row else None


def lots_of(connection: Connection, seq: int) -> list[int]:
    """The lots in whose stories an entry stands."""
    rows = every(connection, "SELECT lot_id FROM lot_entry WHERE seq = :seq ORDER BY lot_id", seq=seq)
    return [row.lot_id for row in rows]


def entries_after(connection: Connection, lots: Iterable[int], seq: int) -> Rows:
    """(seq, kind, lot_id) of what came after an entry in these lots' stories and still stands."""
    return every(
        connection,
        "SELECT happening.seq, happening.kind, lot_entry.lot_id FROM lot_entry JOIN happening "
        f"ON happening.seq = lot_entry.seq WHERE lot_entry.lot_id IN ({in_list(lots)}) "
        "AND lot_entry.seq > :seq "
        "AND happening.kind NOT IN ('struck', 'entry.struck') ORDER BY happening.seq, lot_entry.lot_id",
        seq=seq,
    )


def story_of(connection: Connection, lot: int) -> Rows:
    """(seq, kind) of what stands in a lot's story, the newest first."""
    return every(
        connection,
        "SELECT happening.seq, happening.kind FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq "
        "WHERE lot_entry.lot_id = :lot ORDER BY happening.seq DESC",
        lot=lot,
    )


def others_of(connection: Connection, kind: str, seq: int, *, span: tuple[str, str] = ("", "~")) -> list[int]:
    """All entries of a kind but this one that happened in a span of UTC instants, both ends in, in order."""
    rows = every(
        connection,
        "SELECT seq FROM happening WHERE kind = :kind AND seq <> :seq AND happened_at >= :first "
        "AND happened_at <= :last ORDER BY seq",
        kind=kind,
        seq=seq,
        first=span[0],
        last=span[1],
    )
    return [row.seq for row in rows]


def newest_of(connection: Connection, kinds: Sequence[str], most: int) -> list[int]:
    """The newest entries of these kinds, the newest first."""
    marks = {f"kind{at}": kind for at, kind in enumerate(kinds)}
    rows = every(
        connection,
        f"SELECT seq FROM happening WHERE kind IN ({', '.join(f':{mark}' for mark in marks) or 'NULL'}) "
        "ORDER BY seq DESC LIMIT :most",
        most=most,
        **marks,
    )
    return [row.seq for row in rows]


def struck_among(connection: Connection, seqs: Iterable[int]) -> set[int]:
    """Which of these entries a later one has struck."""
    rows = every(connection, f"SELECT seq FROM happening WHERE kind = 'struck' AND seq IN ({in_list(seqs)})")
    return {row.seq for row in rows}
