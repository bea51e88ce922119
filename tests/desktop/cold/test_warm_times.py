"""From a warm night in a logger's file to a decision about what stood there; and a store that failed."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt

from gametrace.register import acts, questions

ENTER, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Down


@pytest.fixture
def warm_night(roe_larder) -> str:
    """A buck in the chill, which was at 9 degrees for five hours of the next night. His number."""
    buck = roe_larder.in_skin()
    start = int(roe_larder.at.timestamp())
    readings = [(start + 600 * at, 90 if 72 <= at < 102 else 30) for at in range(144)]
    roe_larder.later(days=1)
    acts.set_policy(
        roe_larder.register, by=roe_larder.tutor, name="reading_minutes", value="10", reason="loggers"
    )
    acts.import_readings(
        roe_larder.register, by=roe_larder.tutor, store="C1", readings=readings, name="night", mapping={}
    )
    return buck


def test_a_warm_night_goes_from_the_list_to_a_decision_by_keys(
    roe_larder, roe_window, warm_night, keys
) -> None:
    roe_window.go("cold", "episodes")
    page = roe_window.station("cold").page.episodes
    assert "1 warm" in page.count.text()
    assert "highest 9.0 °C" in page.list.currentItem().text()
    assert warm_night in page.lots.text()
    page.list.setFocus()
    keys(ENTER)
    assert roe_window.focusWidget() is page.action
    keys("fan mended, doors kept shut", ENTER, "3 degrees again by nine", ENTER)
    assert roe_window.focusWidget() is page.main
    keys(ENTER)
    now = roe_larder.at
    (one,) = questions.episodes(roe_larder.register, now - timedelta(days=3), now)
    assert (one.action, one.result) == ("fan mended, doors kept shut", "3 degrees again by nine")
    assert "0 unanswered" in page.count.text()
    page.hold.setFocus()
    keys(ENTER)
    lot = questions.lot(roe_larder.register, warm_night)
    assert lot.state == "on hold"
    assert "Chill 1 was warm" in lot.state_reason


def test_what_was_done_must_be_said(roe_window, warm_night, keys) -> None:
    roe_window.go("cold", "episodes")
    page = roe_window.station("cold").page.episodes
    page.main.click()
    assert "Say what was done" in page.fields["action"].trouble.text()


def test_an_episode_is_shown_on_its_curve(qtbot, roe_window, warm_night) -> None:
    roe_window.go("cold", "episodes")
    station = roe_window.station("cold")
    station.page.episodes.curve.click()
    roe_window.bench.errands.wait_idle()
    plot = station.page.curve.plot
    qtbot.waitUntil(lambda: len(plot.series) == 144)
    assert station.page.choice.value() == "curve"
    assert "Warm 1 time" in plot.accessibleDescription()
    assert "to 9.0 °C" in plot.accessibleDescription()


def test_a_failed_store_is_held_in_one_act_and_decided_together_by_another(
    roe_larder, roe_window, keys
) -> None:
    bucks = [roe_larder.in_skin(), roe_larder.in_skin()]
    pack = roe_larder.pack(roe_larder.dressed())
    register = roe_larder.register
    roe_window.go("cold", "failed")
    page = roe_window.station("cold").page.failed
    page.store.choose("C1")
    page.reason.setFocus()
    keys("compressor stopped", ENTER, ENTER)
    held = [*bucks, pack]
    assert all(questions.lot(register, code).state == "on hold" for code in held)
    assert page.list.count() == 4  # the buck that was cut hangs there too
    assert roe_window.focusWidget() is page.list
    keys(" ", DOWN, " ")
    ticked = [questions.holds(register)[at].code for at in (0, 1)]
    page.why.setFocus()
    keys("core below 5 at noon")
    page.release.click()
    assert "another person lifts it" in page.fields["why"].trouble.text()
    roe_window.bench.set_person(roe_larder.technician)
    page.release.click()
    assert [questions.lot(register, code).state for code in ticked] == ["hanging", "hanging"]
    assert page.list.count() == 2
    page.list.tick_all(True)
    page.why.setText("stood at 15 for a day")
    page.dispose.click()
    assert questions.lot(register, pack).grams == 0


def test_an_empty_store_that_failed_says_so(roe_window, keys) -> None:
    roe_window.go("cold", "failed")
    page = roe_window.station("cold").page.failed
    page.fail.click()
    assert "Choose the store" in page.fields["store"].trouble.text()
    page.store.choose("F2")
    page.reason.setText("door left open")
    page.fail.click()
    assert "Nothing stands in that store" in page.fields["store"].trouble.text()
