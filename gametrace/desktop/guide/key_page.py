"""The key: one question at a time with its drawings, the kinds it leaves beside it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from gametrace.desktop.guide.answer_button import AnswerGrid
from gametrace.desktop.guide.candidates_part import CandidatesPart
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, row
from gametrace.facts.identification import Question


class KeyPage(QWidget):
    """Numbers answer, 0 passes a question by, Backspace goes back to the one before.

    Signals: answered(str), passed(), back(), anew(), body_changed(bool, bool): in the skin, head on.
    """

    answered = Signal(str)
    passed = Signal()
    back = Signal()
    anew = Signal()
    body_changed = Signal(bool, bool)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.asks = Words("", "title")
        self.far = Words("", "quiet", wrap=False)
        self.skin, self.head = _toggle(), _toggle()
        self.lost, self.lost_rests = Words("", "amber"), Words("", "quiet")
        self.grid = AnswerGrid(look)
        self.source = Words("", "quiet")
        self.none = Button("0: not seen", name="0: it cannot be seen")
        self.before = Button("Backspace: back", name="Backspace: back one question")
        self.again = Button("Start anew")
        self.candidates = CandidatesPart(look)
        self.left = ScrollColumn()
        self.left.body.setSpacing(8)
        top = row(self.asks, self.far, self.skin, self.head, gap=8)
        top.setStretch(0, 1)
        self.left.add(top)
        self.left.add(self.lost)
        self.left.add(self.lost_rests)
        self.left.add(self.grid, 1)
        self.left.add(self.source)
        self.left.add(row(self.none, self.before, self.again, 1, gap=8))
        sides = row(self.left, self.candidates, gap=8)
        sides.setStretch(0, 9)
        sides.setStretch(1, 5)
        self.setLayout(sides)
        self.grid.answered.connect(self.answered)
        self.none.clicked.connect(self.passed)
        self.before.clicked.connect(self.back)
        self.again.clicked.connect(self.anew)
        for toggle in (self.skin, self.head):
            toggle.clicked.connect(self._body_changed)
        self.show_body(in_skin=True, head_on=True, lost="", rests="")

    def show_body(self, *, in_skin: bool, head_on: bool, lost: str, rests: str) -> None:
        """What is still there to be looked at, and what cannot be told without the rest."""
        _say(self.skin, in_skin, "In the skin", "Skinned")
        _say(self.head, head_on, "Head on", "Head off")
        for line, words in ((self.lost, lost), (self.lost_rests, rests)):
            line.say(words)
            line.setVisible(bool(words))

    def show_question(self, asked: Question | None, given: str, far: str, source: str) -> None:
        """The question with its answers; `far` says how far it is. None when nothing more can be asked."""
        self.asks.say(asked.asks if asked is not None else "Nothing more can be asked of it.")
        self.far.say(far)
        self.source.say(source)
        self.source.setVisible(bool(source))
        self.grid.show_question(asked, given)
        self.none.setEnabled(asked is not None)

    def focus_first(self) -> None:
        if not self.grid.focus_first():
            self.before.setFocus()

    def _body_changed(self) -> None:
        self.body_changed.emit(self.skin.isChecked(), self.head.isChecked())


def _toggle() -> QPushButton:
    made = QPushButton()
    made.setProperty("role", "choice")
    made.setCheckable(True)
    made.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
    return made


def _say(toggle: QPushButton, is_on: bool, when_on: str, when_off: str) -> None:
    toggle.setChecked(is_on)
    words = when_on if is_on else when_off
    toggle.setText(words)
    toggle.setAccessibleName(f"The body: {words.lower()}. Press to change")
