"""Drawings of what is looked at, always dark ink on pale card: here black and white mean themselves."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.assets import paint_drawing
from gametrace.desktop.look import Look
from gametrace.desktop.palette import LIGHT

_RATIO = 256 / 192  # of every drawing of this sort


def drawing_of(question: str, answer: str) -> str:
    """The drawing of an answer, by its name in the assets."""
    return f"traits/{question}-{answer}"


def paint_card(painter: QPainter, look: Look, name: str, rect: QRectF) -> None:
    """One drawing on its card, as large as fits."""
    painter.setPen(QPen(look.colour("line"), 1))
    painter.setBrush(QColor(LIGHT.sheet))
    painter.drawRoundedRect(rect, 4, 4)
    paint_drawing(painter, name, LIGHT.ink, rect.adjusted(6, 6, -6, -6))


class TraitCards(QWidget):
    """Drawings side by side, nothing to press. `words` says to the ear what they show."""

    def __init__(
        self,
        look: Look,
        names: Sequence[str],
        words: str,
        *,
        height: int = 112,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._look, self._names, self._height = look, tuple(names), height
        self.setAccessibleName(words)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        height = self._look.px(self._height)
        across = round(height * _RATIO)
        return QSize(across * len(self._names) + 8 * max(0, len(self._names) - 1), height)

    def paintEvent(self, event) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        across = round(self.height() * _RATIO)
        for at, name in enumerate(self._names):
            card = QRectF(at * (across + 8), 0, across, self.height()).adjusted(1, 1, -1, -1)
            paint_card(painter, self._look, name, card)


def card_text_flags() -> int:
    """Words under a card: in the middle, on as many lines as they need."""
    return Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
