"""Every question about the roster, cutting sessions and own cut names that needs SQL."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def student_rows(connection: Connection) -> Rows:
    return every(connection, "SELECT * FROM student ORDER BY code")


def is_on_roster(connection: Connection, code: str) -> bool:
    return (
        one(connection, "SELECT 1 FROM student WHERE code = :code AND is_active = 1", code=code) is not None
    )


def session_rows(connection: Connection, *, open_only: bool) -> Rows:
    """Open ones first, then the newest."""
    which = "WHERE closed_at IS NULL" if open_only else ""
    return every(
        connection, f"SELECT * FROM session {which} ORDER BY closed_at IS NOT NULL, on_day DESC, code DESC"
    )


def session_row(connection: Connection, code: str) -> Row[Any] | None:
    return one(connection, "SELECT * FROM session WHERE code = :code", code=code)


def station_rows(connection: Connection, session: str) -> Rows:
    return every(
        connection,
        "SELECT * FROM session_station WHERE session = :session ORDER BY position",
        session=session,
    )


def laid_rows(connection: Connection, session: str) -> Rows:
    """What lies and lay on the tables of a session, in the order it came."""
    return every(
        connection,
        "SELECT session_lot.*, lot.status, lot.grams_left FROM session_lot "
        "JOIN lot ON lot.id = session_lot.lot_id WHERE session = :session ORDER BY seq",
        session=session,
    )


def where_laid(connection: Connection, lot: int) -> Row[Any] | None:
    """The table of an open session on which a lot lies; at most one."""
    return one(
        connection,
        "SELECT session_lot.* FROM session_lot JOIN session ON session.code = session_lot.session "
        "WHERE lot_id = :lot AND session.closed_at IS NULL",
        lot=lot,
    )


def cutting_rows(connection: Connection, lots: Iterable[int]) -> dict[int, Row[Any]]:
    """Where and by whom each of these lots was cut; only those of which it was said."""
    rows = every(connection, f"SELECT * FROM cutting WHERE lot_id IN ({in_list(lots)})")
    return {row.lot_id: row for row in rows}


def cut_in(connection: Connection, session: str) -> Rows:
    """Everything cut in a session, with what it was cut from, in order."""
    return every(
        connection,
        "SELECT lot.*, cutting.station, cutting.cutter, lineage.parent, lineage.grams AS given FROM cutting "
        "JOIN lot ON lot.id = cutting.lot_id JOIN lineage ON lineage.child = lot.id "
        "WHERE cutting.session = :session ORDER BY lot.id",
        session=session,
    )


def cut_by(connection: Connection, cutter: str, first: str, last: str) -> Rows:
    """Everything cut under a roster code between two instants, the end excluded, in order."""
    return every(
        connection,
        "SELECT cutting.lot_id, cutting.session FROM cutting JOIN lot ON lot.id = cutting.lot_id "
        "WHERE cutting.cutter = :cutter AND lot.made_at >= :first AND lot.made_at < :last ORDER BY lot.id",
        cutter=cutter,
        first=first,
        last=last,
    )


def cut_change_rows(connection: Connection, species: str = "") -> Rows:
    """The changes that hold, in their order; of every kind of animal where none is named."""
    which = "WHERE species = :species" if species else ""
    named = {"species": species} if species else {}
    return every(connection, f"SELECT * FROM cut_change {which} ORDER BY seq", **named)
