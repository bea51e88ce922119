"""What a person waits for on a large register, each timed beside the barest way to the same answer.

The bare way is sqlite3 with nothing above it, in the same run on the same file: a ratio says more than
milliseconds of one machine. Nothing here decides whether a time is good; `large` prints the bound beside it.
"""

from __future__ import annotations

import gc
import os
import sqlite3
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import years_register
import years_story as story

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Basis, Delivery
from gametrace.domain.lineage import shares_of
from gametrace.domain.yields import NEWEST
from gametrace.register import acts, questions
from gametrace.register.opening import Register, open_register
from gametrace.store import journal, lineage

HERE = Path(__file__).resolve().parent
TYPED = (
    "ve", "ven", "veni", "venison p", "haunch w", "sad", "game rag", "keema", "harvest", "stroganoff of roe",
    "LR1", "LR7-0", "fallow hau", "roe saddle", "minc", "beat 7", "barley", "zzz", "shoulder", "pie of f",
)  # fmt: skip


@dataclass(frozen=True)
class Figure:
    """One line of the table. Times are milliseconds; `bare` is the barest way, `most` what is promised."""

    what: str
    ours: float
    bare: float | None = None
    most: str = ""
    note: str = ""
    p99: float | None = None

    @property
    def ratio(self) -> float | None:
        return self.ours / self.bare if self.bare else None


def opened(path: Path | str, at: datetime = years_register.TODAY) -> Register:
    return open_register(path, clock=story.Clock(at), create=False)


def _times(act: Callable[[], object], times: int = 15) -> list[float]:
    """Milliseconds of each time; the first, which reads what is cold, is left out."""
    act()
    gc.collect()
    found = []
    for _ in range(times):
        began = time.perf_counter()
        act()
        found.append((time.perf_counter() - began) * 1_000)
    return found


def _median(act: Callable[[], object], times: int = 15) -> float:
    return statistics.median(_times(act, times))


def _raw_walk(connection: sqlite3.Connection, start: int, known: str, wanted: str) -> set[int]:
    """The lineage level by level, ids only: the barest a trace can be."""
    seen, level = {start}, {start}
    while level:
        ids = ",".join(map(str, level))
        rows = connection.execute(f"SELECT {wanted} FROM lineage WHERE {known} IN ({ids})")
        level = {one for (one,) in rows} - seen
        seen |= level
    return seen


def subjects(path: Path) -> tuple[int, int]:
    """The newest harvest pot, and an animal of the middle of the years."""
    with closing(sqlite3.connect(path)) as connection:
        (pot,) = connection.execute("SELECT MAX(lot_id) FROM dish WHERE name = 'Harvest pot'").fetchone()
        (animal,) = connection.execute(
            "SELECT id FROM lot WHERE kind = 'carcass' AND id >= "
            "(SELECT id FROM lot ORDER BY id LIMIT 1 OFFSET (SELECT COUNT(*) / 2 FROM lot)) "
            "ORDER BY id LIMIT 1"
        ).fetchone()
        return int(pot), int(animal)


# -- traces -----------------------------------------------------------------------------------------------


def traces(path: Path, place: str | None = None) -> Iterator[Figure]:
    """On the file, or on a server that holds the same."""
    pot, animal = subjects(path)
    with opened(place or path) as register, closing(sqlite3.connect(path)) as raw:

        def back() -> object:
            with register.store.reading() as connection:
                return shares_of(lineage.edges_above(connection, [pot]), pot)

        nodes = len(_raw_walk(raw, pot, "child", "parent"))
        bare_back = _median(lambda: _raw_walk(raw, pot, "child", "parent"), 40)
        bare_on = _median(lambda: _raw_walk(raw, animal, "parent", "child"), 40)
        code, beast = code_of(pot), code_of(animal)
        on = len(questions.trace(register, beast).forward)
        yield Figure(
            "back-trace with exact shares", _median(back, 40), bare_back, "2x, 50 ms", f"{nodes} lots"
        )
        yield Figure(
            "the same as a person sees it: papers, states, places, sums",
            _median(lambda: questions.trace(register, code)), bare_back, "", f"{nodes} lots",
        )  # fmt: skip
        yield Figure(
            "forward trace of an animal, all lots with state and place",
            _median(lambda: questions.trace(register, beast), 40), bare_on, "2x, 50 ms", f"{on} lots",
        )  # fmt: skip


