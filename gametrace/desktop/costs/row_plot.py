"""Ground for the plots that are rows one under another: one is chosen, and is in sight."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT

ROW = 44  # px: each row is also what a finger meets


class RowPlot(QWidget):
    """Signals: moved(int): another row is chosen."""

    moved = Signal(int)
    head = 0  # px above the first row

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.count = 0
        self.chosen = 0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self._sized)

    def sizeHint(self) -> QSize:
        return QSize(self.look.px(420), self.look.px(self.head + max(self.count, 1) * ROW) + 8)

    def set_count(self, count: int) -> None:
        """So many rows; what was chosen stays where it can."""
        self.count = count
        self._sized()
        self.choose(self.chosen)

    def _sized(self) -> None:
        self.setFixedHeight(self.sizeHint().height())
        self.updateGeometry()
        self.update()

    def choose(self, at: int) -> None:
        self.chosen = min(max(at, 0), max(self.count - 1, 0))
        if self.count:
            self.setAccessibleDescription(self.spoken(self.chosen))
            self._in_sight()
        self.update()
        self.moved.emit(self.chosen)

    def spoken(self, at: int) -> str:
        """One row in words."""
        return ""

    def _in_sight(self) -> None:
        parent = self.parentWidget()
        while parent is not None and not isinstance(parent, QScrollArea):
            parent = parent.parentWidget()
        inside = parent.widget() if parent is not None else None
        if parent is not None and inside is not None and self.isVisible():
            spot = self.mapTo(inside, self.row_box(self.chosen).center().toPoint())
            parent.ensureVisible(spot.x(), spot.y(), 0, self.look.px(ROW))

    def row_box(self, at: int) -> QRectF:
        px = self.look.px
        return QRectF(4, px(self.head) + at * px(ROW), self.width() - 8, px(ROW))

    def keyPressEvent(self, event) -> None:
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(event.key())
        if step:
            self.choose(self.chosen + step)
        elif event.key() == Qt.Key.Key_Home:
            self.choose(0)
        elif event.key() == Qt.Key.Key_End:
            self.choose(self.count - 1)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event) -> None:
        at = int((event.position().y() - self.look.px(self.head)) // self.look.px(ROW))
        if 0 <= at < self.count:
            self.choose(at)
        super().mousePressEvent(event)

    def paintEvent(self, event) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), self.look.colour("sheet"))
        painter.setFont(self.look.font(TEXT))
        if self.count:
            painter.fillRect(self.row_box(self.chosen), self.look.colour("chosen"))
        self.paint_head(painter)
        for at in range(self.count):
            self.paint_row(painter, at, self.row_box(at))
        if self.hasFocus():
            painter.setPen(QPen(self.look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))

    def paint_head(self, painter: QPainter) -> None:
        """What stands over the rows."""

    def paint_row(self, painter: QPainter, at: int, box: QRectF) -> None:
        """One row in its box."""
