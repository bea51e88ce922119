"""A day of the register, group by group, with the days before and after at hand."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import GAP
from gametrace.register.day_page import DayLine, DayPage, title_of

MOST_LINES = 80  # of one group on the screen; the paper has them all


class DayPart(QWidget):
    """Signals: turned(int): so many days on. print_wanted(). followed(str): trace this."""

    turned = Signal(int)
    print_wanted = Signal()
    followed = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._look = look
        self.title = Words("", "title", wrap=False)
        self.before = Button("Day before")
        self.after = Button("Day after")
        self.print_button = BigButton("Print this day")
        self.groups = ScrollColumn()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(row(self.title, 1, self.before, self.after, self.print_button))
        layout.addWidget(self.groups, 1)
        self.before.clicked.connect(partial(self.turned.emit, -1))
        self.after.clicked.connect(partial(self.turned.emit, 1))
        self.print_button.clicked.connect(self.print_wanted)

    def show_page(self, page: DayPage, *, is_last: bool) -> None:
        self.title.say(title_of(page))
        self.after.setEnabled(not is_last)
        self.groups.start_anew()
        for head, lines in page.groups:
            sheet = Sheet(head)
            for line in lines[:MOST_LINES]:
                sheet.add(self._line(line))
            if len(lines) > MOST_LINES:
                sheet.add(Words(f"and {len(lines) - MOST_LINES} more: print this day.", "quiet"))
            if not lines:
                sheet.add(Words("None on this day.", "quiet"))
            self.groups.add(sheet)
        self.groups.add_stretch()

    def _line(self, line: DayLine) -> QWidget:
        made = QWidget()
        words = column(Words(line.sentence), gap=0)
        if line.code:
            follow = Button("Trace it", name=f"Trace {line.code}")
            follow.clicked.connect(partial(self.followed.emit, line.code))
            inner = row(words, follow)
            inner.setStretch(0, 1)
            made.setLayout(inner)
        else:
            made.setLayout(words)
        return made
