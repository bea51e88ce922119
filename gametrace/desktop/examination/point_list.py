"""Every point in the order of the body, a line each: where to look, what is as it should be, the answer.

Number keys 1 to 4 answer, arrows walk, Enter goes to the words. Answers differ by shape as well as colour.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from gametrace.desktop.examination.card import LookCard
from gametrace.desktop.look import Look as Dress
from gametrace.desktop.parts.state_sign import paint_sign
from gametrace.desktop.parts.words import shown
from gametrace.domain.examination import Answered, Look
from gametrace.facts.examination import Point, never_cut

LOOKS = (Look.AS_IT_SHOULD_BE, Look.NOT_SO, Look.NOT_PRESENT, Look.NOT_LOOKED_AT)
_SIGN = {
    Look.AS_IT_SHOULD_BE: "ready",
    Look.NOT_SO: "on hold",
    Look.NOT_PRESENT: "spent",
    Look.NOT_LOOKED_AT: "hanging",
}
_HEADS = {"point": "The body", "node": "Lymph nodes", "sign": "Signs that stop everything"}
_DATA = Qt.ItemDataRole.UserRole
ROW, HEAD, ANSWER_WIDTH = 58, 40, 188


@dataclass(frozen=True, slots=True)
class _Line:
    """What one row paints."""

    point: Point
    answer: Answered | None
    earlier: Answered | None
    earlier_stage: str


def head_words(kind: str) -> str:
    """The words over each part of the list."""
    return f"{_HEADS[kind]}. {never_cut().name}" if kind == "node" else _HEADS[kind]


class PointList(QListWidget):
    """Signals: answered(str, str): point and answer. moved(str): another point under the hand.
    words_wanted(str): Enter."""

    answered = Signal(str, str)
    moved = Signal(str)
    words_wanted = Signal(str)

    def __init__(self, look: Dress, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._items: dict[str, QListWidgetItem] = {}
        self._code = ""
        self.setAccessibleName("What is looked at. Keys 1 to 4 answer, Enter goes to the words")
        self.setItemDelegate(_Painter(look, self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.currentItemChanged.connect(self._moved)
        look.changed.connect(self.doItemsLayout)

    def show_card(self, card: LookCard) -> None:
        """All rows anew, the hand on the first open point unless it stood on one of this animal's."""
        kept = self.current() if card.code == self._code else ""
        self._code = card.code
        self.blockSignals(True)
        self.clear()
        self._items = {}
        kind = ""
        for point in card.points:
            if point.kind != kind:
                kind = point.kind
                head = QListWidgetItem(head_words(kind), self)
                head.setFlags(Qt.ItemFlag.NoItemFlags)
            item = QListWidgetItem(self)
            self._items[point.id] = item
            self._set(item, card, point)
        self.blockSignals(False)
        self.go_to(kept if kept in self._items else card.next_open("") or card.points[0].id)

    def show_answer(self, card: LookCard, point_id: str) -> None:
        """One row anew."""
        self._set(self._items[point_id], card, card.point(point_id))

    def _set(self, item: QListWidgetItem, card: LookCard, point: Point) -> None:
        line = _Line(point, card.answers.get(point.id), card.earlier.get(point.id), card.earlier_stage)
        item.setData(_DATA, line)
        said = line.answer.answer if line.answer else "no answer yet"
        note = f", {line.answer.note}" if line.answer and line.answer.note else ""
        before = f". {line.earlier_stage}: {line.earlier.answer}" if line.earlier else ""
        words = f"{point.name}, {point.where}: {said}{note}{before}. Should be {point.as_it_should_be}"
        item.setData(Qt.ItemDataRole.AccessibleTextRole, shown(words))

    def current(self) -> str:
        item = self.currentItem()
        line = item.data(_DATA) if item is not None else None
        return line.point.id if line is not None else ""

    def go_to(self, point_id: str) -> None:
        item = self._items.get(point_id)
        if item is not None:
            self.setCurrentItem(item)
            self.scrollToItem(item)

    def _moved(self, item: QListWidgetItem | None) -> None:
        if item is not None and item.data(_DATA) is not None:
            self.moved.emit(item.data(_DATA).point.id)

    def resizeEvent(self, event) -> None:
        """The point in hand stays in sight when the words under the list come and go."""
        super().resizeEvent(event)
        if self.currentItem() is not None:
            self.scrollToItem(self.currentItem())

    def keyPressEvent(self, event) -> None:
        at = event.key() - Qt.Key.Key_1
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if plain and 0 <= at < len(LOOKS) and self.current():
            self.answered.emit(self.current(), LOOKS[at].value)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current():
            self.words_wanted.emit(self.current())
        else:
            super().keyPressEvent(event)


