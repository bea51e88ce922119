"""A number pad to press with a glove: it types into one field, as the keys would."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.look import Look

BACK = "⌫"
KEYS = ("7", "8", "9", BACK, "4", "5", "6", ".", "1", "2", "3", "0")
_ACROSS, _KEY = 4, 50


class NumberPad(QWidget):
    """Signals: struck(str): a figure, the point, or BACK."""

    struck = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.keys: dict[str, QPushButton] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        for at, key in enumerate(KEYS):
            button = QPushButton(key)
            button.setProperty("role", "choice")
            button.setAccessibleName({BACK: "Take the last figure back", ".": "Point"}.get(key, key))
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the field keeps the hand; keys type there already
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
            button.setMinimumHeight(look.px(_KEY))
            button.clicked.connect(partial(self.struck.emit, key))
            self.keys[key] = button
            grid.addWidget(button, at // _ACROSS, at % _ACROSS)
