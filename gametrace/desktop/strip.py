"""The second row: the animal's way from field to plate as one painted line, a node for each station on it.

A node fills as things wait there; the current one is large. Trace, Visit and Today stand beside the line.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.stations import ON_STRIP, Entry
from gametrace.desktop.style import LARGE, TEXT

FULL_AT = 8  # things waiting that fill a node
HEIGHT = 80
_LINE_Y = 26
_RADIUS, _RADIUS_CURRENT = 11, 17


class Node(QAbstractButton):
    """One station on the strip: its node on the line, its word, and what waits under it."""

    def __init__(self, look: Look, entry: Entry, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.entry = look, entry
        self.count, self.waiting = 0, ""
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.set_waiting(0, "")

    def set_waiting(self, count: int, words: str) -> None:
        self.count, self.waiting = count, words
        self.setAccessibleName(f"{self.entry.word}, {self.entry.key}" + (f": {words}" if words else ""))
        self.updateGeometry()
        self.update()

    def _texts_left(self) -> int:
        return self._look.px(2 * _RADIUS_CURRENT + 10)

    def sizeHint(self) -> QSize:
        metrics = QFontMetrics(self._look.font(LARGE, bold=True))
        small = QFontMetrics(self._look.font(TEXT))
        wide = max(metrics.horizontalAdvance(self.entry.word), small.horizontalAdvance(self.waiting))
        return QSize(self._texts_left() + wide + self._look.px(14), self._look.px(HEIGHT))

    def minimumSizeHint(self) -> QSize:
        metrics = QFontMetrics(
            self._look.font(LARGE if self.isChecked() else TEXT + 1, bold=self.isChecked())
        )
        wide = metrics.horizontalAdvance(self.entry.word)
        return QSize(self._texts_left() + wide + self._look.px(4), self._look.px(HEIGHT))

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        current = self.isChecked()
        radius = look.px(_RADIUS_CURRENT if current else _RADIUS)
        centre = QPointF(look.px(_RADIUS_CURRENT + 3), look.px(_LINE_Y))
        font = look.font(LARGE if current else TEXT + 1, bold=current)
        metrics = QFontMetrics(font)
        left = self._texts_left()
        word_end = left + metrics.horizontalAdvance(self.entry.word) + look.px(8)
        if self.entry.on_line:
            painter.setPen(QPen(look.colour("quiet"), look.px(2)))
            painter.drawLine(QPointF(0, centre.y()), QPointF(centre.x() - radius, centre.y()))
            painter.drawLine(QPointF(word_end, centre.y()), QPointF(self.width(), centre.y()))
        self._paint_node(painter, centre, radius, current)
        painter.setFont(font)
        painter.setPen(look.colour("ink"))
        box = QRectF(left, 0, self.width() - left, 2 * centre.y())
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.entry.word)
        self._paint_waiting(painter, left)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 4, 4)

    def _paint_node(self, painter: QPainter, centre: QPointF, radius: float, current: bool) -> None:
        look = self._look
        box = QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius)
        painter.setPen(QPen(look.colour("ink"), look.px(3 if current else 2)))
        painter.setBrush(look.colour("sheet"))
        painter.drawEllipse(box)
        if self.count > 0:
            full = min(1.0, 0.2 + 0.8 * self.count / FULL_AT)
            clip = QPainterPath()
            clip.addEllipse(box.adjusted(2, 2, -2, -2))
            level = box.bottom() - full * box.height()
            painter.save()
            painter.setClipPath(clip)
            painter.fillRect(
                QRectF(box.left(), level, box.width(), box.bottom() - level), look.colour("steel")
            )
            painter.restore()

    def _paint_waiting(self, painter: QPainter, left: int) -> None:
        look = self._look
        font = look.font(TEXT)
        metrics = QFontMetrics(font)
        painter.setFont(font)
        painter.setPen(look.colour("quiet"))
        words = self.waiting or self.entry.key
        room = self.width() - left - 2
        if metrics.horizontalAdvance(words) > room:
            words = (
                words.split(" ")[0]
                if self.count
                else metrics.elidedText(words, Qt.TextElideMode.ElideRight, room)
            )
        box = QRectF(left, look.px(2 * _LINE_Y - 6), room + 2, look.px(28))
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)


class _End(QWidget):
    """'field' or 'plate' at an end of the line."""

    def __init__(self, look: Look, word: str, *, line_after: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self._word, self._line_after = look, word, line_after
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        wide = QFontMetrics(self._look.font(TEXT)).horizontalAdvance(self._word)
        return QSize(wide + self._look.px(28), self._look.px(HEIGHT))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(16), self._look.px(HEIGHT))

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        font = look.font(TEXT)
        wide = QFontMetrics(font).horizontalAdvance(self._word)
        if wide > self.width():  # large type on a narrow screen: the stations need the room
            return
        middle = look.px(_LINE_Y)
        painter.setPen(QPen(look.colour("quiet"), look.px(2)))
        if self._line_after:
            painter.drawLine(wide + look.px(8), middle, self.width(), middle)
        else:
            painter.drawLine(0, middle, self.width() - wide - look.px(8), middle)
        painter.setFont(font)
        painter.setPen(look.colour("quiet"))
        side = Qt.AlignmentFlag.AlignLeft if self._line_after else Qt.AlignmentFlag.AlignRight
        painter.drawText(
            QRectF(0, 0, self.width(), 2 * middle), side | Qt.AlignmentFlag.AlignVCenter, self._word
        )


class Strip(QWidget):
    """The whole row. Left and right walk along it.

    Signals: wanted(str): a station's name.
    """

    wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._nodes: dict[str, Node] = {}
        self._layout = QHBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self._layout.addWidget(_End(look, "field", line_after=True))
        was_on_line = True
        for entry in ON_STRIP:
            if was_on_line and not entry.on_line:
                self._layout.addWidget(_End(look, "plate", line_after=False))
                self._layout.addSpacing(look.px(24))
            was_on_line = entry.on_line
            node = Node(look, entry)
            node.clicked.connect(self._clicked)
            self._nodes[entry.name] = node
            self._layout.addWidget(node, 3 if entry.on_line else 2)
        self.setAccessibleName("Stations")
        look.changed.connect(self.update)

    def node(self, name: str) -> Node:
        return self._nodes[name]

    def set_current(self, name: str) -> None:
        for node in self._nodes.values():
            node.setAutoExclusive(False)
            node.setChecked(node.entry.name == name)
            node.setAutoExclusive(True)
            node.updateGeometry()

    def set_waiting(self, counts: dict[str, int], words: dict[str, str]) -> None:
        for name, node in self._nodes.items():
            node.set_waiting(counts.get(name, 0), words.get(name, ""))

    def _clicked(self) -> None:
        node = self.sender()
        if isinstance(node, Node):
            self.wanted.emit(node.entry.name)
