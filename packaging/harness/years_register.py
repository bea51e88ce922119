"""Ten years of a busy house in one register file: 100,000 carcasses at full size, in minutes.

Stories are acted out on a small copy, through the public acts, one for each month and one feast; they are
told again for every working day under new numbers, sealed in order, the tables filled beside them
(years_pattern). So entries are what acts write, and the tables are what the journal plays to: the small form
of this is compared with a real rebuild by the tests.
"""

from __future__ import annotations

import hashlib
import heapq
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path

import years_story as story
from years_pattern import Pattern, Telling

from gametrace.domain.codes import next_lot_id
from gametrace.register.opening import open_register
from gametrace.store.engine import open_store
from gametrace.store.projection.lot_texts import write_words
from gametrace.store.tables import READING_TABLES, metadata

FIRST_DAY, YEARS = date(2016, 11, 14), 10
TODAY = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
BATCHES = 10_000  # of ten carcasses, at full size
_LOTS_AT_ONCE = 400
_AT_ONCE = 20_000  # rows written in one go
_YOUNG_MONTHS = (8, 9, 10, 11)  # of the last year: what was frozen then is still here
_YOUNG_FROM = date(TODAY.year, _YOUNG_MONTHS[0], 1)
Batches = dict[tuple[int, bool], Pattern]  # by month, and whether some of it is still here
Progress = Callable[[int, int], None]


@dataclass
class Made:
    """What a register that was made holds."""

    path: Path
    seconds: float
    counts: dict[str, int] = field(default_factory=dict)


def _silent(_done: int, _of: int) -> None:
    return


