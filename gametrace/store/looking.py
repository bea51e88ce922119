"""Opens a register only to be looked at: the database itself refuses to write, whatever the program tries.

SQLite opens the file read-only and is told `query_only`; a server begins every transaction READ ONLY.
Students' name cards are out of sight: a view of the connection's own stands before the table.
"""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path
from typing import Any, NoReturn
from urllib.parse import quote

from sqlalchemy import create_engine, event

from gametrace.domain.errors import Trouble
from gametrace.store.engine import SCHEMA_VERSION, Store, begin, has_wal, inspect
from gametrace.store.shared import SharedStore, is_shared, shared_at

_WITHOUT_STUDENTS = (
    "CREATE TEMPORARY VIEW name_card AS SELECT code, salt, card FROM {kept}.name_card "
    "WHERE code NOT IN (SELECT code FROM {kept}.person WHERE role = 'student')"
)
_WAIT_SECONDS = 5


class _OnlyLooking:
    """What a store that only looks answers to whoever wants to write."""

    def writing(self) -> NoReturn:
        raise Trouble(
            "This register is open only to be looked at.", "Leave the officer's view and write it there."
        )

    def settle(self, *, wait: bool = True) -> None:
        """Nothing was written that could need it."""


class LookedAtStore(_OnlyLooking, Store):
    """A file, open read-only."""


class LookedAtSharedStore(_OnlyLooking, SharedStore):
    """A register on a server, in sessions that are read-only."""


def open_to_look(place: Path | str, *, with_students: bool = False) -> Store:
    """Open an existing register read-only. Raises Trouble as opening it for use does, and where an older
    program wrote it: its tables would first have to be played anew.
    """
    store = _shared(str(place), with_students) if is_shared(place) else _file(Path(place), with_students)
    try:
        with store.reading() as connection:
            version = store.version(connection)
        if version != SCHEMA_VERSION:
            raise Trouble(
                f"{store.place} was last written by another version of gametrace.",
                "Open it once in the usual way; then it can be looked at.",
            )
    except BaseException:
        store.close()
        raise
    return store


def _file(path: Path, with_students: bool) -> Store:
    if not path.exists():
        raise Trouble(f"There is no register at {path}.", "Check the name.")
    if path.is_dir():
        raise Trouble(f"{path} is a folder, not a register.", "Name a file in it.")
    inspect(path, to_write=False)
    # On a disk that cannot be written to SQLite cannot keep its companions, and nobody else writes.
    still = "" if has_wal(path) or os.access(path.parent, os.W_OK) else "&immutable=1"
    address = f"file:{quote(str(path.resolve()))}?mode=ro{still}"

    def connect() -> sqlite3.Connection:
        return sqlite3.connect(address, uri=True, timeout=_WAIT_SECONDS, check_same_thread=False)

    engine = create_engine("sqlite://", creator=connect)

    def on_connect(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None
        connection.execute("PRAGMA trusted_schema = OFF")  # a file from elsewhere runs nothing by being read
        if not with_students:
            connection.execute(_WITHOUT_STUDENTS.format(kept="main"))
        connection.execute("PRAGMA query_only = ON")
        if connection.execute("PRAGMA query_only").fetchone()[0] != 1:
            raise Trouble("This computer's SQLite cannot open a register only to look.", "Ask for help.")

    event.listen(engine, "connect", on_connect)
    event.listen(engine, "begin", begin)
    return LookedAtStore(path, engine)


def _shared(place: str, with_students: bool) -> Store:
    store = shared_at(place, LookedAtSharedStore)

    def on_connect(connection: Any, _record: object) -> None:
        try:
            if connection.execute("SELECT to_regclass('gametrace_register')").fetchone()[0] is None:
                raise Trouble(f"There is no register at {store.place}.", "Check the name.")
            if not with_students:
                schema = connection.execute("SELECT quote_ident(current_schema())").fetchone()[0]
                connection.execute(_WITHOUT_STUDENTS.format(kept=schema))
            connection.execute("SET default_transaction_read_only = on")
        except BaseException:
            connection.close()
            raise

    store.on_connect(on_connect)
    return store