def picture(path: Path) -> Iterator[Figure]:
    from PySide6.QtGui import QPixmap

    from gametrace.desktop.app import application
    from gametrace.desktop.look import Look, dress
    from gametrace.desktop.parts.trace_picture import TracePicture

    app, look = application(), Look()
    dress(app, look)
    pot, _ = subjects(path)
    with opened(path) as register:
        seen = TracePicture(look)
        seen.resize(1280, 800)
        seen.show()
        app.processEvents()

        def draw(trace: Any) -> None:
            seen.set_trace(None)
            seen.set_trace(trace)
            app.processEvents()
            ground = QPixmap(seen.size())
            seen.render(ground)

        trace = questions.trace(register, code_of(pot))
        drawing = _median(lambda: draw(trace), 7)
        whole = _median(lambda: draw(questions.trace(register, code_of(pot))), 7)
        seen.hide()
    yield Figure("trace to picture on screen", whole, None, "150 ms", f"of it drawing {drawing:.0f} ms")


# -- finding and lists ------------------------------------------------------------------------------------


def finding(path: Path) -> Iterator[Figure]:
    with opened(path) as register, closing(sqlite3.connect(path)) as raw:

        def bare(words: str) -> object:
            return raw.execute(
                "SELECT lot_id, name FROM dish WHERE name LIKE ? LIMIT 200", (f"{words}%",)
            ).fetchall()

        ours = [t for words in TYPED for t in _times(lambda w=words: questions.find(register, w, 200), 4)]
        raws = [t for words in TYPED for t in _times(lambda w=words: bare(w), 4)]
    yield Figure(
        "find as you type, first 200", statistics.median(ours), statistics.median(raws), "20 ms, p99 100 ms",
        f"{len(TYPED)} words", max(ours),
    )  # fmt: skip


def lists(path: Path) -> Iterator[Figure]:
    """Every long list a station asks for when it is shown."""
    asked: dict[str, tuple[Callable[[Register], Any], str]] = {
        "today's page": (questions.today, "SELECT * FROM hold WHERE released_at IS NULL"),
        "the strip's counts": (questions.waiting, "SELECT COUNT(*) FROM hold"),
        "larder: rails and shelves": (
            questions.larder_view, "SELECT * FROM lot WHERE grams_left > 0 AND place <> '' LIMIT 200"),
        "stock": (
            questions.stock,
            "SELECT * FROM lot WHERE grams_left > 0 AND kind IN ('pack', 'part', 'mix') LIMIT 200"),
        "the block": (
            questions.block_candidates,
            "SELECT * FROM lot WHERE status = 'open' AND grams_left > 0 LIMIT 200"),
        "deliveries, newest 200": (
            questions.deliveries, "SELECT * FROM carcass ORDER BY received_at DESC LIMIT 200"),
        "dishes, newest 200": (
            questions.dishes, "SELECT * FROM lot WHERE kind = 'dish' ORDER BY id DESC LIMIT 200"),
        "deliveries to finish": (questions.to_finish, "SELECT 1"),
        "bins that wait": (_waiting_bins, "SELECT lot_id FROM bin_waiting"),
        "bins, week by week, newest 100": (_bin_weeks, "SELECT 1"),
        "bins, papers kept, newest 100": (
            _bin_papers, "SELECT * FROM collection ORDER BY seq DESC LIMIT 100"),
    }  # fmt: skip
    with opened(path) as register, closing(sqlite3.connect(path)) as raw:
        for name, (ask, bare) in asked.items():
            found = ask(register)
            long = f"{len(found)} rows" if hasattr(found, "__len__") else ""
            yield Figure(
                f"list: {name}", _median(lambda a=ask: a(register), 5),
                _median(lambda b=bare: raw.execute(b).fetchall(), 5), "100 ms", long,
            )  # fmt: skip


