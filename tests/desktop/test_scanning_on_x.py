"""The same watcher with keys from a real X server, whose own times tell a scanner from a person.

Runs under xvfb with xdotool: QT_QPA_PLATFORM=xcb xvfb-run -a python -m pytest -m x11 tests/desktop
"""

from __future__ import annotations

import shutil
import subprocess

import pytest
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget

from gametrace.desktop.scanning import Scanning

pytestmark = [
    pytest.mark.x11,
    pytest.mark.skipif(shutil.which("xdotool") is None, reason="needs xdotool to strike keys"),
]

KEYSYMS = {"-": "minus", " ": "space"}


class Bench:
    def __init__(self, qtbot) -> None:
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.line, self.button = QLineEdit(), QPushButton("Reject")
        layout = QVBoxLayout(self.window)
        layout.addWidget(self.line)
        layout.addWidget(self.button)
        self.scans: list[str] = []
        self.presses: list[bool] = []
        self.scanning = Scanning(self.window)
        self.scanning.scanned.connect(self.scans.append)
        self.button.clicked.connect(self.presses.append)
        self.scanning.start()
        self.window.show()
        self.window.activateWindow()
        qtbot.waitUntil(self.window.isActiveWindow)


@pytest.fixture
def bench(qtbot):
    made = Bench(qtbot)
    yield made
    made.scanning.stop()


def strike(text: str, delay_ms: int) -> None:
    """Keys into the X server, then Enter; returns when the last is struck, before any is looked at here."""
    keys = [KEYSYMS.get(letter, letter) for letter in text]
    subprocess.run(["xdotool", "key", "--delay", str(delay_ms), *keys, "Return"], check=True, timeout=30)


@pytest.mark.parametrize("delay_ms", [2, 8, 15])
def test_a_scanner_is_heard_over_a_field_and_over_a_button(bench: Bench, qtbot, delay_ms: int) -> None:
    bench.line.setFocus()
    strike("26-00417-K", delay_ms)
    qtbot.waitUntil(lambda: bench.scans == ["26-00417-K"])
    bench.button.setFocus()
    strike("26-00418-9", delay_ms)
    qtbot.waitUntil(lambda: len(bench.scans) == 2)
    assert bench.line.text() == ""
    assert bench.presses == []


def test_a_person_whose_keys_wait_for_a_busy_program_is_still_a_person(bench: Bench, qtbot) -> None:
    bench.line.setFocus()
    strike("fallow doe", 90)  # a second of keys, all looked at together afterwards
    qtbot.waitUntil(lambda: bench.line.text() == "fallow doe")
    assert bench.scans == []
