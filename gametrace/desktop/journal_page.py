"""The page shown where the journal itself is broken: what is intact, what to do. Nothing is written."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.style import APART, GAP

_LOOKED_AT = (
    "Looked at, it can be searched, traced and printed, and under Set-up, Backups a copy can be restored. "
    "What is told from the broken entry on cannot be vouched for."
)


class JournalPage(QWidget):
    """`broken` is a JournalBroken. Signals: look_wanted(), again_wanted()."""

    look_wanted = Signal()
    again_wanted = Signal()

    def __init__(self, broken: Any, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self.what = Words(broken.sentence, "title")
        self.intact = Words(broken.intact, "large")
        self.what_to_do = Words(broken.what_to_do, "large")
        self.look = BigButton("Look at it, change nothing")
        self.again = Button("Try again")
        middle = QVBoxLayout()
        middle.setSpacing(GAP)
        for words in (self.what, self.intact, self.what_to_do, Words(_LOOKED_AT, "quiet")):
            middle.addWidget(words)
        middle.addLayout(row(self.look, self.again, 1))
        inner = QWidget()
        inner.setMaximumWidth(880)
        inner.setLayout(middle)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, APART, APART, APART)
        layout.addStretch(1)
        across = row(inner)
        across.setStretch(0, 1)
        across.addStretch(0)
        layout.addLayout(across)
        layout.addStretch(2)
        self.setFocusProxy(self.look)
        self.look.clicked.connect(self.look_wanted)
        self.again.clicked.connect(self.again_wanted)
