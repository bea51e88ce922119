"""Share of the weight against share of the cost, cut by cut: the hatched bar and the full one."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen
from PySide6.QtWidgets import QWidget

from gametrace.desktop.costs.bars import CutBar
from gametrace.desktop.costs.row_plot import RowPlot
from gametrace.desktop.look import Look
from gametrace.domain.quantities import pounds_text

NAME, FIGURES = 0.36, 0.24  # parts of the width


class ShareBars(RowPlot):
    head = 36

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        self.bars: tuple[CutBar, ...] = ()
        self.bought: Fraction | None = None
        super().__init__(look, "Share of weight and of cost by cut. Up and down walk along", parent)

    def set_bars(self, bars: Sequence[CutBar], bought: Fraction | None) -> None:
        self.bars, self.bought = tuple(bars), bought
        self.set_count(len(self.bars))

    def spoken(self, at: int) -> str:
        return self.bars[at].words(self.bought)

    def _most(self) -> Fraction:
        return max([max(bar.of_weight, bar.of_cost or Fraction(0)) for bar in self.bars] or [Fraction(1)])

    def paint_head(self, painter: QPainter) -> None:
        look, px = self.look, self.look.px
        x = self.width() * NAME
        painter.setPen(QPen(look.colour("ink"), 1))
        painter.setBrush(QBrush(look.colour("quiet"), Qt.BrushStyle.BDiagPattern))
        painter.drawRect(QRectF(x, px(11), px(24), px(12)))
        painter.setBrush(look.colour("steel"))
        painter.drawRect(QRectF(x + px(110), px(11), px(24), px(12)))
        painter.setPen(look.colour("quiet"))
        side = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(x + px(30), 0, px(80), px(34)), side, "weight")
        painter.drawText(QRectF(x + px(140), 0, px(80), px(34)), side, "cost")
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(0, 0, self.width() - px(10), px(34)), right, "£ a kilo")

    def paint_row(self, painter: QPainter, at: int, box: QRectF) -> None:
        look, bar, most = self.look, self.bars[at], self._most()
        metrics = painter.fontMetrics()
        name = QRectF(box.left() + 6, box.top(), self.width() * NAME - 12, box.height())
        painter.setPen(look.colour("ink" if bar.is_meat else "quiet"))
        words = metrics.elidedText(bar.name, Qt.TextElideMode.ElideRight, int(name.width()))
        painter.drawText(name, Qt.AlignmentFlag.AlignVCenter, words)
        left = self.width() * NAME
        room = self.width() * (1 - NAME - FIGURES) - 12
        tall = box.height() / 2 - 6
        painter.setPen(QPen(look.colour("ink"), 1))
        painter.setBrush(QBrush(look.colour("quiet"), Qt.BrushStyle.BDiagPattern))
        painter.drawRect(QRectF(left, box.top() + 5, max(1.0, room * float(bar.of_weight / most)), tall))
        if bar.of_cost:
            painter.setBrush(look.colour("steel"))
            painter.drawRect(
                QRectF(left, box.top() + 6 + tall, max(1.0, room * float(bar.of_cost / most)), tall)
            )
        painter.setPen(look.colour("ink"))
        figure = "not known" if bar.per_kg is None else pounds_text(round(bar.per_kg))
        if bar.pence == 0:
            figure = "–"
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(box.left(), box.top(), box.width() - 6, box.height()), right, figure)
