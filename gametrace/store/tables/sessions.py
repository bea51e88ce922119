"""Cutting: students by code, sessions with their tables, what lies where, who cut what, own cut names."""

from __future__ import annotations

from sqlalchemy import Index

from gametrace.store.tables.base import STRICT, STRICT_WITHOUT_ROWID, Row, whole, words


class StudentRow(Row, table=True):
    """A roster code. The name, if one was given, lies on a card under this code."""

    __tablename__ = "student"
    __table_args__ = STRICT
    code: str = words(key=True)
    group_code: str = words()
    is_active: int = whole()
    card: str = words()  # digest of the name card, as sealed; '' where no name was given


class SessionRow(Row, table=True):
    __tablename__ = "session"
    __table_args__ = STRICT
    code: str = words(key=True)
    on_day: str = words()
    group_code: str = words()
    tutor: str = words()
    opened_at: str = words()
    closed_at: str | None = words(null=True)
    reason: str = words()  # given at closing, for what was left on the tables


class StationRow(Row, table=True):
    """One table of a session."""

    __tablename__ = "session_station"
    __table_args__ = STRICT_WITHOUT_ROWID
    session: str = words(key=True, to="session.code")
    position: int = whole(key=True)
    name: str = words()


class LaidRow(Row, table=True):
    """Which lot lies, or lay, on which table. Laid elsewhere in the same session, it has moved."""

    __tablename__ = "session_lot"
    __table_args__ = (Index("session_lot_by_lot", "lot_id"), STRICT_WITHOUT_ROWID)
    session: str = words(key=True, to="session.code")
    lot_id: int = whole(key=True, to="lot.id")
    station: str = words()
    seq: int = whole()
    reason: str = words()  # why a second animal came to this table
    closed_by: str = words()  # the roster code that closed it


class CuttingRow(Row, table=True):
    """Where and by whom a lot was cut from its parent."""

    __tablename__ = "cutting"
    __table_args__ = (Index("cutting_by_cutter", "cutter"), Index("cutting_by_session", "session"), STRICT)
    lot_id: int = whole(key=True, to="lot.id")
    session: str = words()  # '' outside a session
    station: str = words()
    cutter: str = words()  # '' where nobody was named


class CutChangeRow(Row, table=True):
    """The kitchen's own changes to a cut tree that hold now, in their order."""

    __tablename__ = "cut_change"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    species: str = words()
    cut: str = words()
    name: str = words()
    parent: str = words()
    synonyms: str = words()  # one a line
    left_out: int = whole()
    reason: str = words()
    person: str = words()
