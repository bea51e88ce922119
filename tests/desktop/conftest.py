"""What every test of the window shares: a look, and keys struck at chosen times."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QKeyEvent

from gametrace.desktop.look import Look, dress

HERE = Path(__file__).parent

# Qt's offscreen platform says this whenever a window with a least size is shown; it means nothing.
OFFSCREEN_SAYS = "This plugin does not support propagateSizeHints"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tolerate the one message of the offscreen platform, in the tests of the window only."""
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker(pytest.mark.qt_log_ignore(OFFSCREEN_SAYS))


@pytest.fixture(scope="session")
def look(qapp) -> Look:
    made = Look()
    dress(qapp, made)
    return made


class Struck:
    """A clock for keys: `at` is the time the next key is struck."""

    def __init__(self) -> None:
        self.at = 1000
        self.step = 0

    def __call__(self, event: QKeyEvent) -> int:
        now = self.at
        self.at += self.step
        return now


@pytest.fixture
def struck() -> Struck:
    return Struck()
