"""Why the loin costs what it costs, in one picture: as wide as it weighs, as high as its price a kilo.

So the area is money, and all areas together are what was paid. Bone and skin lie flat: they weigh and carry
nothing, and that alone lifts the meat above the price bought at. Left and right walk along the cuts.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.costs.bars import CutBar
from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import kg_text, pounds_text

LEFT, TOP, BOTTOM = 64, 40, 62
FLAT = 16  # px, how high what carries no cost is drawn


class AreaPicture(QWidget):
    """Signals: moved(int): another cut is chosen."""

    moved = Signal(int)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.bars: tuple[CutBar, ...] = ()
        self.bought: Fraction | None = None
        self.chosen = 0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Picture of the cost. Left and right walk along the cuts")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(look.px(240))
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(760), self._look.px(400))

    def set_bars(self, bars: Sequence[CutBar], bought_per_kg: Fraction | None) -> None:
        was = self.bars[self.chosen].key if self.bars else ""
        self.bars, self.bought = tuple(bars), bought_per_kg
        keys = [bar.key for bar in self.bars]
        self.choose(keys.index(was) if was in keys else 0)

    def choose(self, at: int) -> None:
        self.chosen = min(max(at, 0), max(len(self.bars) - 1, 0))
        if self.bars:
            self.setAccessibleDescription(self.bars[self.chosen].words(self.bought))
        self.update()
        self.moved.emit(self.chosen)

    # -- hands ------------------------------------------------------------------------------------------

    def keyPressEvent(self, event) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(event.key())
        if step:
            self.choose(self.chosen + step)
        elif event.key() == Qt.Key.Key_Home:
            self.choose(0)
        elif event.key() == Qt.Key.Key_End:
            self.choose(len(self.bars) - 1)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event) -> None:
        """The bar under the finger; a thin one is found by the nearest middle."""
        spots = self._spots()
        if spots:
            x = event.position().x()
            self.choose(min(range(len(spots)), key=lambda at: _away(spots[at], x)))
        super().mousePressEvent(event)

    # -- painting ---------------------------------------------------------------------------------------

    def _box(self) -> QRectF:
        px = self._look.px
        return QRectF(px(LEFT), px(TOP), self.width() - px(LEFT) - 8, self.height() - px(TOP) - px(BOTTOM))

    def _highest(self) -> int:
        top = max(
            [bar.per_kg or Fraction(0) for bar in self.bars] + [self.bought or Fraction(0), Fraction(100)]
        )
        return -(-int(top) // 100) * 100

    def _spots(self) -> list[QRectF]:
        """Where each bar is drawn."""
        box, whole, high = self._box(), sum(bar.grams for bar in self.bars) or 1, self._highest()
        spots, x = [], box.left()
        for bar in self.bars:
            wide = box.width() * bar.grams / whole
            tall = max(float(bar.per_kg or 0) * box.height() / high, 0.0)
            spots.append(QRectF(x, box.bottom() - tall, wide, tall))
            x += wide
        return spots

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.colour("sheet"))
        painter.setFont(look.font(TEXT))
        box = self._box()
        self._paint_scale(painter, box)
        for at, (bar, spot) in enumerate(zip(self.bars, self._spots(), strict=True)):
            self._paint_bar(painter, box, bar, spot, is_chosen=at == self.chosen)
        self._paint_bought(painter, box)
        self._paint_foot(painter, box)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))

    def _paint_scale(self, painter: QPainter, box: QRectF) -> None:
        look, high = self._look, self._highest()
        step = next((s for s in (100, 200, 500, 1000, 2000, 5000) if high // s <= 6), 10_000)
        for pence in range(0, high + 1, step):
            y = box.bottom() - pence * box.height() / high
            line = QColor(look.colour("line"))
            line.setAlpha(90)
            painter.setPen(QPen(line, 1))
            painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
            painter.setPen(look.colour("quiet"))
            place = QRectF(0, y - 14, box.left() - 8, 28)
            painter.drawText(
                place, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, f"£{pence // 100}"
            )
        painter.setPen(look.colour("quiet"))
        painter.drawText(
            QRectF(8, 6, self.width() - 16, look.px(28)),
            Qt.AlignmentFlag.AlignLeft,
            "£ a kilo; the area is money",
        )

    def _paint_bar(
        self, painter: QPainter, box: QRectF, bar: CutBar, spot: QRectF, *, is_chosen: bool
    ) -> None:
        look = self._look
        ground = QColor(look.colour("steel"))
        if not bar.is_meat or bar.pence is None or not bar.pence:
            flat = QRectF(spot.left(), box.bottom() - FLAT, spot.width(), FLAT)
            spot = flat if spot.height() < FLAT else spot
            painter.setBrush(QBrush(look.colour("quiet"), Qt.BrushStyle.BDiagPattern))
        else:
            ground.setAlpha(255 if is_chosen else 70)
            painter.setBrush(ground)
        painter.setPen(QPen(look.colour("pine" if is_chosen else "steel"), 4 if is_chosen else 1))
        painter.drawRect(spot)
        if bar.is_meat and bar.pence:
            self._name_in(painter, bar, spot, is_chosen=is_chosen)
        elif bar.pence and spot.height() > look.px(100):  # good meat in the bin: said on a quiet ground
            wide = min(painter.fontMetrics().height(), spot.width() - 4)
            strip = QRectF(spot.center().x() - wide / 2, spot.top() + 6, wide, spot.height() - 12)
            painter.fillRect(strip, look.colour("sheet"))
            self._name_in(painter, bar, spot, is_chosen=False)

    def _name_in(self, painter: QPainter, bar: CutBar, spot: QRectF, *, is_chosen: bool) -> None:
        """Across where there is room, else upright, else only under the picture once it is chosen."""
        look = self._look
        font = look.font(TEXT, bold=is_chosen)
        metrics = QFontMetrics(font)
        wide = metrics.horizontalAdvance(bar.name) + 8
        painter.setFont(font)
        painter.setPen(look.colour("sheet" if is_chosen else "ink"))
        if wide <= spot.width() and metrics.height() <= spot.height():
            painter.drawText(spot, Qt.AlignmentFlag.AlignCenter, bar.name)
        elif _fits_in_lines(metrics, bar.name, spot):
            wrapped = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(spot, wrapped, bar.name)
        elif wide <= spot.height() and metrics.height() <= spot.width() + 4:
            painter.save()
            painter.translate(spot.center())
            painter.rotate(-90)
            upright = QRectF(-spot.height() / 2, -spot.width() / 2, spot.height(), spot.width())
            painter.drawText(upright, Qt.AlignmentFlag.AlignCenter, bar.name)
            painter.restore()

    def _paint_bought(self, painter: QPainter, box: QRectF) -> None:
        """The price bought at: the whole beast lay under this line."""
        if self.bought is None:
            return
        look = self._look
        y = box.bottom() - float(self.bought) * box.height() / self._highest()
        painter.setPen(QPen(look.colour("amber"), 2, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
        # Its words stand over the picture, with a piece of the line: on the bars they would hide one.
        words = f"bought at {pounds_text(round(self.bought))}"
        painter.setFont(look.font(TEXT, bold=True))
        wide = painter.fontMetrics().horizontalAdvance(words)
        place = QRectF(box.right() - wide, 6, wide + 4, look.px(28))
        painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, words)
        dash = place.left() - look.px(12)
        painter.drawLine(QPointF(dash - look.px(44), place.center().y()), QPointF(dash, place.center().y()))

    def _paint_foot(self, painter: QPainter, box: QRectF) -> None:
        """What is meat and what is not, by its width."""
        look = self._look
        spots = self._spots()
        painter.setFont(look.font(TEXT))
        painter.setPen(look.colour("quiet"))
        for is_meat, words in ((True, "meat"), (False, "not for food, or lost")):
            mine = [(bar, spot) for bar, spot in zip(self.bars, spots, strict=True) if bar.is_meat == is_meat]
            if not mine:
                continue
            left, right = mine[0][1].left(), mine[-1][1].right()
            y = box.bottom() + 10
            painter.drawLine(QPointF(left + 2, y), QPointF(right - 2, y))
            said = f"{words}, {kg_text(sum(bar.grams for bar, _ in mine))}"
            metrics = painter.fontMetrics()
            wide = max(right - left, metrics.horizontalAdvance(said) + 8)
            place = QRectF(left, y + 4, wide, look.px(40))
            if place.right() > box.right():
                place.moveRight(box.right())
            painter.drawText(place, Qt.AlignmentFlag.AlignHCenter, said)


def _fits_in_lines(metrics: QFontMetrics, words: str, spot: QRectF) -> bool:
    longest = max(metrics.horizontalAdvance(word) for word in words.split())
    return longest + 8 <= spot.width() and metrics.height() * len(words.split()) <= spot.height()


def _away(spot: QRectF, x: float) -> float:
    return 0 if spot.left() <= x <= spot.right() else abs(spot.center().x() - x)
