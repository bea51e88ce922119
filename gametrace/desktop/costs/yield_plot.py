"""Shares row by row: this beast, the larder's own around it with its median, and what is published."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from gametrace.desktop.costs.row_plot import RowPlot
from gametrace.desktop.look import Look
from gametrace.domain.yields import percent_text

NAME, FIGURE = 250, 92  # px


@dataclass(frozen=True, slots=True)
class Published:
    """A figure or a spread from a source. `is_near` is False for one of the other sex."""

    low: Fraction
    high: Fraction
    is_near: bool = True


@dataclass(frozen=True, slots=True)
class YieldRow:
    """One row. `share` is this beast's; None in a row of a group."""

    name: str
    share: Fraction | None
    own: tuple[Fraction, ...]
    median: Fraction | None
    published: tuple[Published, ...]
    is_far: bool
    words: str  # everything it says, in sentences


class YieldPlot(RowPlot):
    head = 76

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        self.rows: tuple[YieldRow, ...] = ()
        super().__init__(look, "Yields. Up and down walk along", parent)

    def set_rows(self, rows: Sequence[YieldRow]) -> None:
        self.rows = tuple(rows)
        self.set_count(len(self.rows))

    def spoken(self, at: int) -> str:
        return self.rows[at].words

    def _field(self) -> QRectF:
        px = self.look.px
        return QRectF(px(NAME), px(self.head), self.width() - px(NAME) - px(FIGURE), self.height())

    def _most(self) -> int:
        """The right end of the scale in tenths of the whole."""
        shares = [
            share
            for row in self.rows
            for share in (*row.own, row.share or Fraction(0), *(one.high for one in row.published))
        ]
        return min(10, max(1, -(-max(shares, default=Fraction(1)) * 100 // 10)))

    def _x(self, share: Fraction) -> float:
        field = self._field()
        return field.left() + float(share) * 10 / self._most() * field.width()

    def paint_head(self, painter: QPainter) -> None:
        """The signs, and the scale with its lines through every row."""
        look, px, field = self.look, self.look.px, self._field()
        x = float(px(10))
        middle = px(18)
        if any(row.share is not None for row in self.rows):
            self._paint_beast(painter, QPointF(x + 8, middle), is_far=False)
            x = self._word(painter, x + px(24), "this beast")
        self._paint_own(painter, QPointF(x + 6, middle))
        x = self._word(painter, x + px(18), "the larder's own")
        painter.setPen(QPen(look.colour("steel"), 4))
        painter.drawLine(QPointF(x + 4, middle - 11), QPointF(x + 4, middle + 11))
        x = self._word(painter, x + px(14), "its median")
        self._paint_band(painter, QRectF(x, middle - 11, px(22), 22), is_near=True)
        self._word(painter, x + px(30), "published")
        line = QColor(look.colour("line"))
        line.setAlpha(90)
        for tenth in range(self._most() + 1):
            at = self._x(Fraction(tenth, 10))
            painter.setPen(QPen(line, 1))
            painter.drawLine(QPointF(at, px(68)), QPointF(at, self.height()))
            painter.setPen(look.colour("quiet"))
            place = QRectF(at - px(32), px(40), px(64), px(28))
            if place.right() > field.right() + px(40):
                continue
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, f"{tenth * 10} %")

    def _word(self, painter: QPainter, x: float, words: str) -> float:
        painter.setPen(self.look.colour("ink"))
        wide = painter.fontMetrics().horizontalAdvance(words)
        painter.drawText(QRectF(x, 0, wide + 4, self.look.px(36)), Qt.AlignmentFlag.AlignVCenter, words)
        return x + wide + self.look.px(28)

    def paint_row(self, painter: QPainter, at: int, box: QRectF) -> None:
        look, px, row = self.look, self.look.px, self.rows[at]
        metrics = painter.fontMetrics()
        painter.setPen(look.colour("ink"))
        name = QRectF(box.left() + 6, box.top(), px(NAME) - 22, box.height())
        words = metrics.elidedText(row.name, Qt.TextElideMode.ElideRight, int(name.width()))
        painter.drawText(name, Qt.AlignmentFlag.AlignVCenter, words)
        middle = box.center().y()
        for one in row.published:
            left, right = self._x(one.low), self._x(one.high)
            wide = max(right - left, 10)
            centre = (left + right) / 2
            self._paint_band(
                painter,
                QRectF(centre - wide / 2, box.top() + 5, wide, box.height() - 10),
                is_near=one.is_near,
            )
        for share in row.own:
            self._paint_own(painter, QPointF(self._x(share), middle))
        if row.median is not None:
            x = self._x(row.median)
            painter.setPen(QPen(look.colour("steel"), 4))
            painter.drawLine(QPointF(x, box.top() + 7), QPointF(x, box.bottom() - 7))
        if row.share is not None:
            self._paint_beast(painter, QPointF(self._x(row.share), middle), is_far=row.is_far)
        shown = row.share if row.share is not None else row.median
        painter.setPen(look.colour("amber" if row.is_far else "ink"))
        figure = percent_text(shown) if shown is not None else f"{len(row.own)} so far"
        right_side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(box.left(), box.top(), box.width() - 6, box.height()), right_side, figure)

    def _paint_band(self, painter: QPainter, spot: QRectF, *, is_near: bool) -> None:
        """Published: hatched; of the other sex only an outline."""
        ink = self.look.colour("ink")
        painter.setPen(QPen(ink, 1, Qt.PenStyle.SolidLine if is_near else Qt.PenStyle.DotLine))
        painter.setBrush(QBrush(ink, Qt.BrushStyle.BDiagPattern) if is_near else Qt.BrushStyle.NoBrush)
        painter.drawRect(spot)

    def _paint_own(self, painter: QPainter, at: QPointF) -> None:
        colour = QColor(self.look.colour("steel"))
        colour.setAlpha(110)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawEllipse(at, 6, 6)

    def _paint_beast(self, painter: QPainter, at: QPointF, *, is_far: bool) -> None:
        """A diamond; far from every published figure it stands in a ring."""
        look, size = self.look, 10
        painter.setPen(QPen(look.colour("sheet"), 2))
        painter.setBrush(look.colour("pine"))
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(at.x(), at.y() - size),
                    QPointF(at.x() + size, at.y()),
                    QPointF(at.x(), at.y() + size),
                    QPointF(at.x() - size, at.y()),
                ]
            )
        )
        if is_far:
            painter.setPen(QPen(look.colour("amber"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(at, 16, 16)
