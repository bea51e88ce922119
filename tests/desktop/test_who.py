"""Who is at the keyboard, by keys: initials and PIN; the lid over a half-typed page; the second person."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import acts, questions


def keys(window, text: str) -> None:
    """As a person types: not so fast that it could be a scanner."""
    for letter in text:
        QTest.keyClick(window.windowHandle(), letter)
        window.scanning.flush()


def press(window, key: Qt.Key, *held: Qt.KeyboardModifier) -> None:
    QTest.keyClick(window.windowHandle(), key, *held)


@pytest.fixture
def pinned(window, larder):
    """Both have PINs; the tutor is at the keyboard."""
    acts.set_pin(larder.register, by=larder.student, pin="1470")
    assert window.bench.attempt("set_pin", pin="2580") is not None
    return window


def change_to(window, initials: str, pin: str) -> None:
    press(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    keys(window, initials)
    press(window, Qt.Key.Key_Return)
    keys(window, pin)
    press(window, Qt.Key.Key_Return)


def test_somebody_else_takes_over_with_initials_and_pin(pinned, larder) -> None:
    change_to(pinned, "CD", "1470")
    assert pinned.bench.person == larder.student
    change_to(pinned, "AB", "2580")
    assert pinned.bench.person == larder.tutor
    assert pinned.bench.attempt("hold_lot", code=larder.pie, reason="looked odd") is not None


def test_a_wrong_pin_is_said_at_its_field_and_nobody_changes(pinned, larder) -> None:
    change_to(pinned, "CD", "2580")
    page = pinned.stack.currentWidget()
    assert "not the PIN" in page.pin.field.trouble.text()
    assert pinned.bench.person == larder.tutor
    press(pinned, Qt.Key.Key_Escape)
    press(pinned, Qt.Key.Key_Escape)
    assert pinned.stack.currentWidget() is pinned.station(pinned.current)
    assert pinned.bench.attempt("hold_lot", code=larder.pie, reason="looked odd") is not None


def test_the_pad_types_for_a_finger(pinned, larder) -> None:
    press(pinned, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    page = pinned.stack.currentWidget()
    page.list.set_value(larder.student)
    press(pinned, Qt.Key.Key_Return)
    pad = {key.text(): key for key in page.pin.findChildren(type(page.back))}
    for digit in ("1", "4", "4", "⌫", "7", "0"):
        assert min(pad[digit].width(), pad[digit].height()) >= 44
        pad[digit].click()
    page.pin.go_on.click()
    assert pinned.bench.person == larder.student


def test_after_a_rest_a_lid_lies_over_the_window_and_what_is_half_typed_stays(pinned, larder, scan) -> None:
    press(pinned, Qt.Key.Key_F1)
    field = pinned.scan_field
    field.setFocus()
    keys(pinned, "half a wor")
    station = pinned.current
    pinned.locking.rest.timeout.emit()
    assert pinned.locking.is_locked
    assert not field.isEnabled()
    assert pinned.locking.lid.geometry() == pinned.centralWidget().geometry()
    pinned.resize(1366, 768)
    assert pinned.locking.lid.geometry() == pinned.centralWidget().geometry()
    press(pinned, Qt.Key.Key_F2)  # no key reaches what is beneath
    assert pinned.current == station
    assert pinned.take_scan(larder.packs[0]) is False
    assert pinned.bench.attempt("hold_lot", code=larder.pie, reason="x") is None
    press(pinned, Qt.Key.Key_Escape)
    press(pinned, Qt.Key.Key_Escape)
    assert pinned.locking.is_locked
    pinned.locking.lid.choose(larder.tutor)
    keys(pinned, "2580")
    press(pinned, Qt.Key.Key_Return)
    assert not pinned.locking.is_locked
    assert pinned.bench.person == larder.tutor
    assert (field.text(), field.isEnabled(), field.hasFocus()) == ("half a wor", True, True)
    press(pinned, Qt.Key.Key_F2)
    assert pinned.current == "larder"


def test_the_rest_is_the_kitchen_s_own_figure_and_begins_anew_with_every_key(pinned) -> None:
    rest = pinned.locking.rest
    assert rest.interval() == 10 * 60_000
    pinned.bench.attempt("set_policy", name="lock_minutes", value="3", reason="open kitchen")
    assert rest.interval() == 3 * 60_000
    rest.stop()
    press(pinned, Qt.Key.Key_Tab)
    assert rest.isActive()
    pinned.bench.attempt("set_policy", name="lock_minutes", value="0", reason="locked room")
    press(pinned, Qt.Key.Key_Tab)
    assert not rest.isActive()


def test_a_window_that_is_opened_again_asks_for_the_pin_first(pinned, larder, qtbot) -> None:
    from gametrace.desktop.app import build_window
    from gametrace.desktop.settings import Settings

    acts.sign_out(larder.register)
    settings = Settings()
    settings.keep("person", larder.tutor)
    made = build_window(larder.register, settings=settings)
    qtbot.addWidget(made)
    assert made.locking.is_locked
    assert made.bench.person == ""
    made.locking.lid.pin.edit.setText("2580")
    made.locking.lid.pin.go_on.click()
    assert not made.locking.is_locked
    assert made.bench.person == larder.tutor
    made.close()


def test_without_any_pin_nothing_is_locked(window) -> None:
    assert window.locking is None


def test_one_s_own_pin_is_set_at_the_set_up_and_says_what_it_does_not_do(window, larder) -> None:
    window.go("setup")
    station = window.station("setup")
    station.presenter.show_section("people")
    form = station.view.pin
    assert "does not protect the register from somebody who has the file" in form.says.text()
    form.set_values({"pin": "2580", "again": "2581"})
    form.act.click()
    assert "not the same" in form.fields["again"].trouble.text()
    form.set_values({"pin": "2580", "again": "2580"})
    form.act.click()
    assert next(one for one in questions.people(larder.register) if one.code == larder.tutor).has_pin
    assert form.values() == {"pin": "", "again": ""}
    assert window.locking is not None
