"""A round by hand with real keys: Enter moves from store to store, and what was not taken is answered."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt

from gametrace.desktop.cold.round_presenter import begin_of_warm
from gametrace.register import acts, questions

ENTER, TAB = Qt.Key.Key_Return, Qt.Key.Key_Tab


@pytest.fixture
def station(qtbot, roe_window):
    roe_window.go("cold")
    station = roe_window.station("cold")
    first = station.page.round.rows["C1"].degrees.edit
    qtbot.waitUntil(lambda: roe_window.focusWidget() is first)
    return station


def test_all_stores_are_read_without_a_hand_leaving_the_keys(roe_larder, roe_window, station, keys) -> None:
    rows = station.page.round.rows
    assert roe_window.focusWidget() is rows["C1"].degrees.edit
    keys("3.2", ENTER, "-18,4", ENTER)
    assert roe_window.focusWidget() is station.page.round.main
    keys(ENTER)
    last = questions.last_readings(roe_larder.register)
    assert last == {"C1": (roe_larder.at, 32), "F2": (roe_larder.at, -184)}
    assert rows["C1"].degrees.text() == ""
    assert "3.2 °C" in rows["C1"].last.text()


def test_a_store_left_blank_is_asked_for_and_nothing_is_written(roe_larder, station, keys) -> None:
    keys("3.2", ENTER, ENTER, ENTER)
    assert "or say that it was not taken" in station.page.round.rows["F2"].said.text()
    assert questions.last_readings(roe_larder.register) == {}


def test_not_taken_because_stands_beside_the_gap_that_comes_of_it(roe_larder, station, keys) -> None:
    keys("3.2", ENTER, "-18.4", ENTER, ENTER)
    roe_larder.later(days=2)
    keys("3.0", ENTER, TAB, " ", "door frozen shut", ENTER, ENTER)
    roe_larder.later(days=1)
    acts.take_round(roe_larder.register, by=roe_larder.tutor, readings=[("F2", -181)])
    now = roe_larder.at
    found = questions.episodes(roe_larder.register, now - timedelta(days=9), now)
    gap = next(one for one in found if one.store == "F2" and one.sort == "gap")
    assert gap.action == "door frozen shut"
    unanswered = next(one for one in found if one.store == "C1" and one.sort == "gap")
    assert unanswered.action == ""


def test_a_warm_store_is_said_so_at_once_and_what_was_done_is_kept(roe_larder, station, keys) -> None:
    acts.take_round(
        roe_larder.register, by=roe_larder.tutor, readings=[("C1", 60), ("F2", -180)],
        happened_at=roe_larder.at - timedelta(hours=4),
    )  # fmt: skip
    keys("7.5", ENTER, "door shut, fan on", ENTER, "-18", ENTER, ENTER)
    roe_larder.later(hours=4)
    acts.take_round(roe_larder.register, by=roe_larder.tutor, readings=[("C1", 40), ("F2", -180)])
    found = questions.episodes(roe_larder.register, roe_larder.at - timedelta(days=9), roe_larder.at)
    assert [(one.store, one.sort, one.action) for one in found] == [("C1", "warm", "door shut, fan on")]


@pytest.mark.parametrize(
    ("readings", "begin"),
    [
        ([], None),
        ([(0, 40)], None),
        ([(0, 60), (10, 40)], None),
        ([(0, 40), (10, 60), (20, 70)], 10),
        ([(0, 60), (200, 60), (210, 60)], 200),
    ],
)
def test_a_warm_time_begins_after_the_last_cold_reading_or_gap(readings, begin) -> None:
    assert begin_of_warm(readings, 50, 100) == begin


def test_a_probe_is_added_checked_and_then_chosen_for_the_round(
    roe_larder, roe_window, station, keys
) -> None:
    station.show_page("probes")
    page = station.page.probes
    page.name.setFocus()
    keys("Blue probe")
    page.add.setFocus()
    keys(ENTER)
    page.ice.setFocus()
    keys("0.2", ENTER, "99.8", ENTER, ENTER)
    (probe,) = questions.probes(roe_larder.register)
    assert (probe.name, probe.ice_tenths_c, probe.boiling_tenths_c) == ("Blue probe", 2, 998)
    station.show_page("round")
    assert station.page.round.probe.value() == probe.code


def test_everything_on_the_pages_can_be_pressed_with_a_glove_and_read(
    roe_window, station, fits_a_hand
) -> None:
    for name in station.presenters:
        station.show_page(name)
        roe_window.bench.errands.wait_idle()
        assert fits_a_hand(station) == []