def _waiting_bins(register: Register) -> Any:
    return questions.bins(register, only_waiting=True)


def _bin_weeks(register: Register) -> Any:
    return questions.bin_weeks(register, register.today() - timedelta(weeks=99), register.today())


def _bin_papers(register: Register) -> Any:
    return questions.bin_papers(register, 100)


def answers(path: Path) -> Iterator[Figure]:
    """What the window asks about years of work, in milliseconds of the processor; yields are read aside."""
    _, animal = subjects(path)
    with opened(path) as register:
        kind = questions.yield_of(register, code_of(animal)).animal.species
        year = register.today() - timedelta(days=365)
        asked: dict[str, tuple[Callable[[], Any], str]] = {
            "visit: what an officer would find": (lambda: questions.readiness(register), "500 ms"),
            "yields of one animal beside the newest 500 of its kind, aside": (
                lambda: questions.yield_of(register, code_of(animal)), "500 ms"),
            "yields by supplier, the newest 500 of one species, aside": (
                lambda: questions.yields(register, by="supplier", species=kind, newest=NEWEST), "500 ms"),
            "yields by supplier, a year of one species, aside": (
                lambda: questions.yields(register, by="supplier", species=kind, first=year), ""),
            "yields by supplier, all years of one species, aside with progress": (
                lambda: questions.yields(register, by="supplier", species=kind), ""),
            "hooks and who comes": (lambda: questions.hook_forecast(register), "100 ms"),
            "names that are kept": (lambda: questions.kept_names(register), ""),
        }  # fmt: skip
        for name, (ask, most) in asked.items():
            began = time.process_time()
            found = ask()
            took = (time.process_time() - began) * 1_000
            animals = getattr(found, "animals", None)
            yield Figure(name, took, None, most, f"{len(animals):,} animals" if animals else "")


def long_table(path: Path) -> Iterator[Figure]:
    """Every dish and every delivery as the window lists them, and a table over a million rows of lots."""
    from PySide6.QtGui import QPixmap

    from gametrace.desktop.app import application
    from gametrace.desktop.look import Look, dress
    from gametrace.desktop.parts.pages import Pages
    from gametrace.desktop.parts.table import Column, RecordTable

    app, look = application(), Look()
    dress(app, look)
    columns = (Column("name", "Dish", _name_of), Column("code", "Code", _code_of, 150))
    with opened(path) as register, closing(sqlite3.connect(path)) as raw:
        count = questions.dish_count(register)
        (lots,) = raw.execute("SELECT COUNT(*) FROM lot").fetchone()

        def dishes(first: int, many: int) -> Any:
            return questions.dishes(register, many, first)

        def deliveries(first: int, many: int) -> Any:
            return questions.delivery_lines(register, many, first)

        def rows(first: int, many: int) -> Any:
            sql = "SELECT name, id FROM lot ORDER BY id LIMIT ? OFFSET ?"
            return raw.execute(sql, (many, first)).fetchall()

        table = RecordTable(look, "Dishes", columns, _code_of)
        table.resize(1240, 700)
        table.show()
        ground = QPixmap(table.size())

        def first_paint(pages: Pages) -> None:
            table.set_records(pages)
            app.processEvents()
            table.render(ground)

        def jump(row: int) -> None:
            table.scrollTo(table.records_model.index(row, 0))
            app.processEvents()
            table.render(ground)

        animals = questions.delivery_count(register)
        for name, of, fetch in (
            ("dishes", count, dishes),
            ("deliveries", animals, deliveries),
            ("lots, bare rows", lots, rows),
        ):
            before = _memory_now()
            painted = _median(lambda n=of, f=fetch: first_paint(Pages(n, f)), 5)
            jumps = []
            for at in range(1, 40):
                began = time.perf_counter()
                jump(at * 7_919 * 31 % of)
                jumps.append((time.perf_counter() - began) * 1_000)
            grown = _memory_now() - before
            yield Figure(f"table of {name}: first paint", painted, None, "100 ms", f"{of:,} rows")
            yield Figure(
                f"table of {name}: jump anywhere", statistics.median(jumps), None, "100 ms, 50 MB",
                f"{grown:.0f} MB more", max(jumps),
            )  # fmt: skip
        table.hide()


