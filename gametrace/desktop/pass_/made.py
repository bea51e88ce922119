"""A dish just made: its code very large, its label, its trace, and on to the next."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.words import Words, column, row


class MadePage(QWidget):
    """Signals: label_wanted(str), trace_wanted(str), open_wanted(str): the code. next_wanted()."""

    open_wanted = Signal(str)
    label_wanted = Signal(str)
    trace_wanted = Signal(str)
    next_wanted = Signal()
    price_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._code = ""
        self.code = Words("", "weight", wrap=False)
        self.name = Words("", "title")
        self.about = Words("", "large")
        self.loud = Loud(look)
        self.next = BigButton("Next dish")
        self.label = Button("Print its label")
        self.trace = Button("Trace it")
        self.price = Button("Cost and price", name="What it cost and its price")
        self.open = Button("Cooked, served…", name="Its records: cooked, served, left over")
        acts = row(self.next, self.open, self.label, self.trace, self.price, 1)
        self.setLayout(column(1, self.name, self.code, self.about, acts, self.loud, 2))
        self.next.clicked.connect(self.next_wanted)
        self.open.clicked.connect(self._want_open)
        self.label.clicked.connect(self._want_label)
        self.trace.clicked.connect(self._want_trace)
        self.price.clicked.connect(self._want_price)
        self.setFocusProxy(self.next)

    def show_dish(self, code: str, name: str, about: str) -> None:
        self._code = code
        self.code.say(code)
        self.name.say(name)
        self.about.say(about)
        self.loud.hush()

    def _want_label(self) -> None:
        self.label_wanted.emit(self._code)

    def _want_trace(self) -> None:
        self.trace_wanted.emit(self._code)

    def _want_price(self) -> None:
        self.price_wanted.emit(self._code)

    def _want_open(self) -> None:
        self.open_wanted.emit(self._code)
