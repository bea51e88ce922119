"""Labels and the few layouts every page uses. All text is plain text: markup in a name stays a name."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from gametrace.desktop.style import GAP

# Marks that turn the direction of the text around them, and control characters.
_UNSEEN = re.compile("[\u202a-\u202e\u2066-\u2069\u200e\u200f\x00-\x08\x0b-\x1f\x7f]")
_LONG_RUN = re.compile(r"(\S{24})(?=\S)")


def shown(text: str, limit: int = 400) -> str:
    """Any text made fit for a label: nothing unseen, not endless, and able to wrap."""
    plain = _UNSEEN.sub("", text)
    if len(plain) > limit:
        plain = plain[: limit - 1] + "…"
    return _LONG_RUN.sub("\\1\u200b", plain)


class Words(QLabel):
    """A label of plain text that wraps and selects nothing."""

    def __init__(self, text: str = "", role: str = "", *, wrap: bool = True, parent: QWidget | None = None):
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(wrap)
        if wrap:
            self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        if role:
            self.setProperty("role", role)
        self.say(text)

    def say(self, text: str) -> None:
        """Show another text."""
        self.setText(shown(text))


def set_role(widget: QWidget, role: str) -> None:
    """Give a widget another look of the style sheet."""
    if widget.property("role") != role:
        widget.setProperty("role", role)
        repolish(widget)


def repolish(widget: QWidget) -> None:
    """Let the style sheet look at a widget's properties again."""
    widget.style().unpolish(widget)
    widget.style().polish(widget)


def rule(parent: QWidget | None = None) -> QFrame:
    """A thin line across."""
    line = QFrame(parent)
    line.setProperty("role", "rule")
    line.setFixedHeight(1)
    return line


def upright(parent: QWidget | None = None) -> QFrame:
    """A thin line down."""
    line = QFrame(parent)
    line.setProperty("role", "upright")
    line.setFixedWidth(1)
    return line


def column(*items: QWidget | QLayout | int, gap: int = GAP, margin: int = 0) -> QVBoxLayout:
    """Things under each other; a number is a stretch."""
    return _filled(QVBoxLayout(), items, gap, margin)


def row(*items: QWidget | QLayout | int, gap: int = GAP, margin: int = 0) -> QHBoxLayout:
    """Things side by side; a number is a stretch."""
    return _filled(QHBoxLayout(), items, gap, margin)


def _filled(layout, items, gap: int, margin: int):
    layout.setSpacing(gap)
    layout.setContentsMargins(margin, margin, margin, margin)
    for item in items:
        if isinstance(item, QWidget):
            layout.addWidget(item)
        elif isinstance(item, QLayout):
            layout.addLayout(item)
        else:
            layout.addStretch(item)
    return layout


def clear(layout: QBoxLayout | QLayout) -> None:
    """Take everything out of a layout and let it go."""
    while layout.count():
        item = layout.takeAt(0)
        if widget := item.widget():
            widget.hide()
            widget.setParent(None)
            widget.deleteLater()
        elif inner := item.layout():
            clear(inner)
            inner.deleteLater()
