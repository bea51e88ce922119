"""An open session: its tables with their bars, who cut what so far, and the way to close it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.block.session_strip import TableFace, TableTab
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.use_by import kg_aligned
from gametrace.desktop.parts.words import Words, clear, column, row


class SessionNow(QWidget):
    """Signals: table_wanted(str): a table. lay_wanted(): something else is laid on a table. mix_wanted().
    trace_wanted(str): of a tray. close_wanted(str): with this reason. other_wanted(str): an open session."""

    table_wanted = Signal(str)
    lay_wanted = Signal()
    mix_wanted = Signal()
    trace_wanted = Signal(str)
    close_wanted = Signal(str)
    other_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.title = Words("", "title")
        self.about = Words("", "quiet")
        self.others = row(gap=8)
        self.tables = column(gap=8)
        self.tabs: dict[str, TableTab] = {}
        self.lay = BigButton("Lay something on a table")
        self.mix = Button("Make mince")
        self.reason = Field("Why it ends with meat on a table", QLineEdit(), name="reason")
        self.reason.inner.setMaxLength(500)
        self.reason.hide()
        self.close_key = Button("Close the session")
        self.who = Words("Who cut what", "heading")
        self.cuts = RecordTable(
            look,
            "Who cut what",
            (
                Column("cutter", "Who", lambda one: one.cutter or "not said", 100),
                Column("name", "What", lambda one: one.name),
                Column("grams", "kg", lambda one: kg_aligned(one.grams), 90, lambda one: one.grams, True),
                Column("station", "Table", lambda one: one.station, 110),
                Column("code", "Code", lambda one: one.code, 140),
            ),
            lambda one: one.code,
        )
        self.none = Words("Nothing has been weighed at a table yet.", "quiet")
        self._build()
        self.lay.clicked.connect(self.lay_wanted)
        self.mix.clicked.connect(self.mix_wanted)
        self.close_key.clicked.connect(self._close)
        self.reason.inner.returnPressed.connect(self._close)
        self.cuts.chosen.connect(self._trace)

    def _build(self) -> None:
        left = ScrollColumn()
        left.add(self.tables)
        left.add(row(self.lay, self.mix, 1))
        left.add(self.reason)
        left.add(row(self.close_key, 1))
        left.add_stretch()
        right = column(self.who, self.none, self.cuts, gap=8)
        right.setStretch(2, 1)
        right.addStretch(0)
        both = row(gap=24)
        both.addWidget(left, 5)
        both.addLayout(right, 6)
        head = row(column(self.title, self.about, gap=0), self.others)
        head.setStretch(0, 1)
        whole = column(head, both)
        whole.setStretch(1, 1)
        self.setLayout(whole)

    def show_session(self, title: str, about: str, faces: Sequence[TableFace], cuts: Sequence[Any]) -> None:
        self.title.say(title)
        self.about.say(about)
        if [face.name for face in faces] != list(self.tabs):
            clear(self.tables)
            self.tabs = {}
            for face in faces:
                tab = TableTab(self._look, face)
                tab.setCheckable(False)
                tab.setMaximumWidth(16_777_215)
                tab.clicked.connect(partial(self.table_wanted.emit, face.name))
                self.tables.addWidget(tab)
                self.tabs[face.name] = tab
            set_reading_order(self)
        for face in faces:
            self.tabs[face.name].show_face(face)
        self.cuts.set_records(cuts)
        self.none.setVisible(not cuts)
        self.cuts.setVisible(bool(cuts))

    def set_others(self, sessions: Sequence[tuple[str, str]]) -> None:
        """Other sessions that are open: code, words."""
        clear(self.others)
        for code, words in sessions[:2]:
            button = Button(words, name=f"Go to session {words}")
            button.clicked.connect(partial(self.other_wanted.emit, code))
            self.others.addWidget(button)

    def refuse(self, sentence: str) -> None:
        self.reason.show()
        self.reason.refuse(sentence)
        self.reason.inner.setFocus()

    def done(self) -> None:
        self.reason.inner.clear()
        self.reason.clear_refusal()
        self.reason.hide()

    def _close(self) -> None:
        self.close_wanted.emit(self.reason.inner.text())

    def _trace(self, one: Any) -> None:
        self.trace_wanted.emit(one.code)
