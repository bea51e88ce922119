"""A price taken apart: meat, what else is on the plate, what is left to earn with, and the VAT in it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import pounds_text

Part = tuple[str, int]  # words, pence
_FILLS = (
    ("steel", Qt.BrushStyle.SolidPattern),
    ("steel", Qt.BrushStyle.BDiagPattern),
    ("pine", Qt.BrushStyle.Dense4Pattern),
    ("quiet", Qt.BrushStyle.NoBrush),
)


class PriceBar(QWidget):
    """Parts that come to the price, drawn to scale with words under each."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.parts: tuple[Part, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(480), self._look.px(54 + 30 * max(1, len(self.parts))))

    def set_parts(self, parts: Sequence[Part]) -> None:
        self.parts = tuple(parts)
        self.setAccessibleName("; ".join(f"{words} {pounds_text(pence)}" for words, pence in self.parts))
        self.setVisible(bool(self.parts))
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(look.font(TEXT))
        whole = sum(max(0, pence) for _, pence in self.parts) or 1
        x, px = 1.0, look.px
        for at, (words, pence) in enumerate(self.parts):
            colour, pattern = _FILLS[at % len(_FILLS)]
            wide = (self.width() - 2) * max(0, pence) / whole
            painter.setPen(QPen(look.colour("ink"), 1))
            painter.setBrush(QBrush(look.colour(colour), pattern))
            painter.drawRect(QRectF(x, 1, wide, px(40)))
            y = px(50) + at * px(30)
            painter.drawRect(QRectF(1, y + px(6), px(18), px(18)))
            painter.setPen(look.colour("ink"))
            side = Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(px(28), y, self.width() - px(28), px(30)), side, words)
            right = side | Qt.AlignmentFlag.AlignRight
            painter.drawText(QRectF(0, y, self.width() - 4, px(30)), right, pounds_text(pence))
            x += wide
