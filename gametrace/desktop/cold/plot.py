"""The curve of one store, painted: days along, degrees up; limits with words, gaps left open, warm times
and what was done marked.

Arrows move along, + and - (or up and down) go closer and wider, Home and End to either end; a press puts
that time in the middle. What the middle line meets is said above it. Knows readings, not the register.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QFontMetrics, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.cold.saying import span_text, tick_seconds
from gametrace.desktop.cold.series import Series, gaps_in, pixels
from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import celsius_text

DAY = 86_400
LEAST, MOST = 3600, 800 * DAY  # seconds across
LEFT, BOTTOM, TOP = 84, 34, 36  # px around the curve
_STEPS = {Qt.Key.Key_Left: -1 / 12, Qt.Key.Key_Right: 1 / 12}
_ZOOMS = {
    Qt.Key.Key_Up: 0.5, Qt.Key.Key_Plus: 0.5, Qt.Key.Key_Equal: 0.5,
    Qt.Key.Key_Down: 2.0, Qt.Key.Key_Minus: 2.0,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Limit:
    """A line across, with words."""

    tenths_c: int
    words: str
    role: str  # colour


@dataclass(frozen=True, slots=True)
class Warm:
    first_at: int
    last_at: int
    words: str


@dataclass(frozen=True, slots=True)
class Done:
    """Something that was done, at its time."""

    at: int
    words: str


class Plot(QWidget):
    """Signals: moved(): another stretch of time is on view."""

    moved = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.series = Series()
        self.first_at, self.last_at = 0, 7 * DAY
        self._longest_gap = DAY
        self._limits: tuple[Limit, ...] = ()
        self._warm: tuple[Warm, ...] = ()
        self._done: tuple[Done, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(look.px(120))
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(900), self._look.px(360))

    # -- what is shown ----------------------------------------------------------------------------------

    def set_readings(self, series: Series, longest_gap: int) -> None:
        self.series, self._longest_gap = series, longest_gap
        self._say()

    def set_marks(self, limits: Sequence[Limit], warm: Sequence[Warm], done: Sequence[Done]) -> None:
        self._limits, self._warm, self._done = tuple(limits), tuple(warm), tuple(done)
        self._say()

    def show_span(self, first_at: int, last_at: int) -> None:
        """Between these times, never less than an hour."""
        middle, half = (first_at + last_at) // 2, max(last_at - first_at, LEAST) // 2
        self.first_at, self.last_at = middle - half, middle + half
        self._say()

    def move_by(self, part: float) -> None:
        """Along by a part of what is on view; the middle never leaves the readings."""
        step = round((self.last_at - self.first_at) * part)
        self._put_middle((self.first_at + self.last_at) // 2 + step)

    def zoom(self, factor: float) -> None:
        middle = (self.first_at + self.last_at) // 2
        half = round(min(max((self.last_at - self.first_at) * factor, LEAST), MOST)) // 2
        self.show_span(middle - half, middle + half)

    def _put_middle(self, at: int) -> None:
        if len(self.series):
            at = min(max(at, self.series.first_at), self.series.last_at)
        half = (self.last_at - self.first_at) // 2
        self.show_span(at - half, at + half)

    @property
    def middle(self) -> int:
        return (self.first_at + self.last_at) // 2

    def spoken(self) -> str:
        """What is on view, for an ear and for the line under the plot."""
        ends = self.series.ends(self.first_at, self.last_at)
        if ends is None:
            return "Nobody measured in this time."
        gaps = gaps_in(self.series, self.first_at, self.last_at, self._longest_gap)
        warm = sum(w.first_at <= self.last_at and w.last_at >= self.first_at for w in self._warm)
        said = f"From {celsius_text(ends[0])} to {celsius_text(ends[1])}."
        said += f" Warm {warm} time{'' if warm == 1 else 's'}." if warm else " Never warm for long."
        return said + (f" {len(gaps)} time{'' if len(gaps) == 1 else 's'} nobody measured." if gaps else "")

    def _say(self) -> None:
        self.setAccessibleDescription(self.spoken())
        self.update()
        self.moved.emit()

    # -- hands ------------------------------------------------------------------------------------------

    def keyPressEvent(self, event) -> None:
        key = event.key()
        if key in _STEPS:
            self.move_by(_STEPS[key])
        elif key in _ZOOMS:
            self.zoom(_ZOOMS[key])
        elif key == Qt.Key.Key_Home:
            self._put_middle(self.series.first_at)
        elif key == Qt.Key.Key_End:
            self._put_middle(self.series.last_at)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event) -> None:
        box = self._box()
        if box.contains(event.position()):
            self._put_middle(self._at(event.position().x()))
        super().mousePressEvent(event)

    # -- painting ---------------------------------------------------------------------------------------

    def _box(self) -> QRectF:
        px = self._look.px
        return QRectF(px(LEFT), px(TOP), self.width() - px(LEFT) - 8, self.height() - px(TOP) - px(BOTTOM))

    def _at(self, x: float) -> int:
        box = self._box()
        return self.first_at + round((x - box.left()) * (self.last_at - self.first_at) / box.width())

    def _x(self, at: int) -> float:
        box = self._box()
        return box.left() + (at - self.first_at) * box.width() / (self.last_at - self.first_at)

    def _range(self) -> tuple[int, int]:
        """Lowest and highest tenths drawn: the readings and the limits, with air."""
        ends = self.series.ends(self.first_at, self.last_at) or (0, 50)
        marks = [limit.tenths_c for limit in self._limits]
        low, high = min(ends[0], *marks, ends[1]), max(ends[1], *marks, ends[0])
        air = max(10, (high - low) // 8)
        return low - air, high + air

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.colour("sheet"))
        painter.setFont(look.font(TEXT))
        low, high = self._range()
        box = self._box()
        painter.save()
        painter.setClipRect(box)
        self._paint_spans(painter, box)
        painter.restore()
        self._paint_degrees(painter, box, low, high)
        self._paint_days(painter, box)
        painter.save()
        painter.setClipRect(box)
        self._paint_curve(painter, box, low, high)
        self._paint_limits(painter, box, low, high)
        self._paint_done(painter, box)
        painter.restore()
        self._paint_middle(painter, box)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))

    def _paint_spans(self, painter: QPainter, box: QRectF) -> None:
        """Warm times on an amber ground, gaps hatched, each with words where there is room for them."""
        look = self._look
        amber = QColor(look.colour("amber"))
        amber.setAlpha(60)
        for warm in self._warm:
            left, right = self._x(warm.first_at), self._x(warm.last_at)
            if right < box.left() or left > box.right():
                continue
            band = QRectF(left, box.top(), max(right - left, 4), box.height())
            painter.fillRect(band, amber)
            self._words_in(painter, band, warm.words, "amber", box.top() + 2)
        hatch = QBrush(look.colour("line"), Qt.BrushStyle.BDiagPattern)
        for before, after in gaps_in(self.series, self.first_at, self.last_at, self._longest_gap):
            left, right = self._x(before), self._x(after)
            band = QRectF(left, box.top(), max(right - left, 3), box.height()).intersected(box)
            painter.fillRect(band, hatch)
            if right - left > self._look.px(24):
                words = f"not measured, {span_text(after - before)}"
                self._words_in(painter, band, words, "ink", box.center().y(), on_ground=True)

    def _words_in(
        self, painter: QPainter, band: QRectF, words: str, role: str, top: float, *, on_ground: bool = False
    ) -> None:
        metrics = QFontMetrics(self._look.font(TEXT, bold=True))
        wide = metrics.horizontalAdvance(words) + 8
        if wide > band.width() and on_ground:
            words = words.split(",")[0]
            wide = metrics.horizontalAdvance(words) + 8
        place = QRectF(band.left() + 2, top, wide, metrics.height())
        if on_ground:
            place.moveLeft(band.center().x() - wide / 2)
            painter.fillRect(place, self._look.colour("sheet"))
        painter.setFont(self._look.font(TEXT, bold=True))
        painter.setPen(self._look.colour(role))
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_degrees(self, painter: QPainter, box: QRectF, low: int, high: int) -> None:
        look = self._look
        painter.setFont(look.font(TEXT))
        most = min(8, max(1, int(box.height() // painter.fontMetrics().height()) - 1))
        step = next((s for s in (10, 20, 50, 100, 200) if (high - low) // s <= most), 500)
        for tenths in range(-(-low // step) * step, high + 1, step):
            y = _y(box, tenths, low, high)
            line = QColor(look.colour("line"))
            line.setAlpha(90)
            painter.setPen(QPen(line, 1))
            painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
            painter.setPen(look.colour("quiet"))
            place = QRectF(0, y - 14, box.left() - 8, 28)
            side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(place, side, f"{tenths // 10} °C".replace("-", "−"))

    def _paint_days(self, painter: QPainter, box: QRectF) -> None:
        """Ticks on the larder's own clock, so that a day begins at its midnight."""
        from gametrace.register.clock import wall_day, wall_instant, wall_text

        look = self._look
        painter.setFont(look.font(TEXT))
        painter.setPen(look.colour("quiet"))
        wide = QFontMetrics(look.font(TEXT)).horizontalAdvance("00 Mmm 00:00") + 12
        step = tick_seconds(self.last_at - self.first_at, max(1, int(box.width() // wide)))
        day = wall_day(datetime.fromtimestamp(self.first_at, UTC))
        marks: list[int] = []
        while (midnight := int(wall_instant(day, 0).timestamp())) <= self.last_at:
            if step >= DAY:
                marks.append(midnight)
                day += timedelta(days=step // DAY)
            else:
                marks += range(midnight, midnight + DAY, step)
                day += timedelta(days=1)
        for at in marks:
            x = self._x(at)
            if not box.left() <= x <= box.right() - wide / 3:
                continue
            text = wall_text(datetime.fromtimestamp(at, UTC))
            words = text.split(", ")[1] if step < DAY and not text.endswith("00:00") else text[:6]
            painter.drawLine(QPointF(x, box.bottom()), QPointF(x, box.bottom() + 6))
            painter.drawText(QRectF(x + 4, box.bottom() + 4, wide, 28), Qt.AlignmentFlag.AlignLeft, words)

    def _paint_curve(self, painter: QPainter, box: QRectF, low: int, high: int) -> None:
        painter.setPen(QPen(self._look.colour("steel"), 2.5))
        stroke: list[QPointF] = []
        columns = pixels(self.series, self.first_at, self.last_at, int(box.width()), self._longest_gap)
        for one in columns:
            if one.begins:
                self._draw(painter, stroke)
                stroke = []
            x = box.left() + one.x + 0.5
            for tenths in dict.fromkeys((one.lowest, one.highest, one.last)):
                stroke.append(QPointF(x, _y(box, tenths, low, high)))
        self._draw(painter, stroke)

    def _draw(self, painter: QPainter, stroke: list[QPointF]) -> None:
        """One stretch; a lone reading is a dot, so that a round by hand is seen."""
        if not stroke:
            return
        painter.setBrush(self._look.colour("steel"))
        if len(stroke) < 60:
            for point in stroke:
                painter.drawEllipse(point, 3, 3)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(stroke))

    def _paint_limits(self, painter: QPainter, box: QRectF, low: int, high: int) -> None:
        look = self._look
        metrics = QFontMetrics(look.font(TEXT, bold=True))
        for limit in self._limits:
            y = _y(box, limit.tenths_c, low, high)
            dashes = Qt.PenStyle.SolidLine if limit.role == "plum" else Qt.PenStyle.DashLine
            painter.setPen(QPen(look.colour(limit.role), 2, dashes))
            painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
            words = QRectF(
                0, y - metrics.height() - 4, metrics.horizontalAdvance(limit.words) + 12, metrics.height() + 1
            )
            words.moveRight(box.right() - 4)
            if words.top() < box.top():  # no room above its line: under it, at the other end
                words.moveTopLeft(QPointF(box.left() + 4, y + 2))
            painter.fillRect(words, look.colour("sheet"))
            painter.setFont(look.font(TEXT, bold=True))
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter, limit.words)

    def _paint_done(self, painter: QPainter, box: QRectF) -> None:
        """What was done: a flag at its time, its words beside it."""
        look = self._look
        metrics = QFontMetrics(look.font(TEXT))
        painter.setFont(look.font(TEXT))
        for one in self._done:
            x = self._x(one.at)
            if not box.left() <= x <= box.right():
                continue
            foot = box.bottom()
            painter.setPen(QPen(look.colour("pine"), 2))
            painter.drawLine(QPointF(x, foot), QPointF(x, foot - 26))
            painter.setBrush(look.colour("pine"))
            flag = [QPointF(x, foot - 26), QPointF(x + 12, foot - 20), QPointF(x, foot - 14)]
            painter.drawPolygon(QPolygonF(flag))
            words = metrics.elidedText(one.words, Qt.TextElideMode.ElideRight, look.px(260))
            place = QRectF(x + 16, foot - 30, metrics.horizontalAdvance(words) + 6, metrics.height())
            painter.fillRect(place, look.colour("sheet"))
            painter.setPen(look.colour("pine"))
            painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, words)

    def _paint_middle(self, painter: QPainter, box: QRectF) -> None:
        """The line in the middle, and what was read there."""
        from gametrace.register.clock import wall_text

        look, x = self._look, box.center().x()
        painter.setPen(QPen(look.colour("ink"), 1, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()))
        near = self.series.near(self.middle)
        words = "no reading here"
        if near is not None and abs(near[0] - self.middle) <= self._longest_gap:
            words = f"{wall_text(datetime.fromtimestamp(near[0], UTC))}: {celsius_text(near[1])}"
        painter.setFont(look.font(TEXT, bold=True))
        painter.setPen(look.colour("ink"))
        painter.drawText(QRectF(0, 4, 2 * x, look.px(TOP) - 6), Qt.AlignmentFlag.AlignCenter, words)


def _y(box: QRectF, tenths: int, low: int, high: int) -> float:
    return box.bottom() - (tenths - low) * box.height() / (high - low)
