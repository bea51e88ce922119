"""The other three faces of a page: empty (what it is for, the first act), busy (progress, a way to stop),
broken (what happened, what is safe, what to do)."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import APART, GAP


class _Face(QWidget):
    """A few words in the middle, left-aligned, with one act."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self.title = Words("", "title")
        self.sentence = Words("", "large")
        self.more = Words("", "quiet")
        outer = QVBoxLayout(self)
        outer.setContentsMargins(APART, APART, APART, APART)
        outer.addStretch(1)
        self.body = QVBoxLayout()
        self.body.setSpacing(GAP)
        for words in (self.title, self.sentence, self.more):
            self.body.addWidget(words)
        # The width is bounded one level up: a label bounded itself is given too few lines for its words.
        middle = QWidget()
        middle.setMaximumWidth(880)
        middle.setLayout(self.body)
        across = QHBoxLayout()
        across.addWidget(middle, 1)
        across.addStretch(0)
        outer.addLayout(across)
        outer.addStretch(2)

    def say(self, title: str, sentence: str, more: str = "") -> None:
        for words, text in ((self.title, title), (self.sentence, sentence), (self.more, more)):
            words.say(text)
            words.setVisible(bool(text))


class Faces(QStackedWidget):
    """A page and its other three faces.

    Signals: act_wanted(): the act offered on the empty face. stop_wanted(): on the busy face.
    again_wanted(): on the broken face.
    """

    act_wanted = Signal()
    stop_wanted = Signal()
    again_wanted = Signal()

    def __init__(self, body: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.page = body
        self.empty, self.busy, self.broken = _Face(), _Face(), _Face()
        self.act = BigButton("")
        self.stop = Button("Stop")
        self.again = BigButton("Try again")
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setMaximumWidth(640)
        left = Qt.AlignmentFlag.AlignLeft
        self.empty.body.addWidget(self.act, 0, left)
        self.busy.body.addWidget(self.bar)
        self.busy.body.addWidget(self.stop, 0, left)
        self.broken.body.addWidget(self.again, 0, left)
        for face in (body, self.empty, self.busy, self.broken):
            self.addWidget(face)
        self.act.clicked.connect(self.act_wanted)
        self.stop.clicked.connect(self.stop_wanted)
        self.again.clicked.connect(self.again_wanted)

    def show_page(self) -> None:
        self.setCurrentWidget(self.page)

    def show_empty(self, title: str, sentence: str, act: str = "") -> None:
        """What the page is for, and the first act."""
        self.empty.say(title, sentence)
        self.act.setText(act)
        self.act.setAccessibleName(act)
        self.act.setVisible(bool(act))
        self.setCurrentWidget(self.empty)

    def show_busy(self, title: str, words: str = "", *, can_stop: bool = True) -> None:
        self.busy.say(title, words)
        self.bar.setRange(0, 0)
        self.stop.setVisible(can_stop)
        self.setCurrentWidget(self.busy)

    def say_progress(self, done: int, total: int, words: str = "") -> None:
        self.bar.setRange(0, max(total, 0))
        self.bar.setValue(done)
        if words:
            self.busy.sentence.say(words)
            self.busy.sentence.show()

    def show_broken(self, what: str, what_is_safe: str, what_to_do: str, *, can_retry: bool = True) -> None:
        self.broken.say(what, what_to_do, what_is_safe)
        self.again.setVisible(can_retry)
        self.setCurrentWidget(self.broken)
