"""The page of cutting sessions: one is begun, or the open one is looked at; the roster stands beside."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.block.roster_sheet import RosterSheet
from gametrace.desktop.block.session_begin import BeginSheet
from gametrace.desktop.block.session_now import SessionNow
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import column, row


class SessionPage(QWidget):
    """Signals: back_wanted(): to the lots that may be cut."""

    back_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.begin, self.roster, self.now = BeginSheet(look, today), RosterSheet(look), SessionNow(look)
        self.back = Button("Back to the block")
        self.roster_key = Button("Roster and new session")
        self.begin_face = QWidget()
        left = ScrollColumn()
        left.add(self.begin, 1)
        both = row(gap=24)
        both.addWidget(left, 1)
        both.addWidget(self.roster, 1)
        self.begin_face.setLayout(both)
        self.stack = QStackedWidget()
        for face in (self.begin_face, self.now):
            self.stack.addWidget(face)
        whole = column(row(self.back, self.roster_key, 1, gap=8), self.stack, gap=8)
        whole.setStretch(1, 1)
        self.setLayout(whole)
        self.setFocusProxy(self.back)  # the first of the page, so that Tab comes to all of it
        self.back.clicked.connect(self.back_wanted)
        self.roster_key.clicked.connect(self.turn)

    def show_now(self, is_open: bool) -> None:
        """The open session, or the sheet on which one is begun."""
        self.stack.setCurrentWidget(self.now if is_open else self.begin_face)
        set_reading_order(self)
        self.roster_key.setText("Roster and new session" if is_open else "The open session")

    def turn(self) -> None:
        """Between the open session and the roster."""
        self.show_now(not self.is_now)
        self.take_hand()

    def take_hand(self) -> None:
        """The hand goes where one mostly begins."""
        (self.now.lay if self.is_now else self.begin.group).setFocus()

    @property
    def is_now(self) -> bool:
        return self.stack.currentWidget() is self.now
