"""The stop page: a sign of a notifiable disease was seen. It fills the station until a person goes back.

What to do stands large at the left; the sign, the hold, the call and the notice for the door at the right.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.state_sign import SignFace, StateSign
from gametrace.desktop.parts.words import Words, clear, column, row


class StopPage(QWidget):
    """Signals: hold_wanted(), slip(), call_wanted(), notice_wanted(), back_wanted()."""

    hold_wanted = Signal()
    slip = Signal()
    call_wanted = Signal()
    notice_wanted = Signal()
    back_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Words("", "title")
        self.seen = Words("", "large")
        self.ring = Words("", "title")
        self.standing = Words("", "quiet")
        self.steps = QGridLayout()
        self.steps.setHorizontalSpacing(16)
        self.steps.setVerticalSpacing(8)
        self.steps.setColumnStretch(1, 1)
        self.rest_on = Words("", "quiet")
        self.sign = StateSign(look)
        self.sighting = Form("What was seen", "Hold it, and write it down")
        self.sighting.line("note", "The sign, and where", hint="lumps in the lungs", most=300)
        self.sighting.finish()
        self.slip_button = Button("A slip: there is no such sign")
        self.call = Form("The call", "Write the call down")
        self.call.line("spoken_by", "Who was spoken to", hint="name, office", most=120)
        self.call.line("answer", "What they said", most=500)
        self.call.finish()
        self.calls = Words("")
        self.notice = Button("Print the notice for the door")
        self.back = Button("Back to the examination")
        self._build(look)
        self.sighting.wanted.connect(self.hold_wanted)
        self.slip_button.clicked.connect(self.slip)
        self.call.wanted.connect(self.call_wanted)
        self.notice.clicked.connect(self.notice_wanted)
        self.back.clicked.connect(self.back_wanted)
        for button in (self.slip_button, self.notice, self.back):
            button.setAutoDefault(True)

    def _build(self, look: Look) -> None:
        face = SignFace(look, "rejected", size=56)
        head = row(face, self.title, gap=16)
        head.setStretch(1, 1)
        left = ScrollColumn()
        left.body.setSpacing(8)
        for part in (head, self.seen, self.ring, self.standing, self.steps, self.rest_on):
            left.add(part)
        left.add_stretch()
        right = ScrollColumn()
        for item in (
            self.sign,
            self.sighting,
            self.slip_button,
            self.call,
            self.calls,
            self.notice,
            self.back,
        ):
            right.add(item)
        right.add_stretch()
        both = row(left, right, gap=32)
        both.setStretch(0, 7)
        both.setStretch(1, 5)
        self.setLayout(column(both))

    def show_steps(self, steps: Sequence[str], rest_on: str) -> None:
        """What to do, in order, and under it what that rests on: all five are read without scrolling."""
        clear(self.steps)
        for at, step in enumerate(steps):
            number = Words(str(at + 1), "title", wrap=False)
            self.steps.addWidget(number, at, 0, Qt.AlignmentFlag.AlignTop)
            self.steps.addWidget(Words(step, "strong"), at, 1)
        self.rest_on.say(rest_on)

    def show_written(self, is_written: bool) -> None:
        """Before: the sign is written and held. After: the call and the notice."""
        self.sighting.setVisible(not is_written)
        self.slip_button.setVisible(not is_written)
        self.call.setVisible(is_written)
        self.notice.setVisible(is_written)
        self.back.setVisible(is_written)

    def focus_first(self) -> None:
        (self.call if self.sighting.isHidden() else self.sighting).focus_first()
