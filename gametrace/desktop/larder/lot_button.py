"""One lot on a shelf, or one that lies nowhere yet: sign, number, what it is and what is left of it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import paint_sign, role_of, shown_state
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import kg_text
from gametrace.register.records import Lot

HEIGHT = 60


class LotButton(QAbstractButton):
    """Enter, Space or a press chooses it."""

    def __init__(self, look: Look, lot: Lot, days: int | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.lot, self._days = look, lot, days
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        where = f", {lot.where}" if lot.place else ""
        self.setAccessibleName(f"{lot.code} {lot.name}, {kg_text(lot.grams)}, {lot.state}{where}")
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(230), self._look.px(HEIGHT))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(180), self._look.px(HEIGHT))

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.colour("chosen" if self.isChecked() else "sheet"))
        side = look.px(28)
        paint_sign(
            painter, QRectF(8, (self.height() - side) / 2, side, side), self.lot.state, look, self._days
        )
        left = side + 20
        room = self.width() - left - 8
        bold = look.font(TEXT, bold=True)
        plain = look.font(TEXT)
        weight = kg_text(self.lot.grams)
        upper, lower = (
            QRectF(left, 4, room, self.height() / 2 - 4),
            QRectF(left, self.height() / 2, room, self.height() / 2 - 4),
        )
        painter.setFont(bold)
        painter.setPen(look.colour("ink"))
        painter.drawText(upper, Qt.AlignmentFlag.AlignVCenter, self.lot.code)
        painter.setFont(plain)
        painter.drawText(upper, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, weight)
        state = shown_state(self.lot.state)
        if state:  # four states share the crossed square, so the word stands here too
            painter.setPen(look.colour(role_of(self.lot.state)))
            painter.drawText(lower, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, state)
            painter.setPen(look.colour("ink"))
            room -= QFontMetrics(plain).horizontalAdvance(state) + 10
        name = QFontMetrics(plain).elidedText(self.lot.name, Qt.TextElideMode.ElideRight, int(room))
        painter.drawText(lower, Qt.AlignmentFlag.AlignVCenter, name)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))
