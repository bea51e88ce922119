"""A long list in which several are ticked at once: holds to lift, skins for the collector.

Space or Enter or a press ticks. A tick is a drawn box beside the words, and the word 'ticked' for an ear.
"""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QIcon, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.words import shown

_VALUE = Qt.ItemDataRole.UserRole
_WORDS = Qt.ItemDataRole.UserRole + 1
_IS_TICKED = Qt.ItemDataRole.UserRole + 2
_KEYS = (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter)
SIDE = 28


class TickList(QListWidget):
    """Rows as (value, words). Signals: ticked(): another choice of rows."""

    ticked = Signal()

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.setAccessibleName(name)
        self.setUniformItemSizes(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setIconSize(QSize(look.px(SIDE), look.px(SIDE)))
        self.itemClicked.connect(self._turn)
        self.installEventFilter(self)
        look.changed.connect(self._draw_again)

    def set_rows(self, rows: Iterable[tuple[str, str]]) -> None:
        """Show these; what was ticked and is still there stays ticked."""
        kept, at = set(self.values()), self.currentRow()
        icons = self._icons()
        self.blockSignals(True)
        self.clear()
        for value, words in rows:
            item = QListWidgetItem(shown(words, 160))
            item.setData(_VALUE, value)
            item.setData(_WORDS, words)
            self._set(item, value in kept, icons)
            self.addItem(item)
        self.setCurrentRow(min(max(at, 0), self.count() - 1))
        self.blockSignals(False)
        self.ticked.emit()

    def values(self) -> list[str]:
        """What is ticked, in the order of the list."""
        return [item.data(_VALUE) for item in self._items() if item.data(_IS_TICKED)]

    def tick(self, value: str) -> None:
        """As a person does."""
        for item in self._items():
            if item.data(_VALUE) == value:
                self._turn(item)

    def tick_all(self, is_ticked: bool) -> None:
        icons = self._icons()
        for item in self._items():
            self._set(item, is_ticked, icons)
        self.ticked.emit()

    def eventFilter(self, watched, event) -> bool:
        if event.type() == QEvent.Type.KeyPress and event.key() in _KEYS and self.currentItem() is not None:
            self._turn(self.currentItem())
            return True
        return super().eventFilter(watched, event)

    def _items(self) -> list[QListWidgetItem]:
        return [self.item(row) for row in range(self.count())]

    def _turn(self, item: QListWidgetItem) -> None:
        self._set(item, not item.data(_IS_TICKED), self._icons())
        self.ticked.emit()

    def _set(self, item: QListWidgetItem, is_ticked: bool, icons: tuple[QIcon, QIcon]) -> None:
        item.setData(_IS_TICKED, is_ticked)
        item.setIcon(icons[is_ticked])
        said = f"{'ticked' if is_ticked else 'not ticked'}: {item.data(_WORDS)}"
        item.setData(Qt.ItemDataRole.AccessibleTextRole, said)

    def _draw_again(self) -> None:
        icons = self._icons()
        for item in self._items():
            item.setIcon(icons[bool(item.data(_IS_TICKED))])

    def _icons(self) -> tuple[QIcon, QIcon]:
        return self._icon(False), self._icon(True)

    def _icon(self, is_ticked: bool) -> QIcon:
        side = self._look.px(SIDE)
        made = QPixmap(side, side)
        made.fill(Qt.GlobalColor.transparent)
        painter = QPainter(made)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(2, 2, side - 4, side - 4)
        painter.setPen(QPen(self._look.colour("ink"), 2))
        painter.drawRect(box)
        if is_ticked:
            painter.setPen(QPen(self._look.colour("ink"), 4))
            middle = side * 0.42
            painter.drawLine(int(side * 0.22), int(side * 0.52), int(middle), int(side * 0.74))
            painter.drawLine(int(middle), int(side * 0.74), int(side * 0.8), int(side * 0.26))
        painter.end()
        return QIcon(made)
