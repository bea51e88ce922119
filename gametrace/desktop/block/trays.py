"""The trays of a break-down in the order they were weighed: what, its code, its weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gametrace.desktop.look import Look
from gametrace.desktop.parts.balance_bar import fill_part
from gametrace.desktop.parts.state_sign import paint_sign, role_of, shown_state
from gametrace.desktop.parts.use_by import kg_aligned
from gametrace.desktop.parts.words import shown
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import kg_figure, kg_text

_TRAY = Qt.ItemDataRole.UserRole
ROW = 56


@dataclass(frozen=True, slots=True)
class Tray:
    """One weighing as the list shows it. `sort` as in the bar."""

    code: str
    name: str
    grams: int
    sort: str = "meat"
    by: str = ""
    state: str = ""  # its sign is drawn instead of the strip where given


class _Delegate(QStyledItemDelegate):
    """Name over code, weight at the right, and a strip in the colour the bar has for it."""

    def __init__(self, look: Look, parent=None) -> None:
        super().__init__(parent)
        self._look = look
        self.to_the_gram = False  # whether any weight has a third place to align on

    def sizeHint(self, option, index) -> QSize:
        return QSize(120, self._look.px(ROW))

    def paint(self, painter, option, index) -> None:
        look, tray = self._look, index.data(_TRAY)
        opt = QStyleOptionViewItem(option)
        self.initStyleOption(opt, index)
        opt.text = ""
        opt.widget.style().drawControl(QStyle.ControlElement.CE_ItemViewItem, opt, painter, opt.widget)
        room = QRectF(option.rect).adjusted(4, 4, -8, -4)
        painter.save()
        if tray.state:
            side = look.px(28)
            box = QRectF(room.left() + 4, room.center().y() - side / 2, side, side)
            paint_sign(painter, box, tray.state, look)
            room.setLeft(box.right() + 10)
        else:
            fill_part(painter, QRectF(room.left(), room.top(), 8, room.height()), tray.sort, look)
            room.setLeft(room.left() + 14)
        painter.setFont(look.font(TEXT, bold=True))
        painter.setPen(look.colour("ink"))
        upper = QRectF(room.left(), room.top(), room.width(), room.height() / 2)
        lower = QRectF(room.left(), room.center().y(), room.width(), room.height() / 2)
        middle = Qt.AlignmentFlag.AlignVCenter
        figure = kg_aligned(tray.grams) if self.to_the_gram else kg_figure(tray.grams)
        painter.drawText(upper, middle | Qt.AlignmentFlag.AlignRight, figure)
        upper.setRight(upper.right() - painter.fontMetrics().horizontalAdvance(figure) - 8)
        name = painter.fontMetrics().elidedText(
            shown(tray.name, 80), Qt.TextElideMode.ElideRight, int(upper.width())
        )
        painter.drawText(upper, middle | Qt.AlignmentFlag.AlignLeft, name)
        painter.setFont(look.font(TEXT))
        painter.setPen(look.colour("quiet"))
        painter.drawText(lower, middle | Qt.AlignmentFlag.AlignLeft, tray.code)
        state = shown_state(tray.state)
        if state:
            painter.setPen(look.colour(role_of(tray.state)))
        painter.drawText(lower, middle | Qt.AlignmentFlag.AlignRight, state or tray.by)
        painter.restore()


class TrayList(QListWidget):
    """Signals: picked(str): the code of the tray under the hand, '' when none is. chosen(str): by Enter or a
    press."""

    picked = Signal(str)
    chosen = Signal(str)

    def __init__(self, look: Look, name: str = "Trays weighed", parent=None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._delegate = _Delegate(look, self)
        self.setItemDelegate(self._delegate)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.currentItemChanged.connect(self._moved)
        self.itemClicked.connect(self._choose)

    def set_trays(self, trays: Sequence[Tray]) -> None:
        """Show these; the last one in sight when there is a new one, the picked one stays picked."""
        self._delegate.to_the_gram = any(tray.grams % 10 for tray in trays)
        kept, many = self.picked_code(), self.count()
        self.blockSignals(True)
        self.clear()
        for tray in trays:
            item = QListWidgetItem()
            item.setData(_TRAY, tray)
            words = ", ".join(filter(None, (tray.name, kg_text(tray.grams), tray.code, tray.state)))
            item.setData(Qt.ItemDataRole.AccessibleTextRole, words)
            self.addItem(item)
            if tray.code == kept:
                self.setCurrentItem(item)
        self.blockSignals(False)
        if len(trays) > many:
            self.scrollToBottom()
        if kept != self.picked_code():
            self.picked.emit(self.picked_code())

    def picked_tray(self) -> Tray | None:
        item = self.currentItem()
        return item.data(_TRAY) if item is not None else None

    def picked_code(self) -> str:
        tray = self.picked_tray()
        return tray.code if tray else ""

    def pick(self, code: str) -> None:
        for at in range(self.count()):
            if self.item(at).data(_TRAY).code == code:
                self.setCurrentRow(at)
                return

    def let_go(self) -> None:
        """No tray is picked."""
        self.setCurrentRow(-1)

    def trays(self) -> tuple[Tray, ...]:
        return tuple(self.item(at).data(_TRAY) for at in range(self.count()))

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.picked_code():
            self._choose()
            return
        super().keyPressEvent(event)

    def _choose(self) -> None:
        self.chosen.emit(self.picked_code())

    def _moved(self) -> None:
        self.picked.emit(self.picked_code())
