"""The laboratory's answer for a wild boar: what waits for it, the form, what to do when it is positive."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.domain.boar import NEGATIVE, POSITIVE


class BoarPage(QWidget):
    """Signals: wanted(): write the result down. notice_wanted(), trace_wanted()."""

    wanted = Signal()
    notice_wanted = Signal()
    trace_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sign = StateSign(look)
        self.said = Words("", "large")
        self.who = Words("", "strong")
        self.form = Form("The laboratory's paper", "Write the result down")
        self.form.line("reference", "Its reference", most=80)
        self.form.choice("result", "Its result", ((NEGATIVE, "Negative"), (POSITIVE, "Positive")))
        self.form.finish()
        self.notice = Button("Print what to do, for the door")
        self.trace = Button("Trace what was made of it")
        self.list_title = Words("", "heading")
        self.lines = column(gap=8)
        self.panel = FindingPanel(look, asks=False)
        for button in (self.notice, self.trace):
            button.setAutoDefault(True)
        left = ScrollColumn()
        for part in (self.sign, self.said, self.who, self.form, row(self.notice, self.trace, 1), self.panel):
            left.add(part)
        left.add_stretch()
        right = ScrollColumn()
        right.add(self.list_title)
        right.add(self.lines)
        right.add_stretch()
        both = row(left, right, gap=32)
        both.setStretch(0, 1)
        both.setStretch(1, 1)
        self.setLayout(both)
        self.setFocusProxy(self.form.fields["reference"].inner)
        self.form.wanted.connect(self.wanted)
        self.notice.clicked.connect(self.notice_wanted)
        self.trace.clicked.connect(self.trace_wanted)

    def show_lines(self, title: str, lines: Sequence[tuple[str, str]], *, numbered: bool) -> None:
        """What is held, or what to do, each with its source and standing."""
        self.list_title.say(title)
        clear(self.lines)
        for at, (words, standing) in enumerate(lines, 1):
            said = f"{at}. {words}" if numbered else words[:1].upper() + words[1:]
            self.lines.addLayout(column(Words(said, "large"), Words(standing, "quiet"), gap=0))