def _name_of(row: Any) -> str:
    return row[0] if isinstance(row, tuple) else row.name


def _code_of(row: Any) -> str:
    return str(row[1]) if isinstance(row, tuple) else row.code


def _memory_now() -> float:
    """Megabytes in memory now, as Linux tells it; nothing where it does not."""
    status = Path("/proc/self/statm")
    pages = int(status.read_text(encoding="ascii").split()[1]) if status.exists() else 0
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


# -- acts, papers, keeping --------------------------------------------------------------------------------


def act(path: Path, empty: Path) -> Iterator[Figure]:
    """One delivery with its seal on the large register and on one with nothing in it, by turns."""

    def receive(register: Register, number: int) -> float:
        delivery = Delivery(
            route="wild-direct", supplier="S003", species="fallow", sex="female",
            killed_on=years_register.TODAY.date() - timedelta(days=1), tag=f"ACT{number}",
            grams=30_000 + number,
            basis=Basis(in_skin=True, head_on=False, feet_on=False, pluck_in=False),
        )  # fmt: skip
        began = time.perf_counter()
        acts.receive_delivery(register, by=story.HAND, delivery=delivery)
        return (time.perf_counter() - began) * 1_000

    with opened(path) as large, opened(empty) as bare:
        pairs = [(receive(large, n), receive(bare, n)) for n in range(60)][5:]
    ours, bares = (statistics.median(column) for column in zip(*pairs, strict=True))
    yield Figure("one act with its seal (beside the same on an empty register)", ours, bares, "1.5x, 5 ms")


_VISIT = """
import resource, sys, time
from datetime import date
from pathlib import Path
from gametrace.documents.visit_pack import visit_pdf
from gametrace.register import questions
from gametrace.register.opening import open_register
with open_register(Path(sys.argv[1]), create=False) as register:
    began = time.perf_counter()
    sheet = questions.visit_sheet(register, first=date(2025, 1, 1), last=date(2025, 12, 31))
    gathered = time.perf_counter()
    paper = visit_pdf(sheet)
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(time.perf_counter() - began, gathered - began, len(sheet.deliveries), len(paper) / 1e6, peak)
"""


def visit(path: Path) -> Iterator[Figure]:
    """In a process of its own, for its memory."""
    seconds, gathered, carcasses, size_mb, peak_mb = map(float, _child(_VISIT, path).split())
    yield Figure(
        "visit pack of one year", seconds * 1_000, None, "60 s",
        f"{carcasses:.0f} carcasses, gathered in {gathered:.1f} s, {size_mb:.1f} MB, memory {peak_mb:.0f} MB",
    )  # fmt: skip


def chain(path: Path) -> Iterator[Figure]:
    with opened(path) as register:
        began = time.perf_counter()
        with register.store.reading() as connection:
            broken = journal.broken_at(connection)
        took = time.perf_counter() - began
        count = questions.seal(register).count
    assert broken is None, broken
    with closing(sqlite3.connect(path)) as raw:
        began = time.perf_counter()
        for _ in raw.execute("SELECT seq, text, seal FROM entry ORDER BY seq"):
            pass
        bare = time.perf_counter() - began
    yield Figure("check of the whole chain", took * 1_000, bare * 1_000, "60 s", f"{count:,} entries")


