"""Text of many lines to read and to copy, as high as it is long; the column it stands in scrolls."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QPlainTextEdit, QSizePolicy, QWidget


class LongText(QPlainTextEdit):
    """Read-only; Tab leaves it, the arrows and Ctrl+C work in it."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setReadOnly(True)
        self.setTabChangesFocus(True)
        self.setAccessibleName(name)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )

    def say(self, text: str) -> None:
        if text != self.toPlainText():
            self.setPlainText(text)
        self._grow()

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self._grow()

    def _grow(self) -> None:
        """Lines as they wrap now; a document of plain text counts its height in lines."""
        lines = int(self.document().size().height()) + 1
        self.setFixedHeight(max(44, lines * self.fontMetrics().lineSpacing() + 2 * self.frameWidth() + 16))

    def sizeHint(self) -> QSize:
        return QSize(200, self.height())
