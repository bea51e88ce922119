"""Opens a register file correctly, or says in a sentence why not.

WAL, synchronous FULL, foreign keys on, erased names overwritten, every pragma read back; the file is ours
only if application_id and user_version say so. What is particular to SQLite is in this module.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import URL, Connection, Engine, create_engine, event

from gametrace.domain.errors import Trouble
from gametrace.store.network_folder import network_kind
from gametrace.store.troubles import as_trouble

__all__ = ["APPLICATION_ID", "SCHEMA_VERSION", "Connection", "Store", "Watch", "open_store", "passing_store"]

APPLICATION_ID = 0x47545231  # 'GTR1'
SCHEMA_VERSION = 4
_BUSY_MILLISECONDS = 5_000
_REFILLING_KIB = 131_072
_PRAGMAS = {
    "foreign_keys": ("ON", 1),
    "journal_mode": ("WAL", "wal"),
    "synchronous": ("FULL", 2),
    "secure_delete": ("ON", 1),  # a torn-up name card must not live on in a free page
    "busy_timeout": (str(_BUSY_MILLISECONDS), _BUSY_MILLISECONDS),
    "trusted_schema": ("OFF", 0),  # a file from elsewhere runs nothing by being opened
}


class Watch:
    """Says whether another window or program has written to the register file since it was last asked."""

    def __init__(self, path: Path) -> None:
        self._connection = sqlite3.connect(f"file:{quote(str(path))}?mode=ro", uri=True, timeout=0.2)
        self._version = self._look()

    def _look(self) -> int:
        return int(self._connection.execute("PRAGMA data_version").fetchone()[0])

    def has_heard(self) -> bool:
        """Never waits; while the file cannot be looked at, nothing was heard."""
        try:
            before, self._version = self._version, self._look()
        except sqlite3.Error:
            return False
        return before != self._version

    def close(self) -> None:
        self._connection.close()


class Store:
    """One register file, open. Use `reading()` for questions and `writing()` for acts; both close cleanly.

    `shared.SharedStore` is the same on a server; what differs between the two is a method here and there.
    """

    begin_to_write = "BEGIN IMMEDIATE"

    def __init__(self, path: Path, engine: Engine) -> None:
        self.path = path
        self._engine = engine
        self._writer = engine.execution_options(begin_with=self.begin_to_write)

    @property
    def place(self) -> str:
        """Where it is, as a person writes it."""
        return str(self.path)

    @property
    def address(self) -> Path | str:
        """What opens the same register again. Never shown: a server's holds its password."""
        return self.path

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A consistent view of the register; nothing can be written through it by mistake of order."""
        with as_trouble(), self._engine.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One unit of work: committed whole when the block ends, undone whole when it raises.

        BEGIN IMMEDIATE, because a read that later writes fails at once however long the busy timeout is.
        """
        with as_trouble(), self._writer.begin() as connection:
            yield connection

    def settle(self, *, wait: bool = True) -> None:
        """Empty the write-ahead file into the register, so that nothing erased is left in it.

        Best effort: while another window reads, the write-ahead file stays until that window is done. Without
        `wait` nobody is waited for: what can be taken over is, so that a plain copy of the file holds it.
        """
        manner = "TRUNCATE" if wait else "PASSIVE"
        with as_trouble(), self._engine.connect() as connection:
            raw = connection.connection.driver_connection
            assert isinstance(raw, sqlite3.Connection)
            raw.execute(f"PRAGMA wal_checkpoint({manner})").fetchall()

    def watch(self) -> Watch:
        return Watch(self.path)

    def copy_to(self, target: Path) -> None:
        """Write a whole copy of the live register to a new file."""
        source, copy = sqlite3.connect(self.path), sqlite3.connect(target)
        try:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            source.close()
            copy.close()

    def version(self, connection: Connection) -> int:
        """The shape of its tables: SCHEMA_VERSION when this program made or rebuilt them."""
        return int(connection.exec_driver_sql("PRAGMA user_version").scalar_one())

    def say_version(self, connection: Connection) -> None:
        connection.exec_driver_sql(f"PRAGMA user_version = {SCHEMA_VERSION}")

    @contextmanager
    def refilling(self, connection: Connection) -> Iterator[None]:
        """Let tables be dropped and filled in any order; the keys are held to at the end.

        Meanwhile more of the file stays in memory, or its pages would go to the disk and back all the time.
        """
        connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
        usual = connection.exec_driver_sql("PRAGMA cache_size").scalar_one()
        connection.exec_driver_sql(f"PRAGMA cache_size = -{_REFILLING_KIB}")
        yield
        connection.exec_driver_sql(f"PRAGMA cache_size = {usual}")

    def damage(self, connection: Connection) -> list[str]:
        """What is wrong with the file itself, in SQLite's words."""
        # Not quick_check: a row read by way of its index may hide that the row itself changed.
        found = connection.exec_driver_sql("PRAGMA integrity_check").scalars()
        return [line for line in found if line != "ok"]

    def loose_ends(self, connection: Connection) -> list[str]:
        """Tables with a row that points to something that is not there."""
        return [row[0] for row in connection.exec_driver_sql("PRAGMA foreign_key_check")]

    def declared(self, connection: Connection) -> dict[str, str]:
        """How tables and indexes are declared, spacing apart: a changed name there hides in a quoted read."""
        rows = connection.exec_driver_sql("SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL")
        return {f"The {row.type} {row.name}": " ".join(row.sql.split()) for row in rows}

    def create_tables(self) -> None:
        from gametrace.store import tables  # late: importing SQLModel costs a start-up dearly

        with self.writing() as connection:
            tables.metadata.create_all(connection)
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
            self.say_version(connection)

    def close(self) -> None:
        self._engine.dispose()


