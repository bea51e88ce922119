"""How fast: the walk of a trace beside raw SQLite, and an act with its seal. Printed; decides nothing."""

import sqlite3
import statistics
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from larder_house import House

from gametrace.register import acts, questions
from gametrace.store import lineage

pytestmark = pytest.mark.bench

_WIDE, _DEEP = 250, 8


def milliseconds(act: Callable[[], object], times: int = 30) -> float:
    """The median of some runs, the first one left out."""
    act()
    spans = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        spans.append((time.perf_counter() - start) * 1_000)
    return statistics.median(spans)


def raw_walk(connection: sqlite3.Connection, lot: int) -> list[tuple[int, int, int]]:
    """The same level-by-level walk with nothing of ours in between."""
    found: list[tuple[int, int, int]] = []
    level, seen = {lot}, {lot}
    while level:
        names = ",".join(map(str, sorted(level)))
        edges = connection.execute(
            f"SELECT parent, child, grams FROM lineage WHERE child IN ({names})"
        ).fetchall()
        found += edges
        level = {parent for parent, _, _ in edges} - seen
        seen |= level
    return found


def test_the_walk_of_a_trace_beside_raw_sqlite(house: House) -> None:
    """2,000 lots in eight layers, each of three of the layer above."""
    first = 260_000_001
    with house.reg.store.writing() as connection:
        for layer in range(_DEEP):
            for place in range(_WIDE):
                lot = first + layer * _WIDE + place
                connection.exec_driver_sql(
                    "INSERT INTO lot VALUES (?, 'mix', '', '', 'x', '', 30, 30, 0, 0, 'closed', '', "
                    "'2026-11-12T09:00:00Z', 'P001', NULL, '', '', '', NULL, NULL, NULL, 0, '')",
                    (lot,),
                )
                above = {first + (layer - 1) * _WIDE + (place * 7 + step * 31) % _WIDE for step in range(3)}
                for parent in above if layer else ():
                    connection.exec_driver_sql("INSERT INTO lineage VALUES (?, ?, 10)", (lot, parent))
    target = first + _DEEP * _WIDE - 1
    raw = sqlite3.connect(house.path)
    with house.reg.store.reading() as connection:
        ours = lineage.edges_above(connection, [target])
        assert sorted(map(tuple, ours)) == sorted(raw_walk(raw, target))
        took = milliseconds(lambda: lineage.edges_above(connection, [target]))
    bare = milliseconds(lambda: raw_walk(raw, target))
    raw.close()
    print(f"\nwalk of {len(ours)} edges: {took:.2f} ms, raw sqlite3 {bare:.2f} ms, ratio {took / bare:.2f}")  # noqa: T201 -- what it is for


def test_an_act_with_its_seal_on_a_filled_register(house: House, tmp_path: Path) -> None:
    for _ in range(150):
        deer = house.dressed()
        house.dish((house.pack(deer), 200))
    spans = []
    for number in range(100):
        delivery = house.delivery()
        start = time.perf_counter()
        code = acts.receive_delivery(house.reg, by=house.technician, delivery=delivery).code
        spans.append((time.perf_counter() - start) * 1_000)
        start = time.perf_counter()
        acts.move_lot(house.reg, by=house.technician, code=code, to=f"C1.S{number % 2 + 1}")
        spans.append((time.perf_counter() - start) * 1_000)
    print(f"\nan act with its seal: median {statistics.median(spans):.2f} ms of {len(spans)}")  # noqa: T201 -- what it is for
    print(f"trace of a carcass: {milliseconds(lambda: questions.trace(house.reg, code)):.2f} ms")  # noqa: T201 -- what it is for
    print(f"strip and today: {milliseconds(lambda: questions.waiting(house.reg), 3):.1f} ms")  # noqa: T201 -- what it is for
    print(f"check of all: {milliseconds(lambda: questions.check(house.reg), 3):.0f} ms")  # noqa: T201 -- what it is for