def make(path: Path, size: float = 1.0, progress: Progress = _silent) -> None:
    """Write a register of `size` (1: ten years of 10,000 carcasses each) to a file that is not there yet."""
    with open_register(path, clock=story.Clock(story.morning(FIRST_DAY - timedelta(days=10)))) as register:
        story.set_up(register)
    batches, feast = _patterns(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        for pragma in ("journal_mode = OFF", "synchronous = OFF", "cache_size = -400000"):
            connection.execute(f"PRAGMA {pragma}")
        later = _take_indexes(connection)
        connection.execute("BEGIN")
        _Writer(connection, batches, feast).write(round(BATCHES * size), progress)
        for statement in later:
            connection.execute(statement)
        connection.execute("COMMIT")
        connection.execute("PRAGMA journal_mode = WAL")
    _write_words(path)


def _write_words(path: Path) -> None:
    """What the search looks through, for every lot."""
    with closing(sqlite3.connect(path)) as connection:
        lots = [lot for (lot,) in connection.execute("SELECT id FROM lot ORDER BY id")]
    store = open_store(path, create=False)
    try:
        with store.writing() as connection:
            for start in range(0, len(lots), _LOTS_AT_ONCE):
                write_words(connection, lots[start : start + _LOTS_AT_ONCE])
    finally:
        store.close()


def _take_indexes(connection: sqlite3.Connection) -> list[str]:
    """Drop what can be built faster afterwards; the statements that put it back."""
    found = connection.execute(
        "SELECT name, sql FROM sqlite_schema WHERE type = 'index' AND sql IS NOT NULL"
    ).fetchall()
    for name, _ in found:
        connection.execute(f"DROP INDEX {name}")
    return [sql for _, sql in found]


# -- the patterns -----------------------------------------------------------------------------------------


def _patterns(path: Path) -> tuple[Batches, Pattern]:
    """The stories of each month and of the feast, acted out on a copy of the register."""
    memory = Path("/dev/shm")  # nothing in the copy needs to outlive this run, so it need not reach a disk
    where = memory if memory.is_dir() else None
    with tempfile.TemporaryDirectory(prefix="gametrace-years-", dir=where) as folder:
        copy = Path(folder) / "stories.register"
        copy.write_bytes(path.read_bytes())
        days = [date(story.PATTERN_YEAR, month, 12) for month in range(1, 13)]
        batches: Batches = {(day.month, False): _acted(copy, day, story.BATCH) for day in days}
        for day in days:
            if day.month in _YOUNG_MONTHS:
                batches[day.month, True] = _acted(copy, day, story.YOUNG)
        return batches, _acted(copy, date(story.PATTERN_YEAR, 12, 29), story.FEAST)


def _acted(path: Path, day: date, parts: tuple[Callable, ...]) -> Pattern:
    species, grams = story.SPECIES[day.month]
    clock = story.Clock(story.morning(day))
    with (
        open_register(path, clock=clock, create=False) as register,
        closing(sqlite3.connect(path)) as connection,
    ):
        ends = [(_count(connection), clock.at)]
        tell = story.Teller(register, clock, day, species, grams)
        for after, part in zip(story.DAYS_AFTER, parts, strict=False):
            starts = clock.at = story.morning(day + timedelta(days=after))
            part(tell)
            ends.append((_count(connection), starts))
        pattern = Pattern(day)
        pattern.read(connection, ends)
    return pattern


def _count(connection: sqlite3.Connection) -> int:
    return int(connection.execute("SELECT COALESCE(MAX(seq), 0) FROM entry").fetchone()[0])


# -- telling them again -----------------------------------------------------------------------------------


@cache
def _working_days() -> tuple[date, ...]:
    """Weekdays of ten years, less the last fortnight: all that was begun is finished today."""
    end = TODAY.date() - timedelta(days=14)
    every = (FIRST_DAY + timedelta(days=at) for at in range((end - FIRST_DAY).days))
    return tuple(day for day in every if day.weekday() < 5)


def _schedule(batches: int) -> Iterator[tuple[date, int, bool]]:
    """When each batch is taken in, its turn that day, whether it is a feast; spread evenly."""
    days = _working_days()
    feasts = max(1, round(YEARS * batches / BATCHES))
    feast_at = {(2 * number + 1) * batches // (2 * feasts) for number in range(feasts)}
    turn, before = 0, None
    for number in range(batches):
        day = days[number * len(days) // batches]
        turn = turn + 1 if day == before else 0
        before = day
        yield day, turn, False
        if number in feast_at:
            turn += 1
            yield day, turn, True


class _Writer:
    """Writes tellings part by part in the order of time, and a telling's rows when its last part is told."""

    def __init__(self, connection: sqlite3.Connection, batches: Batches, feast: Pattern) -> None:
        self.connection = connection
        self.batches, self.feast = batches, feast
        self.seq, self.seal = connection.execute(
            "SELECT seq, seal FROM entry ORDER BY seq DESC LIMIT 1"
        ).fetchone()
        (self.last_lot,) = connection.execute("SELECT MAX(id) FROM lot").fetchone()
        (self.last_hold,) = connection.execute("SELECT COALESCE(MAX(id), 0) FROM hold").fetchone()
        self.entries: list[tuple] = []
        self.rows: dict[str, list[tuple]] = {table: [] for table in READING_TABLES}

    def write(self, batches: int, progress: Progress) -> None:
        open_parts: list[tuple[datetime, int, int, Telling]] = []
        for number, (day, turn, is_feast) in enumerate(_schedule(batches)):
            pattern = self.feast if is_feast else self.batches[day.month, day >= _YOUNG_FROM]
            telling = Telling(pattern, number, day, timedelta(minutes=60 * turn))
            starts = story.morning(day) + timedelta(minutes=60 * turn)
            while open_parts and open_parts[0][0] <= starts:
                self._tell(*heapq.heappop(open_parts)[2:])
            for at, part in enumerate(pattern.parts):
                # A quarter of an hour for each part, so that no two tellings write at the same time.
                when = starts + (part.starts - story.morning(pattern.day)) + timedelta(minutes=15 * at)
                heapq.heappush(open_parts, (when, number, at, telling))
            if number % 20 == 0:
                progress(number, batches)
        while open_parts:
            self._tell(*heapq.heappop(open_parts)[2:])
        self._flush()
        progress(batches, batches)

    def _tell(self, at: int, telling: Telling) -> None:
        part = telling.pattern.parts[at]
        year = (part.starts + (telling.day - telling.pattern.day)).year
        for which in range(part.lots.start, part.lots.stop):
            self.last_lot = next_lot_id(self.last_lot, year)
            telling.give_lot(which, self.last_lot)
        for which in range(part.holds.start, part.holds.stop):
            self.last_hold += 1
            telling.give("hold", which, self.last_hold)
        for row in telling.entries(part, self.seq, self.seal, _digest):
            self.entries.append(row)
            self.seq, self.seal = row[0], row[3]
        if at == len(telling.pattern.parts) - 1:
            telling.compose()
            for table in telling.pattern.rows:
                self.rows[table].extend(telling.rows(table))
        if len(self.entries) >= _AT_ONCE:
            self._flush()

    def _flush(self) -> None:
        self.connection.executemany(
            "INSERT INTO entry (seq, key, text, seal) VALUES (?, ?, ?, ?)", self.entries
        )
        self.entries.clear()
        for table, rows in self.rows.items():
            if rows:
                marks = ", ".join("?" * len(rows[0]))
                names = ", ".join(f'"{column.name}"' for column in metadata.tables[table].columns)
                self.connection.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)
                rows.clear()


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def counts(path: Path) -> dict[str, int]:
    """How much a register holds, as the issue of a large one counts it."""
    with closing(sqlite3.connect(path)) as connection:
        asked = {
            "carcasses": "SELECT COUNT(*) FROM carcass",
            "lots": "SELECT COUNT(*) FROM lot",
            "lineage rows": "SELECT COUNT(*) FROM lineage",
            "dishes": "SELECT COUNT(*) FROM dish",
            "entries": "SELECT MAX(seq) FROM entry",
            "lots with something left": "SELECT COUNT(*) FROM lot WHERE grams_left > 0",
        }
        return {name: int(connection.execute(sql).fetchone()[0]) for name, sql in asked.items()}
