"""A larder ready for its first delivery, and a person's hands at the whole window."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from gametrace.desktop.app import build_window
from gametrace.desktop.delivery.view import DeliveryStation
from gametrace.desktop.frame import Window
from gametrace.register import acts
from gametrace.register.opening import Register, open_register

NOW = datetime(2026, 11, 20, 9, 0, tzinfo=UTC)


def stopped_clock() -> datetime:
    return NOW


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    """Two people, two suppliers, a chill with three hooks and a shelf; invented."""
    with open_register(tmp_path / "door.register", clock=stopped_clock) as made:
        acts.set_up_larder(made, name="Fenmoor larder", address="Fen Lane", jurisdiction="england-wales")
        tutor = acts.enrol_person(made, name="Ada Brook", initials="AB", role="tutor").code
        acts.enrol_person(made, by=tutor, name="Cal Dunn", initials="CD", role="technician")
        acts.add_supplier(
            made,
            by=tutor,
            name="Hollin Estate",
            address="Hollin",
            route="wild-direct",
            trained_hunter="Rob Finch",
            certificate_number="TH-2201",
        )
        acts.add_supplier(
            made, by=tutor, name="Merrow Park", address="Merrow", route="park-as-wild", origin="park"
        )
        acts.add_store(
            made, by=tutor, name="Chill 1", sort="chill", rails=[("rail 1", 3)], shelves=["shelf 1"]
        )
        yield made


def has_a_hand() -> bool:
    return QApplication.focusWidget() is not None


@pytest.fixture
def window(qtbot, register: Register, tmp_path: Path) -> Iterator[Window]:
    made = build_window(register, papers=tmp_path / "papers")
    qtbot.addWidget(made)
    made.bench.set_person("P001")
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.go("delivery")
    qtbot.waitUntil(has_a_hand)
    yield made
    made.close()


@pytest.fixture
def station(window: Window) -> DeliveryStation:
    made = window.station("delivery")
    assert isinstance(made, DeliveryStation)
    return made


class Hands:
    """A person at the keys: one key every 120 ms, so that nobody takes them for a scanner."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self._at = 1000
        window.scanning._stamp = self._stamp

    def _stamp(self, event: object) -> int:
        self._at += 120
        return self._at

    def key(self, key: Qt.Key, times: int = 1, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        for _ in range(times):
            QTest.keyClick(self.window.windowHandle(), key, modifier)

    def enter(self, times: int = 1) -> None:
        self.key(Qt.Key.Key_Return, times)

    def say_it(self, times: int = 1) -> None:
        """Space says what is under the hand, Enter goes on."""
        for _ in range(times):
            self.key(Qt.Key.Key_Space)
            self.enter()

    def take_in(self) -> None:
        self.key(Qt.Key.Key_Return, modifier=Qt.KeyboardModifier.ControlModifier)

    def write(self, text: str, *, enter: bool = True) -> None:
        for letter in text:
            QTest.keyClick(self.window.windowHandle(), letter)
        self.window.scanning.flush()
        if enter:
            self.enter()

    def focus(self) -> str:
        """What an ear would be told of where the hand is."""
        widget = self.window.focusWidget()
        return widget.accessibleName() if widget is not None else ""


@pytest.fixture
def hands(window: Window) -> Hands:
    return Hands(window)
