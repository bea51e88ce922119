"""What happened inside the program, in full, for whoever will mend it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QApplication, QPlainTextEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.style import APART, GAP

if TYPE_CHECKING:
    from gametrace.desktop.frame import Window


class BugPage(QWidget):
    """Signals: closed()."""

    closed = Signal()

    def __init__(self, story: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self.text = QPlainTextEdit(story)
        self.text.setReadOnly(True)
        self.text.setAccessibleName("What happened")
        self.copy = Button("Copy")
        self.back = BigButton("Back to work")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.setSpacing(GAP)
        layout.addWidget(Words("The program made a mistake", "title"))
        layout.addWidget(
            Words(
                "Everything acknowledged before is on disk. The act that failed was not done; try it again."
            )
        )
        layout.addWidget(self.text, 1)
        layout.addLayout(row(self.back, self.copy, 1))
        self.copy.clicked.connect(self._copy)
        self.back.clicked.connect(self.closed)

    def _copy(self) -> None:
        QApplication.clipboard().setText(self.text.toPlainText())


def show_bug(window: Window) -> None:
    """Over the stations, until it is closed; then the station that was on show."""
    page = BugPage(window.bench.last_bug)
    page.closed.connect(partial(_close, window, page))
    window.stack.addWidget(page)
    window.stack.setCurrentWidget(page)


def _close(window: Window, page: BugPage) -> None:
    window.stack.removeWidget(page)
    page.deleteLater()
    window.go(window.current or "today")