_REBUILD = """
import resource, sys, time
from pathlib import Path
from gametrace.register import acts
from gametrace.register.opening import open_register
began = time.perf_counter()
with open_register(Path(sys.argv[1]), create=False) as register:
    acts.rebuild(register)
print(time.perf_counter() - began, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def rebuild(path: Path) -> Iterator[Figure]:
    seconds, megabytes = map(float, _child(_REBUILD, path).split())
    yield Figure("rebuild all tables", seconds * 1_000, None, "10 min, 500 MB", f"at most {megabytes:.0f} MB")


_WINDOW = """
import sys, time
from pathlib import Path
from PySide6.QtCore import QTimer
from gametrace.desktop import app as ours
from gametrace.register import opening
began = time.perf_counter()

def open_and_tell(*given):
    open_and_fill(*given)
    app.processEvents()
    print(time.perf_counter() - began, flush=True)
    QTimer.singleShot(0, app.quit)

app = ours.application()
open_and_fill, ours.open_and_fill = ours.open_and_fill, open_and_tell
ours.run(Path(sys.argv[1]))
"""


def window(path: Path, sample: Path) -> Iterator[Figure]:
    """From the program's first line to a filled window, by turns on both; the quickest of three."""
    pairs = [(float(_child(_WINDOW, path)), float(_child(_WINDOW, sample))) for _ in range(4)][1:]
    ours, bare = (min(column) * 1_000 for column in zip(*pairs, strict=True))
    yield Figure("open to usable window (beside the sample)", ours, bare, "1.2x")


def _child(program: str, path: Path) -> str:
    home = path.parent
    env = {
        **os.environ,
        "PYTHONPATH": str(HERE.parents[1]),
        "XDG_CONFIG_HOME": str(home),
        "XDG_DATA_HOME": str(home),
    }
    done = subprocess.run(
        [sys.executable, "-c", program, str(path)], env=env, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise RuntimeError(done.stderr[-2_000:])
    return done.stdout


# -- the server -------------------------------------------------------------------------------------------


def on_a_server(path: Path, said: Callable[[str], None]) -> Iterator[Figure]:
    """The same traces on PostgreSQL. What the file holds is poured over table by table."""
    from server import Server, binaries

    if binaries() is None:
        said("no PostgreSQL here: left out")
        return
    bare = {one.what: one.ours for one in traces(path)}
    server = Server()
    try:
        place = server.new_place()
        _pour(path, place)
        for one in traces(path, place):
            yield replace(
                one, what=f"PostgreSQL: {one.what}", bare=bare[one.what], most="2x SQLite", note=one.note
            )
    finally:
        server.remove()


def _pour(path: Path, place: str) -> None:
    from gametrace.store.tables import metadata

    with (
        open_register(place) as register,
        closing(sqlite3.connect(path)) as raw,
        register.store.writing() as connection,
    ):
        cursor = connection.connection.cursor()
        for table in metadata.sorted_tables:
            names = ", ".join(f'"{column.name}"' for column in table.columns)
            with cursor.copy(f"COPY {table.name} ({names}) FROM STDIN") as copy:
                for row in raw.execute(f"SELECT {names} FROM {table.name}"):
                    copy.write_row(row)
        cursor.execute("ANALYZE")


def everything(path: Path, folder: Path) -> Iterable[Figure]:
    """All but the rebuild and the server, in an order that leaves the acts to the end."""
    empty, sample = folder / "empty.register", folder / "sample.register"
    for old in (empty, sample):
        old.unlink(missing_ok=True)
    with open_register(empty, clock=story.Clock(story.morning(date(2026, 11, 1)))) as register:
        story.set_up(register)
    from gametrace.register.practice import practice_register

    sample_at = practice_register(folder)
    for measure in (traces, picture, finding, lists, answers, long_table, visit, chain):
        yield from measure(path)
    yield from window(path, sample_at)
    yield from act(path, empty)
