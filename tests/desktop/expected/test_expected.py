"""Announced deliveries by keys alone: written down, ticked off after the door, cancelled; and the hooks."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.parts.words import Words
from gametrace.register import acts, questions

ENTER, TAB = Qt.Key.Key_Return, Qt.Key.Key_Tab
TODAY = date(2026, 11, 25)


@pytest.fixture
def keys(window):
    """Letters and keys struck at the window, one after another."""

    def strike(*given) -> None:
        window.scanning.flush()
        for one in given:
            for key in one if isinstance(one, str) else (one,):
                QTest.keyClick(window.windowHandle(), key)
                window.scanning.flush()

    return strike


@pytest.fixture
def page(window):
    window.go("expected")
    return window.station("expected").page


def expect(larder, bodies: int = 2, **given) -> str:
    return acts.expect_delivery(
        larder.register, by=larder.tutor, supplier="S001", on=given.pop("on", TODAY), bodies=bodies, **given
    ).code


def test_an_announced_delivery_is_written_down_by_keys_alone(larder, page, keys) -> None:
    page.form.supplier.list.setFocus()
    page.form.supplier.list.list.setCurrentRow(0)
    keys(ENTER)
    assert page.form.bodies.edit.hasFocus()
    keys("3", ENTER, "14:30", ENTER, "27/11", ENTER)
    page.form.species.setFocus()
    keys("fallow", ENTER)
    assert page.form.note.hasFocus()
    keys("Dan's van", ENTER)
    assert page.form.act.hasFocus()
    keys(" ")
    (one,) = questions.expected_deliveries(larder.register)
    assert (one.bodies, one.at, one.on, one.species, one.note) == (
        3, "14:30", date(2026, 11, 27), "fallow", "Dan's van",
    )  # fmt: skip
    assert page.form.bodies.text() == ""
    assert any("3 × fallow from Hartmere Estate" in w.text() for w in page.coming.findChildren(Words))


def test_what_cannot_be_is_said_at_its_field_and_nothing_typed_is_lost(larder, page) -> None:
    page.form.supplier.set_value("S001")
    page.form.bodies.edit.setText("two")
    page.form.act.click()
    assert "not a number" in page.form.fields["bodies"].trouble.text()
    page.form.bodies.edit.setText("2")
    page.form.act.click()
    assert "the day it is expected" in page.form.fields["on"].trouble.text()
    page.form.on.set_value(date(2026, 11, 1))
    page.form.act.click()
    assert "is past" in page.form.fields["on"].trouble.text()
    assert page.form.bodies.text() == "2"
    assert questions.expected_deliveries(larder.register) == ()


def test_it_is_cancelled_with_a_reason_by_keys(larder, window, keys) -> None:
    code = expect(larder)
    window.go("expected", code)
    page = window.station("expected").page
    assert page.coming.buttons[code, "take"].hasFocus()
    page.coming.buttons[code, "cancel"].setFocus()
    keys(" ", ENTER)
    assert "Say why" in page.coming.reason_field.trouble.text()
    keys("snowed in", ENTER)
    (one,) = questions.expected_deliveries(larder.register, open_only=False)
    assert (one.status, one.reason) == ("cancelled", "snowed in")
    assert not page.coming.asking.isVisible()


def test_a_body_taken_in_before_is_ticked_off_from_the_list(larder, window, keys) -> None:
    code = expect(larder, bodies=1, species="roe")
    window.go("expected")
    page = window.station("expected").page
    page.coming.buttons[code, larder.animals[2]].setFocus()
    keys(" ")
    (one,) = questions.expected_deliveries(larder.register, open_only=False)
    assert (one.status, one.lots) == ("arrived", (larder.animals[2],))


def test_the_hooks_for_what_comes_stand_under_it_and_too_few_are_said(larder, window) -> None:
    expect(larder, bodies=9)
    window.go("expected")
    page = window.station("expected").page
    free = sum(p.kind == "hook" for p in questions.free_places(larder.register))
    first = page.hooks.said[0]
    assert first[1] == f"{free} of 6"
    assert first[3] == "9"
    assert first[4] == f"{9 - free} short" or int(first[2]) > 0
    window.go("larder")
    room = window.station("larder").page.room
    assert "short" in room.text()
    assert room.property("role") == "amber"


def test_the_larder_says_nothing_of_room_while_nothing_is_expected(larder, window) -> None:
    window.go("larder")
    assert window.station("larder").page.room.text() == ""


def test_the_door_offers_to_tick_off_what_was_expected(larder, window, keys) -> None:
    expect(larder, bodies=2, species="roe")
    window.go("delivery")
    station = window.station("delivery")
    form = station.page.new_page.form
    form.fill({"supplier": "S001", "species": "roe", "sex": "female", "grams": 15_000})
    station.presenter.take_in()
    done = station.page.done_page
    assert done.tick.isVisible()
    assert "2 × roe" in done.announced.text()
    done.tick.setFocus()
    keys(ENTER)
    assert "1 still to come" in done.announced.text()
    assert not done.tick.isVisible()
    (one,) = questions.expected_deliveries(larder.register)
    assert one.left == 1


def test_an_unannounced_body_offers_nothing(larder, window) -> None:
    window.go("delivery")
    station = window.station("delivery")
    form = station.page.new_page.form
    form.fill({"supplier": "S001", "species": "roe", "sex": "female", "grams": 15_000})
    station.presenter.take_in()
    assert not station.page.done_page.tick.isVisible()
    assert not station.page.done_page.announced.isVisible()
