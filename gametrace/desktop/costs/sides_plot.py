"""Left and right of one beast side by side: bars from the middle outwards, boneless inside bone-in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen
from PySide6.QtWidgets import QWidget

from gametrace.desktop.costs.row_plot import RowPlot
from gametrace.desktop.look import Look
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.domain.yields import percent_text


@dataclass(frozen=True, slots=True)
class SideRow:
    """One cut: grams, boneless of bone-in and who, left first."""

    name: str
    grams: tuple[int, int]
    boneless: tuple[Fraction | None, Fraction | None]
    who: tuple[str, str]

    @property
    def words(self) -> str:
        """Both sides and the difference, in a sentence."""
        sides = [
            f"{side} {kg_to_the_gram(grams)}"
            + (f", {percent_text(share)} of it boneless" if share is not None else "")
            + (f", cut by {who}" if who else "")
            for side, grams, share, who in zip(
                ("left", "right"), self.grams, self.boneless, self.who, strict=True
            )
        ]
        apart = abs(self.grams[0] - self.grams[1])
        return f"{self.name}: {'; '.join(sides)}. {kg_to_the_gram(apart)} apart."


class SidesPlot(RowPlot):
    head = 40

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        self.rows: tuple[SideRow, ...] = ()
        super().__init__(look, "Left and right. Up and down walk along", parent)

    def set_rows(self, rows: Sequence[SideRow]) -> None:
        self.rows = tuple(rows)
        self.set_count(len(self.rows))

    def spoken(self, at: int) -> str:
        return self.rows[at].words

    def paint_head(self, painter: QPainter) -> None:
        half = self.width() / 2
        painter.setFont(self.look.font(18, bold=True))
        painter.setPen(self.look.colour("ink"))
        painter.drawText(QRectF(0, 0, half, self.look.px(38)), Qt.AlignmentFlag.AlignCenter, "left")
        painter.drawText(QRectF(half, 0, half, self.look.px(38)), Qt.AlignmentFlag.AlignCenter, "right")
        painter.setFont(self.look.font(18))

    def paint_row(self, painter: QPainter, at: int, box: QRectF) -> None:
        look, px, row = self.look, self.look.px, self.rows[at]
        most = max((grams for one in self.rows for grams in one.grams), default=1)
        middle, name_half, figure = box.center().x(), px(90), px(190)
        room = box.width() / 2 - name_half - figure
        painter.setPen(look.colour("ink"))
        name = QRectF(middle - name_half, box.top(), 2 * name_half, box.height())
        metrics = painter.fontMetrics()
        words = metrics.elidedText(row.name, Qt.TextElideMode.ElideRight, int(name.width()) - 8)
        painter.drawText(name, Qt.AlignmentFlag.AlignCenter, words)
        for side, sign in ((0, -1), (1, 1)):
            start = middle + sign * name_half
            wide = room * row.grams[side] / most
            share = row.boneless[side]
            outer = _from(start, sign, wide, box)
            painter.setPen(QPen(look.colour("steel"), 1))
            painter.setBrush(QBrush(look.colour("steel"), Qt.BrushStyle.BDiagPattern))
            painter.drawRect(outer)
            painter.setBrush(look.colour("steel"))
            painter.drawRect(_from(start, sign, wide * float(share if share is not None else 1), box))
            painter.setPen(look.colour("ink"))
            said = kg_to_the_gram(row.grams[side]) + (f", {percent_text(share)}" if share is not None else "")
            place = QRectF(0, box.top(), figure - 8, box.height())
            if sign > 0:
                place.moveLeft(start + wide + 8)
                painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, said)
            else:
                place.moveRight(start - wide - 8)
                painter.drawText(place, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, said)


def _from(start: float, sign: int, wide: float, box: QRectF) -> QRectF:
    left = start if sign > 0 else start - wide
    return QRectF(left, box.top() + 9, wide, box.height() - 18)