def open_store(path: Path, *, create: bool) -> Store:
    """Open the register at `path`; make a new one when there is none and `create` is set.

    Raises Trouble for a missing, empty, foreign, damaged, newer, locked or unreadable file; the file is
    left as it was.
    """
    is_new = not path.exists()
    if is_new and not create:
        raise Trouble(f"There is no register at {path}.", "Check the name, or open the window to start one.")
    if path.is_dir():
        raise Trouble(f"{path} is a folder, not a register.", "Name a file in it.")
    if kind := network_kind(path.parent):
        raise Trouble(
            f"{path} lies on a folder of another computer ({kind}): two stations would damage it.",
            "Keep it on a disk of this one. For several stations use a server: gametrace move FILE ADDRESS.",
        )
    if is_new:
        _reserve(path)
    else:
        inspect(path)
    store = Store(path, _engine(path))
    try:
        _make_private(path)
        if is_new:
            store.create_tables()
            store.settle()  # from now on the file itself says whose it is
        else:
            with store.writing():
                pass  # may this file be written to? Better said now than after a delivery has been typed
    except BaseException:
        store.close()
        if is_new:
            for leftover in (path, path.with_name(path.name + "-wal"), path.with_name(path.name + "-shm")):
                leftover.unlink(missing_ok=True)
        raise
    return store


def passing_store() -> Store:
    """A register to play the journal into beside a live one: in memory, and beyond that in a hidden file."""
    from sqlalchemy.pool import StaticPool

    engine = create_engine("sqlite://", poolclass=StaticPool, creator=_passing)
    _listen(engine, {"foreign_keys": _PRAGMAS["foreign_keys"]})
    store = Store(Path(":memory:"), engine)
    store.create_tables()
    return store


def _passing() -> sqlite3.Connection:
    connection = sqlite3.connect("", check_same_thread=False)  # no name: private, and gone when closed
    connection.execute(f"PRAGMA cache_size = -{_REFILLING_KIB}")
    return connection


def _make_private(path: Path) -> None:
    """0600 again, whatever a copy from a stick or a zip made of it. Not every disk knows of rights."""
    with suppress(OSError):
        mode = path.stat().st_mode
        if mode & 0o077:
            path.chmod(mode & 0o700)


