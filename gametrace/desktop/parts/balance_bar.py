"""The break-down as a body of weights: what is weighed stacks up from the top, what is not is the white foot.

After closing, the white is what stays unaccounted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import kg_figure, kg_text


@dataclass(frozen=True, slots=True)
class BalancePart:
    """One weighing: words, grams, and its sort as `gametrace.domain.break_down` has them."""

    words: str
    grams: int
    sort: str = "meat"


# Each sort has a colour and a pattern of its own, so that it is told without colour too.
_SOLID, _HATCH, _DENSE = Qt.BrushStyle.SolidPattern, Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.Dense4Pattern
_FACES = {
    "meat": ("pine", _SOLID),
    "trim": ("pine", _HATCH),
    "bone": ("hide", _SOLID),
    "by-product": ("hide", _HATCH),
    "shot-damage": ("plum", _HATCH),
    "condemned": ("plum", _SOLID),
    "waste": ("plum", _DENSE),
    "drying": ("steel", _HATCH),
    "returned": ("quiet", _HATCH),
}
LEVEL_ROLES = {"even": "ink", "amber": "amber", "red": "plum"}


def fill_part(painter: QPainter, box: QRectF, sort: str, look: Look) -> None:
    """The face of a sort, in the bar and wherever it stands for one."""
    role, pattern = _FACES.get(sort, _FACES["meat"])
    painter.fillRect(box, look.colour("sheet"))
    painter.fillRect(box, QBrush(look.colour(role), pattern))


class BalanceBar(QWidget):
    """The bar. `set_balance` gives it everything; it computes nothing but heights."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._total, self._left = 0, 0
        self._parts: tuple[BalancePart, ...] = ()
        self._left_words, self._level = "unweighed", "even"
        self._names = True
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.update)

    def set_balance(
        self,
        total_grams: int,
        parts: Sequence[BalancePart],
        left_grams: int,
        left_words: str = "unweighed",
        level: str = "even",
    ) -> None:
        self._total, self._parts, self._left, self._level = total_grams, tuple(parts), left_grams, level
        self._left_words = left_words
        said = [f"{part.words} {kg_text(part.grams)}" for part in self._parts]
        said.append(f"{left_words} {kg_text(left_grams)}")
        self.setAccessibleName(f"Balance of {kg_text(total_grams)}")
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def show_names(self, names: bool) -> None:
        """False for the bare bar, where the names stand in a list beside it."""
        self._names = names
        if not names:
            self.setFixedWidth(self._look.px(66))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(300), self._look.px(360))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(220), self._look.px(200))

    def _heights(self, room: float) -> list[float]:
        """Each part's height; thin ones keep a hair so that nothing weighed is unseen."""
        total = max(self._total, sum(part.grams for part in self._parts) + max(self._left, 0), 1)
        return [max(2.0, room * part.grams / total) for part in self._parts]

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        body = QRectF(1, 1, look.px(64), self.height() - 2)
        painter.fillRect(body, look.colour("sheet"))
        top = body.top()
        names: list[tuple[float, str, str, str]] = []
        for part, high in zip(self._parts, self._heights(body.height()), strict=True):
            box = QRectF(body.left(), top, body.width(), high)
            fill_part(painter, box, part.sort, look)
            painter.setPen(QPen(look.colour("sheet"), 1))
            painter.drawLine(box.bottomLeft(), box.bottomRight())
            names.append((box.center().y(), part.words, kg_figure(part.grams), "ink"))
            top += high
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(look.colour("ink"), 2))
        painter.drawRect(body)
        if self._level != "even" and self._left > 0:
            painter.setPen(QPen(look.colour(LEVEL_ROLES[self._level]), 5))
            painter.drawRect(
                QRectF(body.left(), top, body.width(), body.bottom() - top).adjusted(3, 4, -3, -3)
            )
        if not self._names:
            return
        foot = (min(top, body.bottom() - 1) + body.bottom()) / 2
        names.append((foot, self._left_words, kg_figure(self._left), "amber" if self._left else "quiet"))
        self._paint_names(painter, body, names)

    def _paint_names(self, painter: QPainter, body: QRectF, names: list[tuple[float, str, str, str]]) -> None:
        """Names beside their parts, pushed apart where parts are thin; a thread leads back to its part."""
        look = self._look
        font = look.font(TEXT)
        metrics = QFontMetrics(font)
        painter.setFont(font)
        step = min(metrics.height() + 2, body.height() / max(1, len(names)))
        wanted = [at for at, *_ in names]
        places = _spread(wanted, step, body.top() + step / 2, body.bottom() - step / 2)
        left = body.right() + look.px(28)
        room = self.width() - left
        for (at, words, figure, role), place in zip(names, places, strict=True):
            painter.setPen(QPen(look.colour("line"), 1))
            painter.drawLine(int(body.right()) + 2, int(at), int(left) - 6, int(place))
            painter.setPen(look.colour(role))
            wide = metrics.horizontalAdvance("00.000 ")
            line = QRectF(left, place - step / 2, room, step)
            flags = Qt.AlignmentFlag.AlignVCenter
            cut = metrics.elidedText(words, Qt.TextElideMode.ElideRight, int(room - wide))
            painter.drawText(line, flags | Qt.AlignmentFlag.AlignLeft, cut)
            painter.drawText(line, flags | Qt.AlignmentFlag.AlignRight, figure)


def _spread(wanted: list[float], step: float, low: float, high: float) -> list[float]:
    """Places near the wanted ones, none nearer than `step`, all between low and high."""
    places: list[float] = []
    for at in wanted:
        least = places[-1] + step if places else low
        places.append(max(at, least))
    limit = high
    for i in range(len(places) - 1, -1, -1):
        places[i] = min(places[i], limit)
        limit = places[i] - step
    return places
