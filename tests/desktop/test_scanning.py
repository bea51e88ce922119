"""A scanner is heard whichever widget has the focus, and a person's typing arrives whole and in order."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton, QSpinBox, QVBoxLayout, QWidget

from gametrace.desktop.scanning import Scanning, looks_like_code

CODE = "26-00417-K"


class Bench:
    """A window with one of each sort of widget, and a watcher."""

    def __init__(self, qtbot, struck) -> None:
        self.window = QWidget()
        qtbot.addWidget(self.window)
        layout = QVBoxLayout(self.window)
        self.line, self.spin, self.button = QLineEdit(), QSpinBox(), QPushButton("Reject")
        self.button.setAutoDefault(True)
        self.spin.setMaximum(99999999)
        for widget in (self.line, self.spin, self.button):
            layout.addWidget(widget)
        self.pressed: list[str] = []
        self.button.clicked.connect(self._note)
        self.struck = struck
        self.scanning = Scanning(self.window, stamp=struck)
        self.scans: list[str] = []
        self.scanning.scanned.connect(self.scans.append)
        self.scanning.start()
        self.window.show()
        self.window.activateWindow()
        qtbot.waitUntil(self.window.isActiveWindow)

    def _note(self) -> None:
        self.pressed.append("pressed")

    def focus(self, widget: QWidget) -> None:
        widget.setFocus()
        assert widget.hasFocus()

    def strike(self, text: str, step: int, *, enter: bool = True) -> None:
        """Keys go in at the window, the whole way a real key goes."""
        self.struck.step = step
        handle = self.window.windowHandle()
        for letter in text:
            QTest.keyClick(handle, letter)
        if enter:
            QTest.keyClick(handle, Qt.Key.Key_Return)


@pytest.fixture
def bench(qtbot, struck):
    made = Bench(qtbot, struck)
    yield made
    made.scanning.stop()


@pytest.mark.parametrize("which", ["line", "spin", "button"])
def test_a_scan_is_heard_and_touches_nothing(bench: Bench, which: str) -> None:
    bench.focus(getattr(bench, which))
    bench.strike(CODE, step=4)
    assert bench.scans == [CODE]
    assert bench.line.text() == ""
    assert bench.spin.value() == 0
    assert bench.pressed == []


def test_a_scan_is_heard_when_nothing_has_the_focus(bench: Bench) -> None:
    if (focus := bench.window.focusWidget()) is not None:
        focus.clearFocus()
    bench.strike(CODE, step=4)
    assert bench.scans == [CODE]


@pytest.mark.parametrize("step", [36, 80, 200])
def test_a_persons_typing_arrives_whole_and_enter_works(bench: Bench, qtbot, step: int) -> None:
    entered: list[str] = []
    bench.line.returnPressed.connect(partial_append(entered, bench.line))
    bench.focus(bench.line)
    bench.strike("haunch of 417", step=step)
    assert entered == ["haunch of 417"]
    assert bench.scans == []


def partial_append(into: list[str], line: QLineEdit):
    def note() -> None:
        into.append(line.text())

    return note


def test_a_person_who_stops_typing_sees_the_last_letter_too(bench: Bench, qtbot) -> None:
    bench.focus(bench.line)
    bench.strike("abc", step=10, enter=False)
    qtbot.waitUntil(lambda: bench.line.text() == "abc", timeout=1000)


def test_fast_fingers_short_of_six_are_still_a_person(bench: Bench) -> None:
    bench.focus(bench.spin)
    bench.spin.selectAll()
    bench.strike("12345", step=5)
    assert bench.spin.value() == 12345
    assert bench.scans == []


def test_keys_that_pile_up_while_the_program_is_busy_are_not_a_scan(bench: Bench) -> None:
    # They are processed in one go here, but each was struck 120 ms after the last.
    bench.focus(bench.line)
    bench.strike("fallow doe", step=120)
    assert bench.scans == []
    assert bench.line.text() == "fallow doe"


def test_backspace_keeps_its_place_among_the_letters(bench: Bench) -> None:
    bench.focus(bench.line)
    bench.strike("abx", step=10, enter=False)
    QTest.keyClick(bench.window.windowHandle(), Qt.Key.Key_Backspace)
    bench.strike("c", step=60, enter=True)
    assert bench.line.text() == "abc"


def test_enter_on_a_button_presses_it_when_a_person_does(bench: Bench) -> None:
    bench.focus(bench.button)
    QTest.keyClick(bench.window.windowHandle(), Qt.Key.Key_Return)
    QTest.keyClick(bench.window.windowHandle(), Qt.Key.Key_Space)
    bench.scanning.flush()
    assert bench.pressed == ["pressed", "pressed"]


def test_the_same_scan_twice_in_a_second_counts_once(bench: Bench) -> None:
    bench.focus(bench.button)
    bench.strike(CODE, step=4)
    bench.struck.at += 300
    bench.strike(CODE, step=4)
    assert bench.scans == [CODE]
    bench.struck.at += 1500
    bench.strike(CODE, step=4)
    assert bench.scans == [CODE, CODE]


def test_two_different_scans_in_a_second_are_two(bench: Bench) -> None:
    bench.focus(bench.button)
    bench.strike(CODE, step=4)
    bench.strike("26-00418-9", step=4)
    assert bench.scans == [CODE, "26-00418-9"]


def test_a_suppliers_tag_scanned_into_a_text_field_is_typed_there_without_enter(bench: Bench) -> None:
    entered: list[str] = []
    bench.line.returnPressed.connect(partial_append(entered, bench.line))
    bench.focus(bench.line)
    bench.strike("UK-FEN/0417", step=4)
    assert bench.line.text() == "UK-FEN/0417"
    assert bench.scans == []
    assert entered == []


def test_a_suppliers_tag_scanned_elsewhere_is_a_scan(bench: Bench) -> None:
    bench.focus(bench.button)
    bench.strike("UK-FEN/0417", step=4)
    assert bench.scans == ["UK-FEN/0417"]


def test_capitals_come_with_the_shift_key_between_and_are_still_a_scan(bench: Bench) -> None:
    bench.focus(bench.line)
    bench.struck.step = 4
    handle = bench.window.windowHandle()
    for letter in CODE:
        QTest.keyPress(handle, Qt.Key.Key_Shift)
        QTest.keyClick(handle, letter, Qt.KeyboardModifier.ShiftModifier)
        QTest.keyRelease(handle, Qt.Key.Key_Shift)
    QTest.keyClick(handle, Qt.Key.Key_Return)
    assert bench.scans == [CODE]


def test_a_letter_of_a_scan_sets_off_no_shortcut(bench: Bench) -> None:
    fired: list[str] = []
    shortcut = QShortcut(QKeySequence("K"), bench.window)
    shortcut.activated.connect(partial_append(fired, bench.line))
    bench.focus(bench.button)
    bench.strike(CODE, step=4)
    assert fired == []
    assert bench.scans == [CODE]


def test_a_field_that_goes_away_with_letters_held_does_no_harm(bench: Bench, qtbot) -> None:
    bench.focus(bench.line)
    bench.strike("ab", step=5, enter=False)
    bench.line.deleteLater()
    qtbot.waitUntil(lambda: bench.scanning.held_text == "", timeout=1000)


@pytest.mark.parametrize(
    ("text", "is_code"),
    [
        ("26-00417-K", True),
        ("2600417k", True),
        ("26 00417 K", True),
        ("26-00417-*", True),
        ("UK-FEN/0417", False),
        ("fallow doe", False),
        ("", False),
        ("0417", False),
        ("٢٦-٠٠٤١٧-K", False),
    ],
)
def test_the_shape_of_a_code_is_known_without_the_register(text: str, is_code: bool) -> None:
    assert looks_like_code(text) is is_code
