"""The supplier: a list to pick from, and once picked one line with a way back to the list."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import Words, column, row


class SupplierPick(QWidget):
    """`value()` is a supplier's code, '' until one is picked.

    Signals: picked(str): by a person.
    """

    picked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value = ""
        self._words: dict[str, str] = {}
        self.list = PickList("Supplier", search="Find a supplier")
        self.list.setFixedHeight(196)
        self.chosen = Words("", "strong")
        self.other = Button("Change", name="Choose another supplier")
        self._line = QWidget()
        self._line.setLayout(row(self.chosen, self.other))
        self._line.layout().setStretch(0, 1)
        self.setLayout(column(self._line, self.list, gap=0))
        self.list.picked.connect(self._picked)
        self.other.clicked.connect(self._choose_again)
        self.set_value("")

    def set_choices(self, choices: Iterable[Choice]) -> None:
        given = tuple(choices)
        self._words = {choice.value: choice.words for choice in given}
        self.list.set_choices(given)
        self.set_value(self._value if self._value in self._words else "")

    def value(self) -> str:
        return self._value

    def set_value(self, code: str) -> None:
        """Show one as picked, or the list, without telling."""
        self._value = code
        self.chosen.say(self._words.get(code, code))
        self._line.setVisible(bool(code))
        self.list.setVisible(not code)
        self.setFocusProxy(self.other if code else self.list)
        if code:
            self.list.set_value(code)

    def _picked(self, code: str) -> None:
        self.set_value(code)
        self.picked.emit(code)

    def _choose_again(self) -> None:
        kept = self._value
        self._line.hide()
        self.list.show()
        self.setFocusProxy(self.list)
        self.list.set_value(kept)
        self.list.setFocus()
