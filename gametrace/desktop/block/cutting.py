"""One lot on the block: what it is at the top, what comes off it in the middle, the scale, the balance."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.block.balance import BalanceColumn
from gametrace.desktop.block.offering import Offering
from gametrace.desktop.block.state_box import CodeBox
from gametrace.desktop.block.weighing import MODES, PackPanel, Weighing
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART


class CuttingPage(QWidget):
    """Signals: mode_changed(str): tray | packs. next_wanted(), trace_wanted(str): from a closed one."""

    mode_changed = Signal(str)
    next_wanted = Signal()
    trace_wanted = Signal(str)
    costs_wanted = Signal(str)  # what it came to and what it cost

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.code = ""
        self.offering = Offering(look)
        self.mode = ChoiceRow(MODES, value="tray", name="Weigh")
        keep_width(look, self.mode, 190)
        self.packs = PackPanel(look)
        self.weighing = Weighing(look)
        self.cutter = CodeBox("Who cuts", "cut by")
        self.pad_key = Button("123", name="Show the number pad")
        self.pad_key.setCheckable(True)
        self.balance = BalanceColumn(look)
        keep_width(look, self.balance, 352)
        self.specimen = Loud(look)
        self._build(look)
        self.mode.changed.connect(self._mode_chosen)
        self.offering.settled.connect(self.weighing.grams.select)
        self.pad_key.toggled.connect(self.offering.show_pad)
        self.offering.pad.struck.connect(self.weighing.strike)
        self.next.clicked.connect(self.next_wanted)
        self.trace.clicked.connect(self._want_trace)
        self.costs.clicked.connect(self._want_costs)
        self.setFocusProxy(self.offering)
        self.set_mode("tray")

    def hasHeightForWidth(self) -> bool:
        """The page is as high as there is room: its lists shrink before anything scrolls."""
        return False

    def _build(self, look: Look) -> None:
        self.closed_words = Words("", "title")
        self.closed_about = Words("What is unaccounted stays on view, here and in the trace.", "large")
        self.next = BigButton("Cut the next one")
        self.trace = Button("Trace it")
        self.costs = Button("Yields and cost", name="What it came to and what it cost")
        self.closed = QWidget()
        self.closed.setLayout(
            column(1, self.closed_words, self.closed_about, row(self.next, self.costs, self.trace, 1), 2)
        )
        self.offering.first_line.insertWidget(0, self.mode)
        for widget, stretch in ((self.cutter, 1), (self.pad_key, 0)):
            self.offering.last_line.addWidget(widget, stretch)
        self.offering.last_line.setStretch(0, 1)
        self.work = QWidget()
        self.work.setLayout(column(self.specimen, self.offering, self.packs, self.weighing, gap=8))
        self.work.layout().setStretch(1, 1)
        left = column(self.work, self.closed)
        whole = row(left, self.balance, gap=APART)
        whole.setStretch(0, 1)
        self.setLayout(whole)
        self.closed.hide()

    def set_mode(self, mode: str) -> None:
        self.mode.set_value(mode)
        self.packs.setVisible(mode == "packs")
        self.weighing.weigh.setText("Pack" if mode == "packs" else "Weigh")
        self.weighing.weigh.setAccessibleName("Pack" if mode == "packs" else "Weigh the tray")

    def show_closed(self, sentence: str) -> None:
        """The block is closed: only the sum is left to look at."""
        self.work.setVisible(not sentence)
        self.closed.setVisible(bool(sentence))
        self.closed_words.say(sentence)
        self.balance.set_closed(bool(sentence))
        if sentence:
            self.balance.show_trays()
            self.balance.trays.let_go()

    def _mode_chosen(self, mode: str) -> None:
        self.set_mode(mode)
        self.mode_changed.emit(mode)

    def _want_trace(self) -> None:
        self.trace_wanted.emit(self.code)

    def _want_costs(self) -> None:
        self.costs_wanted.emit(self.code)
