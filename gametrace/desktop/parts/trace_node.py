"""One thing in the picture of a trace, as a button: sign, name, code and weight.

What keeps it from a plate stands before its name as a word: four states share one sign.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import paint_sign, role_of
from gametrace.desktop.parts.trace_layout import Node
from gametrace.desktop.parts.words import shown
from gametrace.desktop.style import TEXT


class NodeButton(QAbstractButton):
    """One thing in the picture."""

    walked = Signal(str)  # left | right | up | down | on

    def __init__(self, look: Look, node: Node, parent: QWidget) -> None:
        super().__init__(parent)
        self._look, self.node = look, node
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setCheckable(True)
        self.setAccessibleName(shown(node.sentence))
        if node.members:
            self.setAccessibleDescription("Enter shows them one by one")

    def keyPressEvent(self, event) -> None:
        ways = {
            Qt.Key.Key_Left: "left",
            Qt.Key.Key_Right: "right",
            Qt.Key.Key_Up: "up",
            Qt.Key.Key_Down: "down",
            Qt.Key.Key_Return: "on",
            Qt.Key.Key_Enter: "on",
        }
        if (way := ways.get(event.key())) is not None:
            self.walked.emit(way)
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
        painter.setBrush(look.colour("chosen" if self.isChecked() else "sheet"))
        painter.setPen(QPen(look.colour("ink"), 3) if self.node.is_traced else QPen(look.colour("line"), 1))
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 4))
        painter.drawRoundedRect(box, 4, 4)
        if self.node.members:  # a fan: sheets behind one another
            painter.drawLine(box.bottomLeft() + QPointF(6, -3), box.bottomRight() + QPointF(-6, -3))
        sign = look.px(26)
        paint_sign(painter, QRectF(look.px(9), (self.height() - sign) / 2, sign, sign), self.node.state, look)
        left = look.px(42)
        room = self.width() - left - look.px(6)
        bold, plain = look.font(TEXT, bold=True), look.font(TEXT)
        half = self.height() / 2
        role = role_of(self.node.state)
        is_kept_back = role in ("amber", "plum")
        words = f"{self.node.state}: {self.node.words}" if is_kept_back else self.node.words
        painter.setPen(look.colour(role if is_kept_back else "ink"))
        for font, text, top in ((bold, words, 5.0), (plain, self.node.second, half - 1)):
            painter.setFont(font)
            metrics = QFontMetrics(font)
            if text == self.node.second and metrics.horizontalAdvance(text) > room:
                text = text.split(" · ")[0]  # the code alone: the weight is the line's thickness
            cut = metrics.elidedText(shown(text), Qt.TextElideMode.ElideRight, int(room))
            painter.drawText(QRectF(left, top, room, half - 3), Qt.AlignmentFlag.AlignVCenter, cut)
            painter.setPen(look.colour("quiet"))
