"""A large list to pick one from, with a search over it: people, suppliers, hooks, lots."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from gametrace.desktop.parts.words import shown

_VALUE = Qt.ItemDataRole.UserRole
SEARCH_FROM = 8  # rows; a shorter list needs no search


@dataclass(frozen=True, slots=True)
class Choice:
    """One row: the value given back, the words shown, and other words it is found by."""

    value: str
    words: str
    also: str = ""


class PickList(QWidget):
    """A list of choices. One press, or Enter, picks.

    Signals: picked(str): by a person. moved(str): the row under the hand, for a preview beside the list.
    """

    picked = Signal(str)
    moved = Signal(str)

    def __init__(
        self, name: str, choices: Iterable[Choice] = (), *, search: str = "Find", parent=None
    ) -> None:
        super().__init__(parent)
        self._choices: tuple[Choice, ...] = ()
        self.search = QLineEdit()
        self.search.setPlaceholderText(search)
        self.search.setAccessibleName(f"{search}: {name}")
        self.search.setMaxLength(80)
        self.list = QListWidget()
        self.list.setAccessibleName(name)
        self.list.setUniformItemSizes(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.search)
        layout.addWidget(self.list, 1)
        self.search.textChanged.connect(self._fill)
        self.search.installEventFilter(self)
        self.list.installEventFilter(self)
        self.list.itemClicked.connect(self._pick_item)
        self.list.currentItemChanged.connect(self._moved)
        self.setAccessibleName(name)
        self.set_choices(choices)

    def set_choices(self, choices: Iterable[Choice]) -> None:
        kept = self.value()
        self._choices = tuple(choices)
        self.search.setVisible(len(self._choices) >= SEARCH_FROM)
        self.setFocusProxy(self.search if len(self._choices) >= SEARCH_FROM else self.list)
        self._fill()
        self.set_value(kept)

    def value(self) -> str:
        item = self.list.currentItem()
        return item.data(_VALUE) if item is not None else ""

    def set_value(self, value: str) -> None:
        for row in range(self.list.count()):
            item = self.list.item(row)
            if item.data(_VALUE) == value:
                self.list.blockSignals(True)
                self.list.setCurrentItem(item)
                self.list.blockSignals(False)
                return

    def begin(self) -> None:
        """The first row in hand, where none is."""
        if self.list.currentRow() < 0 and self.list.count():
            self.list.blockSignals(True)
            self.list.setCurrentRow(0)
            self.list.blockSignals(False)

    def _fill(self) -> None:
        wanted = self.search.text().casefold().split()
        self.list.blockSignals(True)
        self.list.clear()
        for choice in self._choices:
            hay = f"{choice.words} {choice.also} {choice.value}".casefold()
            if all(word in hay for word in wanted):
                item = QListWidgetItem(shown(choice.words, 120))
                item.setData(_VALUE, choice.value)
                self.list.addItem(item)
        self.list.blockSignals(False)
        if wanted and self.list.count():
            self.list.setCurrentRow(0)

    def _pick_item(self, item: QListWidgetItem) -> None:
        self.picked.emit(item.data(_VALUE))

    def _moved(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.moved.emit(item.data(_VALUE))

    def eventFilter(self, watched, event) -> bool:
        """Enter picks from list or search; down leads from the search into the list."""
        if event.type() == QEvent.Type.KeyPress:
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.list.currentItem() is not None:
                self._pick_item(self.list.currentItem())
                return True
            if watched is self.search and event.key() == Qt.Key.Key_Down and self.list.count():
                self.list.setFocus(Qt.FocusReason.TabFocusReason)
                self.list.setCurrentRow(max(0, self.list.currentRow()))
                return True
        return super().eventFilter(watched, event)