def _reserve(path: Path) -> None:
    """Make the file private (0600) before anything is written to it."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except OSError as error:
        raise Trouble(
            f"A register cannot be made at {path}: {error.strerror}.",
            "Choose a folder you may write to, or free some space.",
        ) from error


def inspect(path: Path, *, to_write: bool = True) -> None:
    """Refuse a file that is not a register of this version, without opening it for writing."""
    try:
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(18)
    except OSError as error:
        raise Trouble(
            f"The register at {path} cannot be read: {error.strerror}.",
            "Ask whoever looks after the computer for the right to read it.",
        ) from error
    if size == 0:
        raise Trouble(
            f"{path} is empty: there is no register in it.",
            "Restore a backup, or remove the empty file to start a new register.",
        )
    if head[:16] != b"SQLite format 3\x00":
        raise Trouble(f"{path} is not a register.", "Choose another file; this one was left untouched.")
    if _ends_in_mid_page(path, size, head):
        raise Trouble(
            f"{path} is damaged: its end is missing.", "Keep it as it is and restore the last good backup."
        )
    with as_trouble():
        application_id, version = _identity(path)
    if application_id != APPLICATION_ID:
        raise Trouble(
            f"{path} belongs to another program.", "Choose another file; this one was left untouched."
        )
    if version > SCHEMA_VERSION:
        raise Trouble(
            f"{path} was written by a newer gametrace (file version {version}, this program knows "
            f"{SCHEMA_VERSION}).",
            "Open it with the newer program; this one left it untouched.",
        )
    if version < 1:
        raise Trouble(
            f"{path} is not a whole register: it was never finished.", "Restore the last good backup."
        )
    if not to_write:
        return
    try:
        os.close(os.open(path, os.O_RDWR))  # SQLite would open it all the same and only fail at the first act
    except OSError as error:
        raise Trouble(
            f"The register at {path} may only be read: {error.strerror}.",
            "Ask whoever looks after the computer for the right to write there, or copy it to another disk.",
        ) from error


def _ends_in_mid_page(path: Path, size: int, head: bytes) -> bool:
    """Whether a copy broke off. SQLite itself only notices when it comes to read the missing pages.

    With a write-ahead file beside it a short file can be lawful: SQLite mends it from there.
    """
    if has_wal(path):
        return False
    page = int.from_bytes(head[16:18], "big")
    return size < 512 or size % (65_536 if page == 1 else page or 512) != 0


def has_wal(path: Path) -> bool:
    """Whether acts wait in a write-ahead file: another window is open, or the last one was killed."""
    wal = path.with_name(path.name + "-wal")
    return wal.exists() and wal.stat().st_size > 0


def _identity(path: Path) -> tuple[int, int]:
    # "immutable" keeps SQLite from leaving its companion files beside what may be somebody else's database.
    manner = "mode=ro" if has_wal(path) else "mode=ro&immutable=1"
    connection = sqlite3.connect(
        f"file:{quote(str(path))}?{manner}", uri=True, timeout=_BUSY_MILLISECONDS / 1_000
    )
    try:
        application_id = connection.execute("PRAGMA application_id").fetchone()[0]
        version = connection.execute("PRAGMA user_version").fetchone()[0]
        if application_id == APPLICATION_ID:
            connection.execute("SELECT seq FROM entry LIMIT 1").fetchone()
            foreign = "SELECT name FROM sqlite_schema WHERE type IN ('trigger', 'view')"
            if (found := connection.execute(foreign).fetchone()) is not None:
                raise Trouble(
                    f"{path} holds an instruction that does not belong in a register: {found[0][:40]}.",
                    "Somebody changed it outside this program. Keep it and restore the last good backup.",
                )
        return application_id, version
    except sqlite3.OperationalError as error:
        if "no such table" in str(error):
            raise Trouble(
                f"{path} is damaged: its journal is missing.", "Restore the last good backup."
            ) from error
        raise
    finally:
        connection.close()


def _engine(path: Path) -> Engine:
    # A URL object, because a path may hold characters that mean something in a URL.
    engine = create_engine(
        URL.create("sqlite", database=str(path)), connect_args={"timeout": _BUSY_MILLISECONDS / 1_000}
    )
    _listen(engine, _PRAGMAS)
    return engine


def _listen(engine: Engine, pragmas: dict[str, tuple[str, Any]]) -> None:
    def on_connect(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None  # we begin our own transactions, see `begin`
        for name, (value, expected) in pragmas.items():
            connection.execute(f"PRAGMA {name} = {value}")
            found = connection.execute(f"PRAGMA {name}").fetchone()[0]
            if found != expected:
                raise Trouble(
                    f"This disk does not let the register be written safely ({name} stays {found}).",
                    "Keep the register on a local disk you may write to.",
                )

    event.listen(engine, "connect", on_connect)
    event.listen(engine, "begin", begin)


def begin(connection: Connection) -> None:
    """Begin as the engine's options say: transactions are ours, not the driver's."""
    connection.exec_driver_sql(connection.get_execution_options().get("begin_with", "BEGIN"))
