"""The small line under a store's name: the temperature of its last day, gaps as gaps, the last in words."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.cold.series import Series, pixels
from gametrace.desktop.look import Look
from gametrace.desktop.parts.words import Words, row, set_role

WIDTH, HEIGHT = 200, 34


@dataclass(frozen=True, slots=True)
class StoreCold:
    """A store's last day, and what is said of its last reading."""

    words: str
    is_amber: bool
    readings: tuple[tuple[int, int], ...]
    first_at: int
    last_at: int
    limit_tenths_c: int
    longest_gap: int


class DayLine(QWidget):
    """The last day drawn small: the limit dashed, what lies above it thick."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._cold: StoreCold | None = None
        self._series = Series()
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(WIDTH), self._look.px(HEIGHT))

    def set_cold(self, cold: StoreCold, series: Series) -> None:
        self._cold, self._series = cold, series
        self.setAccessibleName(f"The last day: {cold.words}")
        self.update()

    def paintEvent(self, event) -> None:
        cold = self._cold
        if cold is None or not len(self._series):
            return
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(3, 4, -3, -4)
        low, high = self._series.ends(cold.first_at, cold.last_at) or (0, 0)
        low, high = min(low, cold.limit_tenths_c) - 5, max(high, cold.limit_tenths_c) + 5
        limit = box.bottom() - (cold.limit_tenths_c - low) * box.height() / (high - low)
        painter.setPen(QPen(look.colour("quiet"), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(box.left(), limit), QPointF(box.right(), limit))
        stroke: list[QPointF] = []
        columns = pixels(self._series, cold.first_at, cold.last_at, int(box.width()), cold.longest_gap)
        for one in columns:
            if one.begins:
                self._draw(painter, stroke)
                stroke = []
            for tenths in (one.lowest, one.highest, one.last):
                down = box.bottom() - (tenths - low) * box.height() / (high - low)
                stroke.append(QPointF(box.left() + one.x, down))
        self._draw(painter, stroke)

    def _draw(self, painter: QPainter, stroke: list[QPointF]) -> None:
        """One stretch without a gap; a lone reading is a dot."""
        if not stroke:
            return
        colour = self._look.colour("steel")
        painter.setPen(QPen(colour, 2.5))
        if stroke[0].x() == stroke[-1].x():
            painter.setBrush(colour)
            painter.drawEllipse(stroke[-1], 2.5, 2.5)
        else:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolyline(QPolygonF(stroke))


class StoreLine(QWidget):
    """The drawing and the words."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.day = DayLine(look)
        self.words = Words("", "quiet")
        line = row(self.day, self.words, gap=12)
        line.setStretch(1, 1)
        self.setLayout(line)
        self._shown: StoreCold | None = None

    def set_cold(self, cold: StoreCold | None) -> None:
        self.setVisible(cold is not None)
        if cold is None or cold == self._shown:
            return
        from gametrace.desktop.cold.series import series_of

        self._shown = cold
        series = series_of(cold.readings)
        self.day.set_cold(cold, series)
        self.day.setVisible(len(series) > 0)
        self.words.say(cold.words)
        set_role(self.words, "amber" if cold.is_amber else "quiet")
