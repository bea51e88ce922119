"""One answer of the key: its number, its drawing and its words, large enough for a glove."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QSizePolicy, QWidget

from gametrace.desktop.guide.trait_card import card_text_flags, drawing_of, paint_card
from gametrace.desktop.look import Look
from gametrace.desktop.style import TEXT
from gametrace.facts.identification import Question

MOST = 7
_ACROSS = {1: 1, 2: 2, 3: 3, 4: 2, 5: 3, 6: 3, 7: 4}


class AnswerButton(QAbstractButton):
    """Pressing it, Enter, Space or its number answers."""

    def __init__(self, look: Look, number: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.number = look, number
        self._drawing = self._words = ""
        self._was_given = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.updateGeometry)

    def show_answer(self, drawing: str, words: str, was_given: bool) -> None:
        self._drawing, self._words, self._was_given = drawing, words, was_given
        self.setAccessibleName(f"{self.number}: {words}{', answered so before' if was_given else ''}")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(180), self._look.px(168))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(100), self._look.px(130))

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        ground, ink = ("ink", "sheet") if self._was_given or self.isDown() else ("sheet", "ink")
        painter.setPen(QPen(look.colour("line"), 1))
        painter.setBrush(look.colour(ground))
        painter.drawRoundedRect(box, 4, 4)
        room = QRectF(box.left() + 8, 0, box.width() - 16, 400)
        foot = self._foot(room)
        card = QRectF(box.left() + 8, box.top() + 8, box.width() - 16, box.height() - foot - 8)
        paint_card(painter, look, self._drawing, card)
        painter.setFont(look.font(TEXT))
        painter.setPen(look.colour(ink))
        under = QRectF(room.left(), box.bottom() - foot, room.width(), foot)
        painter.drawText(under, card_text_flags(), self.words)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(look.colour("pine"), 4))
            painter.drawRoundedRect(box.adjusted(2, 2, -2, -2), 4, 4)

    @property
    def words(self) -> str:
        return f"{self.number}  {self._words}"

    def _foot(self, room: QRectF) -> int:
        """The room for words that the longest answer needs: all drawings of a question are of one size."""
        grid = self.parentWidget()
        buttons = grid.shown if isinstance(grid, AnswerGrid) else [self]
        metrics = QFontMetrics(self._look.font(TEXT))
        heights = [
            metrics.boundingRect(room.toRect(), card_text_flags(), one.words).height() for one in buttons
        ]
        return max(heights) + self._look.px(10)

    def keyPressEvent(self, event) -> None:
        """Enter answers as Space does; arrows walk over the grid."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.click()
            return
        grid = self.parentWidget()
        if isinstance(grid, AnswerGrid) and grid.walk(self, event.key()):
            return
        super().keyPressEvent(event)


class AnswerGrid(QWidget):
    """The answers to one question. The buttons are made once and given other answers.

    Signals: answered(str): an answer's id.
    """

    answered = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._ids: tuple[str, ...] = ()
        self._across = 1
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(8)
        self.buttons = [AnswerButton(look, number, self) for number in range(1, MOST + 1)]
        for button in self.buttons:
            button.clicked.connect(partial(self._clicked, button.number))

    def show_question(self, asked: Question | None, given: str = "") -> None:
        """Its answers, with the one given before marked; nothing for None."""
        answers = asked.answers if asked is not None else ()
        self._ids = tuple(known for known, _ in answers)
        self._across = _ACROSS.get(len(answers), 4)
        for at, button in enumerate(self.buttons):
            self._grid.removeWidget(button)
            button.setVisible(at < len(answers))
            if asked is not None and at < len(answers):
                known, words = answers[at]
                button.show_answer(drawing_of(asked.id, known), words, known == given)
                self._grid.addWidget(button, at // self._across, at % self._across)

    @property
    def shown(self) -> list[AnswerButton]:
        return self.buttons[: len(self._ids)]

    def press(self, number: int) -> bool:
        """The answer with this number; False where there is none."""
        if not 1 <= number <= len(self._ids):
            return False
        self.buttons[number - 1].click()
        return True

    def walk(self, button: AnswerButton, key: int) -> bool:
        steps: dict[int, int] = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        steps |= {Qt.Key.Key_Up: -self._across, Qt.Key.Key_Down: self._across}
        if key not in steps:
            return False
        at = button.number - 1 + steps[key]
        if 0 <= at < len(self._ids):
            self.buttons[at].setFocus(Qt.FocusReason.TabFocusReason)
        return True

    def focus_first(self) -> bool:
        if not self._ids:
            return False
        self.buttons[0].setFocus(Qt.FocusReason.OtherFocusReason)
        return True

    def _clicked(self, number: int) -> None:
        if number <= len(self._ids):
            self.answered.emit(self._ids[number - 1])
