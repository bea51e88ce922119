"""Sorts what SQLite and the disk say into trouble a person can act on, and bugs that must be seen."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError

from gametrace.domain.errors import Trouble

_PRIMARY_CODE = 0xFF  # SQLite keeps the family of an error in the low byte
_SENTENCES = {
    sqlite3.SQLITE_BUSY: (
        "Another window or program is writing to this register.",
        "Wait a moment and do it again; nothing was half written.",
    ),
    sqlite3.SQLITE_LOCKED: (
        "This register is locked by another program.",
        "Close the other program and do it again.",
    ),
    sqlite3.SQLITE_FULL: (
        "The disk is full, so this was not written down.",
        "Free some space and do it again; everything acknowledged before is kept.",
    ),
    sqlite3.SQLITE_READONLY: (
        "This register may only be read: the file or its folder does not allow writing.",
        "Ask whoever looks after the computer for the right to write there.",
    ),
    sqlite3.SQLITE_CANTOPEN: (
        "The register cannot be opened: the folder is missing or does not allow it.",
        "Check that the folder exists and may be written to.",
    ),
    sqlite3.SQLITE_IOERR: (
        "The disk did not answer as it should, so this was not written down.",
        "Check the disk or the stick, then do it again. Make a backup.",
    ),
    sqlite3.SQLITE_CORRUPT: (
        "The register file is damaged.",
        "Do not write to it. Run ‘gametrace check’, and restore the last good backup if it says so.",
    ),
    sqlite3.SQLITE_PROTOCOL: (
        "Another window or program is opening this register.",
        "Wait a moment and do it again; nothing was half written.",
    ),
    sqlite3.SQLITE_PERM: (
        "This register may not be opened by you.",
        "Ask whoever looks after the computer for the right to read and write it.",
    ),
    sqlite3.SQLITE_NOTADB: (
        "This file is not a register.",
        "Choose another file; this one was left untouched.",
    ),
}


_SERVER_SENTENCES = {  # by the class of SQLSTATE, PostgreSQL's appendix A
    "08": (
        "The server does not answer, so nothing can be read or written now.",
        "Check the cable and the server, then do it again: what was written is never written twice.",
    ),
    "25": (
        "This register may only be read: the server does not allow writing.",
        "Ask whoever looks after the server for the right to write.",
    ),
    "28": (
        "The server does not know this name and password.",
        "Check the address with whoever looks after the server.",
    ),
    "3D": (
        "There is no such database on the server.",
        "Check the address with whoever looks after the server.",
    ),
    "40": (
        "Another station was writing the same thing.",
        "Do it again; nothing was half written.",
    ),
    "42": (
        "The server does not let this name use the register.",
        "Ask whoever looks after the server for the right to read and write it.",
    ),
    "53": (
        "The server has no room left, so this was not written down.",
        "Free some space and do it again; everything acknowledged before is kept.",
    ),
    "55": (
        "Another station is busy with the register.",
        "Wait a moment and do it again; nothing was half written.",
    ),
    "58": (
        "The server's disk did not answer as it should, so this was not written down.",
        "Check the server, then do it again.",
    ),
}
_SERVER_SENTENCES["57"] = _SERVER_SENTENCES["08"]  # it is being shut down or was stopped
_SERVER_SENTENCES["25P03"] = _SERVER_SENTENCES["08"]  # it took us for gone
_OF_THE_LINE = {"OperationalError", "InterfaceError"}


@contextmanager
def as_trouble() -> Iterator[None]:
    """Turn errors of the surroundings into Trouble; let real bugs through as they are."""
    try:
        yield
    except DBAPIError as error:
        original = error.orig
        if isinstance(original, sqlite3.Error):
            raise_if_trouble(original)
        else:
            _raise_if_server_trouble(error)
        raise
    except sqlite3.Error as error:
        raise_if_trouble(error)
        raise
    except UnicodeDecodeError as error:  # SQLite quotes a damaged declaration in its complaint
        raise Trouble(*_SENTENCES[sqlite3.SQLITE_CORRUPT]) from error
    except Exception as error:
        if hasattr(error, "sqlstate"):  # the server's driver itself, which files never import
            _raise_if_server_trouble(error)
        raise


def raise_if_trouble(error: sqlite3.Error) -> None:
    """Raise Trouble when `error` is of the surroundings, else return."""
    code = getattr(error, "sqlite_errorcode", None)
    if code is None and "not a database" in str(error):
        code = sqlite3.SQLITE_NOTADB
    if code is None and "decode to UTF-8" in str(error):
        code = sqlite3.SQLITE_CORRUPT  # a text column that is no longer text
    if "foreign key mismatch" in str(error):
        code = sqlite3.SQLITE_CORRUPT  # a key that is no longer declared as it was
    if code is not None and (words := _SENTENCES.get(code & _PRIMARY_CODE)):
        raise Trouble(*words) from error


def _raise_if_server_trouble(error: Exception) -> None:
    """The same for a server's error. One without a state comes of the line to it, or is a bug of ours.

    SQLAlchemy and the driver beneath it call their errors alike (PEP 249).
    """
    state = getattr(getattr(error, "orig", error), "sqlstate", None) or ""
    if not state and _OF_THE_LINE & {kind.__name__ for kind in type(error).__mro__}:
        state = "08"
    if state[:2] == "42" and state != "42501":
        return  # a statement that cannot be: ours
    if words := _SERVER_SENTENCES.get(state) or _SERVER_SENTENCES.get(state[:2]):
        raise Trouble(*words) from error
