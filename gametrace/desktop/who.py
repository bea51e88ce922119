"""The page that asks who is at the keyboard: a large list of names, one press."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import APART, GAP


class WhoPage(QWidget):
    """Signals: chosen(str): a person's code, '' for nobody new."""

    chosen = Signal(str)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        people = [one for one in bench.ask("people") if one.is_active]
        choices = [Choice(one.code, f"{one.initials}   {one.name}, {one.role}") for one in people]
        self.list = PickList("Who is at the keyboard", choices)
        self.list.setMaximumWidth(bench.look.px(640))
        self.list.set_value(bench.person)
        self.back = Button("Back")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.setSpacing(GAP)
        layout.addWidget(Words("Who is at the keyboard?", "title"))
        layout.addWidget(Words("Every entry carries the initials of who wrote it.", "quiet"))
        layout.addWidget(self.list, 1)
        layout.addWidget(self.back)
        self.setFocusProxy(self.list)
        self.list.picked.connect(self.chosen)
        self.back.clicked.connect(self._back)

    def _back(self) -> None:
        self.chosen.emit("")

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._back()
            return
        super().keyPressEvent(event)
