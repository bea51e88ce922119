"""The curve: every extreme of a pixel is drawn, gaps stay gaps, keys move along; a million readings paint."""

from __future__ import annotations

import time
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.cold.plot import DAY, Limit, Plot, Warm
from gametrace.desktop.cold.series import Series, gaps_in, pixels, series_of

steps = st.lists(st.tuples(st.integers(1, 500), st.integers(-300, 300)), min_size=1, max_size=200)


def walked(found) -> list[tuple[int, int]]:
    at, readings = 0, []
    for step, tenths in found:
        at += step
        readings.append((at, tenths))
    return readings


@given(steps, st.integers(1, 60), st.integers(1, 400))
def test_each_pixel_has_the_lowest_and_highest_of_its_own_readings(found, width, longest) -> None:
    readings = walked(found)
    first, last = 0, readings[-1][0] + 1
    drawn = pixels(series_of(readings), first, last, width, longest)
    by_hand: dict[int, list[int]] = {}
    for at, tenths in readings:
        x = next(x for x in range(width) if x == width - 1 or at < first + (last - first) * (x + 1) // width)
        by_hand.setdefault(x, []).append(tenths)
    assert {one.x: (one.lowest, one.highest) for one in drawn} == {
        x: (min(part), max(part)) for x, part in by_hand.items()
    }


@given(steps, st.integers(1, 400))
def test_a_new_stroke_begins_after_every_gap_and_nowhere_else(found, longest) -> None:
    readings = walked(found)
    series = series_of(readings)
    last = readings[-1][0]
    gaps = gaps_in(series, 0, last, longest)
    assert gaps == [
        (before[0], after[0]) for before, after in pairwise(readings) if after[0] - before[0] > longest
    ]
    strokes = sum(one.begins for one in pixels(series, 0, last, last + 1, longest))
    assert strokes == len(gaps) + 1


def test_keys_move_along_and_go_closer_and_the_middle_stays_on_the_readings(qtbot, look) -> None:
    plot = Plot(look)
    qtbot.addWidget(plot)
    plot.resize(900, 400)
    plot.set_readings(series_of((at * 600, 30 + at % 7) for at in range(3000)), 1800)
    plot.show_span(0, DAY)
    plot.show()
    QTest.keyClick(plot, Qt.Key.Key_Right)
    assert plot.first_at == DAY // 12
    QTest.keyClick(plot, Qt.Key.Key_Plus)
    assert plot.last_at - plot.first_at == DAY // 2
    QTest.keyClick(plot, Qt.Key.Key_End)
    assert plot.middle == plot.series.last_at
    QTest.keyClick(plot, Qt.Key.Key_Right)
    assert plot.middle == plot.series.last_at
    QTest.keyClick(plot, Qt.Key.Key_Home)
    assert plot.middle == 0
    for _ in range(30):
        QTest.keyClick(plot, Qt.Key.Key_Minus)
    assert plot.last_at - plot.first_at <= 800 * DAY
    assert "3.0 °C to 3.6 °C" in plot.accessibleDescription()


def test_without_readings_it_says_that_nobody_measured(qtbot, look) -> None:
    plot = Plot(look)
    qtbot.addWidget(plot)
    plot.set_readings(Series(), 600)
    assert plot.spoken() == "Nobody measured in this time."
    assert not plot.grab().isNull()


def test_a_million_readings_are_painted_while_a_key_is_held(qtbot, look, capsys) -> None:
    plot = Plot(look)
    qtbot.addWidget(plot)
    plot.resize(1200, 400)
    plot.set_readings(series_of((at * 60, 30 + at % 13) for at in range(1_000_000)), 90)
    plot.set_marks([Limit(50, "the kitchen's limit 5.0 °C", "steel")], [Warm(600, 9000, "warm")], [])
    plot.show_span(0, 60_000_000)
    took = []
    for _ in range(5):
        start = time.perf_counter()
        plot.grab()
        took.append(time.perf_counter() - start)
    with capsys.disabled():
        print(f"\na million readings painted in {min(took) * 1000:.0f} ms")  # noqa: T201
    assert not plot.grab().isNull()
