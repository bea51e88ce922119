"""The paper as it will print: one page as large as there is room, and the keys that turn it."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, column, row


class Leaf(QWidget):
    """One page, never larger than at arm's length, its edge drawn so that a label is seen as a label."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._image: Any = None
        self._mm = (0.0, 0.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(look.px(200), look.px(120))
        self.setAccessibleName("The page as it will print")

    def show_page(self, image: Any, page_mm: tuple[float, float]) -> None:
        self._image, self._mm = image, page_mm
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(560), self._look.px(420))

    def paintEvent(self, event) -> None:
        if self._image is None or not all(self._mm):
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        wide, high = self._mm
        scale = min((self.width() - 2) / wide, (self.height() - 2) / high, self._look.px(9))
        target = QRectF((self.width() - wide * scale) / 2, 1, wide * scale, high * scale)
        painter.fillRect(target, QColor("white"))
        painter.drawImage(target, self._image)
        painter.setPen(self._look.colour("line"))
        painter.drawRect(target)
        painter.end()


class Preview(QWidget):
    """Signals: turned(int): another page is wanted, counted from 0."""

    turned = Signal(int)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.leaf = Leaf(look)
        self.says = Words("", "quiet", wrap=False)
        self.before = Button("Page before", name="The page before, Page up")
        self.after = Button("Next page", name="The next page, Page down")
        self._page, self._pages = 0, 0
        self.turning = QWidget()
        self.turning.setLayout(row(self.before, self.says, self.after, 1, gap=8))
        self.setLayout(column(self.leaf, self.turning, gap=8))
        self.layout().setStretch(0, 1)
        self.before.clicked.connect(self.turn_back)
        self.after.clicked.connect(self.turn_on)
        self.say_nothing()

    def say_nothing(self) -> None:
        self._page, self._pages = 0, 0
        self.leaf.show_page(None, (0, 0))
        self.turning.hide()

    def show_page(self, image: Any, page_mm: tuple[float, float], page: int, pages: int) -> None:
        self._page, self._pages = page, pages
        self.leaf.show_page(image, page_mm)
        self.says.say(f"page {page + 1} of {pages}")
        self.turning.setVisible(pages > 1)
        self.before.setEnabled(page > 0)
        self.after.setEnabled(page < pages - 1)

    def turn_back(self) -> None:
        if self._page > 0:
            self.turned.emit(self._page - 1)

    def turn_on(self) -> None:
        if self._page < self._pages - 1:
            self.turned.emit(self._page + 1)

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_PageUp:
            self.turn_back()
        elif event.key() == Qt.Key.Key_PageDown:
            self.turn_on()
        else:
            super().keyPressEvent(event)