class _Painter(QStyledItemDelegate):
    """Two lines a point, one in larger type; a head is one line."""

    def __init__(self, look: Dress, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(0, self._look.px(HEAD if index.data(_DATA) is None or self._is_short else ROW))

    @property
    def _is_short(self) -> bool:
        """In larger type one line a point: the one in hand is told in full under the list."""
        return self._look.scale > 1

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        look, box = self._look, QRect(option.rect)
        line: _Line | None = index.data(_DATA)
        painter.save()
        if line is None:
            painter.setFont(look.font(bold=True))
            painter.setPen(look.colour("pine"))
            self._text(painter, box.adjusted(look.px(8), 0, -look.px(8), 0), index.data())
            painter.restore()
            return
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(box, look.colour("chosen"))
            if option.state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(look.colour("pine"), 3))
                painter.drawRect(box.adjusted(2, 2, -2, -2))
        self._paint_line(painter, box.adjusted(look.px(10), look.px(4), -look.px(8), -look.px(4)), line)
        painter.restore()

    def _paint_line(self, painter: QPainter, box: QRect, line: _Line) -> None:
        look = self._look
        side, wide = look.px(22), look.px(ANSWER_WIDTH)
        half = box.height() if self._is_short else box.height() // 2
        given = line.answer
        if given is not None:
            face = QRectF(box.left(), box.top() + (box.height() - side) / 2, side, side)
            paint_sign(painter, face, _SIGN[Look(given.answer)], look)
        left = box.adjusted(side + look.px(10), 0, -wide, 0)
        right = QRect(box.right() - wide + look.px(8), box.top(), wide - look.px(8), box.height())
        painter.setPen(look.colour("ink"))
        painter.setFont(look.font(bold=True))
        self._text(painter, QRect(left.left(), left.top(), left.width(), half), line.point.name)
        used = painter.fontMetrics().horizontalAdvance(line.point.name) + look.px(10)
        painter.setFont(look.font())
        where = QRect(left.left() + used, left.top(), max(0, left.width() - used), half)
        painter.setPen(look.colour("quiet"))
        self._text(painter, where, line.point.where)
        if self._is_short:
            self._paint_answer(painter, right, line)
            return
        low = QRect(left.left(), left.top() + half, left.width(), half)
        if given is not None and given.note:
            painter.setPen(look.colour("amber" if given.answer == Look.NOT_SO else "ink"))
            self._text(painter, low, given.note)
        else:
            self._text(painter, low, line.point.as_it_should_be)
        self._paint_answer(painter, right, line)

    def _paint_answer(self, painter: QPainter, right: QRect, line: _Line) -> None:
        look, given = self._look, line.answer
        before = None if self._is_short else line.earlier
        half = right.height() // 2
        top = QRect(right.left(), right.top(), right.width(), half if before else right.height())
        painter.setPen(look.colour("amber" if given and given.answer == Look.NOT_SO else "ink"))
        painter.setFont(look.font(bold=bool(given and given.answer == Look.NOT_SO)))
        self._text(painter, top, given.answer if given else "–")
        if before is not None:
            painter.setFont(look.font())
            painter.setPen(look.colour("amber" if before.answer == Look.NOT_SO else "quiet"))
            under = QRect(right.left(), right.top() + half, right.width(), half)
            self._text(painter, under, f"was {before.answer}")

    @staticmethod
    def _text(painter: QPainter, box: QRect, text: str) -> None:
        fitting = painter.fontMetrics().elidedText(
            shown(text, 160), Qt.TextElideMode.ElideRight, max(0, box.width())
        )
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, fitting)
