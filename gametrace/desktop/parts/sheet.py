"""A surface with a title and space, to part a page without boxes in boxes; and the column that scrolls."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLayout, QScrollArea, QVBoxLayout, QWidget

from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import GAP


class Sheet(QFrame):
    """A surface on the ground, title first. Add to it with `add`."""

    def __init__(self, title: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "sheet")
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(GAP, GAP, GAP, GAP)
        self.body.setSpacing(GAP)
        self.title = Words(title, "heading", parent=self)
        self.title.setVisible(bool(title))
        self.body.addWidget(self.title)

    def add(self, item: QWidget | QLayout, stretch: int = 0) -> None:
        if isinstance(item, QWidget):
            self.body.addWidget(item, stretch)
        else:
            self.body.addLayout(item, stretch)

    def add_stretch(self) -> None:
        self.body.addStretch(1)

    def say_title(self, title: str) -> None:
        self.title.say(title)
        self.title.setVisible(bool(title))


class ScrollColumn(QScrollArea):
    """A column that scrolls down and never sideways; keeps the focused field in sight."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.inside = QWidget()
        self.start_anew()

    def start_anew(self) -> None:
        """Empty it, to be filled with other things. What it held is let go."""
        self.inside = QWidget()
        self.inside.setProperty("role", "ground")
        self.body = QVBoxLayout(self.inside)
        self.body.setContentsMargins(0, 0, GAP, 0)
        self.body.setSpacing(GAP)
        self.setWidget(self.inside)  # Qt lets the old one go

    def add(self, item: QWidget | QLayout, stretch: int = 0) -> None:
        if isinstance(item, QWidget):
            self.body.addWidget(item, stretch)
        else:
            self.body.addLayout(item, stretch)

    def add_stretch(self) -> None:
        self.body.addStretch(1)

    def minimumSizeHint(self):
        """As wide as what is inside needs, for it never scrolls sideways."""
        hint = super().minimumSizeHint()
        bar = self.verticalScrollBar().sizeHint().width()
        hint.setWidth(self.inside.minimumSizeHint().width() + bar)
        return hint
