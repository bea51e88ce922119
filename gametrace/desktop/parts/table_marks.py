"""Paints the sign of a state before a cell's words, and the words in the colour of what they say."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QRectF, Qt
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import paint_sign
from gametrace.desktop.style import TEXT


class MarkDelegate(QStyledItemDelegate):
    """For one column of a RecordTable. `sign` gives a state or ''; `tint` a palette role or ''."""

    def __init__(
        self,
        look: Look,
        *,
        sign: Callable[[Any], str] | None = None,
        tint: Callable[[Any], str] | None = None,
        days: Callable[[Any], int | None] | None = None,
        parent=None,
    ) -> None:
        super().__init__(parent)
        self._look, self._sign, self._tint, self._days = look, sign, tint, days

    def paint(self, painter, option, index) -> None:
        record = index.model().record(index.row())
        role = self._tint(record) if self._tint else ""
        state = self._sign(record) if self._sign else ""
        opt = QStyleOptionViewItem(option)
        self.initStyleOption(opt, index)
        words, opt.text = opt.text, ""
        style = opt.widget.style()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, opt, painter, opt.widget)
        room = QRectF(option.rect).adjusted(8, -1, -8, -3)
        painter.save()
        if state:
            side = min(self._look.px(28), room.height() - 8)
            box = QRectF(room.left(), room.center().y() - side / 2, side, side)
            paint_sign(painter, box, state, self._look, self._days(record) if self._days else None)
            room.setLeft(box.right() + 8)
        painter.setFont(self._look.font(TEXT, bold=bool(role)))
        painter.setPen(self._look.colour(role or "ink"))
        cut = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(room, int(opt.displayAlignment), cut)
        painter.restore()
