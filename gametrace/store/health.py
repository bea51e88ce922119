"""Is the register whole? The seal, the tables against a replay, foreign keys, the graph's own sums.

`problems` returns sentences and never stops at the first; `rebuild` throws the tables away and plays the
journal anew.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator

from sqlalchemy import Connection

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Trouble
from gametrace.store.attachments import content_of, copy_attachments
from gametrace.store.engine import SCHEMA_VERSION, Store, passing_store
from gametrace.store.journal import body_of, broken_at, head_of, written_at
from gametrace.store.searching import words_hold
from gametrace.store.statements import text

Progress = Callable[[int, int], None]


def _silent(_done: int, _of: int) -> None:
    return


def problems(store: Store, progress: Progress = _silent) -> Iterator[tuple[str, str]]:
    """(code, sentence) for everything that is not as it should be."""
    with store.reading() as connection:
        for words in store.damage(connection):
            yield "file-damaged", f"The file itself is damaged: {words}."
        broken = broken_at(connection)
        if broken:
            seq, why = broken
            yield (
                "seal-broken",
                (f"The journal does not hold at entry {seq}: {why}. Entries 1 to {seq - 1} are intact."),
            )
            return
        for table in store.loose_ends(connection):
            yield "loose-end", f"A row of table {table} points to something that is not there."
        yield from _attachments(connection)
        if not words_hold(connection):
            yield "tables-differ", "The index of words is not what the lots say. Rebuild the tables."
        yield from _sums(connection)
        lost = list(_readings_lost(connection))
        yield from (("attachment-missing", sentence) for sentence in lost if sentence.endswith("missing."))
        if not lost:  # without them the journal cannot be played
            yield from _against_replay(store, connection, progress)


def _attachments(connection: Connection) -> Iterator[tuple[str, str]]:
    """Pictures and readings are what the entries sealed, by their hash."""
    rows = connection.exec_driver_sql("SELECT hash, content FROM attachment ORDER BY hash")
    for found, content in rows:
        if hashlib.sha256(content).hexdigest() != found:
            yield "attachment-changed", f"The attachment {found[:12]}… is not what was sealed."
    missing = connection.exec_driver_sql(
        "SELECT hash FROM picture WHERE hash NOT IN (SELECT hash FROM attachment)"
    )
    for row in missing:
        yield "attachment-missing", f"The attachment {row[0][:12]}… is missing."


def _readings_lost(connection: Connection) -> Iterator[str]:
    """Loggers' readings that an entry sealed and that are not here whole, in words."""
    rows = connection.execute(
        text("SELECT text FROM entry WHERE text LIKE :kind ORDER BY seq"),
        {"kind": '%"kind":"readings.imported","previous":%'},  # its own: a striking names a kind too
    )
    for row in rows:
        sealed = body_of(row.text)["hash"]
        kept = content_of(connection, sealed)
        if kept is None:
            yield f"The attachment {sealed[:12]}… is missing."
        elif hashlib.sha256(kept[1]).hexdigest() != sealed:
            yield f"The attachment {sealed[:12]}… is not what was sealed."


def _sums(connection: Connection) -> Iterator[tuple[str, str]]:
    """Weight is conserved in every lot, whatever the projections did."""
    rows = connection.execute(
        text(
            "SELECT id FROM lot WHERE grams_in <> grams_left + unaccounted + "
            "(SELECT COALESCE(SUM(grams), 0) FROM lineage WHERE parent = lot.id) OR grams_left < 0"
        )
    )
    for row in rows:
        yield "weights-do-not-balance", f"The weights of lot {code_of(row.id)} do not add up."


def _against_replay(store: Store, connection: Connection, progress: Progress) -> Iterator[tuple[str, str]]:
    from gametrace.store.replay import play
    from gametrace.store.tables import READING_TABLES

    fresh = passing_store()
    try:
        with fresh.writing() as replay:
            copy_attachments(connection, replay)
            play(connection, replay, progress)
            yield from _as_declared(store, connection, fresh.declared(replay))
            for table in READING_TABLES:
                if fingerprint(connection, table) != fingerprint(replay, table):
                    yield (
                        "tables-differ",
                        (f"Table {table} is not what the journal says. Rebuild the tables to put it right."),
                    )
    finally:
        fresh.close()


def _as_declared(store: Store, connection: Connection, meant: dict[str, str]) -> Iterator[tuple[str, str]]:
    here = store.declared(connection)
    for name in sorted(meant) if here else ():
        if here.get(name) != meant[name]:
            yield "tables-differ", f"{name} is not laid out as it should be. Rebuild the tables."
    for name in sorted(set(here) - set(meant)):
        yield "file-damaged", f"{name} does not belong in a register."


def fingerprint(connection: Connection, table: str) -> str:
    """SHA-256 over every row of a table in key order."""
    from gametrace.store.tables import metadata

    keys = ", ".join(f'"{column.name}"' for column in metadata.tables[table].primary_key)
    columns = ", ".join(f'"{column.name}"' for column in metadata.tables[table].columns)
    total = hashlib.sha256()
    for row in connection.exec_driver_sql(f"SELECT {columns} FROM {table} ORDER BY {keys}"):
        total.update(repr(tuple(row)).encode())
    return total.hexdigest()


def rebuild(store: Store, progress: Progress = _silent) -> int:
    """Throw the reading tables away and play the journal again, in one unit of work. Returns entries played.

    Raises Trouble, and changes nothing, when the journal itself does not hold.
    """
    from gametrace.store import tables
    from gametrace.store.replay import play  # late: the window opens a register without any projector

    with store.writing() as connection:
        if broken := broken_at(connection):
            raise Trouble(
                f"The journal does not hold at entry {broken[0]}: {broken[1]}.",
                "The tables were left as they are. Restore the last good backup.",
            )
        for sentence in _readings_lost(connection):
            raise Trouble(sentence, "The tables were left as they are. Restore the last good backup.")
        with store.refilling(connection):
            doomed = [tables.metadata.tables[name] for name in tables.READING_TABLES]
            tables.metadata.drop_all(connection, tables=doomed)
            tables.metadata.create_all(connection)
            play(connection, connection, progress)
        store.say_version(connection)
        return head_of(connection)[0]


def bring_up_to_date(store: Store, progress: Progress = _silent) -> bool:
    """Rebuild the tables where an older program shaped them or they stop short of the journal.

    An older register needs nothing else: its entries are read as they were written. Tables that know more
    than the journal are evidence of a lost end, so they stay for `problems` to find, as a broken journal
    does. Says whether it rebuilt.
    """
    if not is_behind(store):
        return False
    rebuild(store, progress)
    return True


def is_behind(store: Store) -> bool:
    """Whether the tables have to be played anew before anybody can work."""
    with store.reading() as connection:
        is_current = store.version(connection) == SCHEMA_VERSION
        is_all_there = _played_to(connection) >= head_of(connection)[0]
        return not (is_current and (is_all_there or broken_at(connection)))


def first_break(store: Store, newest: int) -> tuple[int, str, str] | None:
    """Where the journal does not hold, why, and when the last whole entry was written. None where it holds.

    Looks at the file itself and at the newest entries, as many as are asked for.
    """
    with store.reading() as connection:
        broken = broken_at(connection, max(0, head_of(connection)[0] - newest))
        return broken and (*broken, written_at(connection, broken[0] - 1))


def _played_to(connection: Connection) -> int:
    """The last entry the tables know of."""
    return int(connection.exec_driver_sql("SELECT COALESCE(MAX(seq), 0) FROM happening").scalar_one())
