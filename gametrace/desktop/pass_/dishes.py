"""The dishes made, newest first; choose one to see its records, trace it or print its label again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.use_by import kg_aligned
from gametrace.desktop.parts.words import Words, column, row
from gametrace.register.clock import wall_day


def _portions(one: Any) -> str:
    return str(one.portions) if one.portions else "–"


class DishesPage(QWidget):
    """Signals: open_wanted(str), trace_wanted(str), label_wanted(str)."""

    open_wanted = Signal(str)
    trace_wanted = Signal(str)
    label_wanted = Signal(str)
    price_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.table = RecordTable(
            look,
            "Dishes made, newest first. Enter opens one",
            (
                Column("name", "Dish", lambda one: one.name),
                Column("code", "Code", lambda one: one.code, 150),
                Column(
                    "made",
                    "Made",
                    lambda one: weekday_text(wall_day(one.made_at)),
                    190,
                    lambda one: one.made_at,
                ),
                Column(
                    "grams",
                    "kg",
                    lambda one: kg_aligned(one.grams_made),
                    96,
                    lambda one: one.grams_made,
                    True,
                ),
                Column("portions", "Portions", _portions, 110, lambda one: one.portions, True),
            ),
            lambda one: one.code,
        )
        self.loud = Loud(look)
        self.none = Words("No dish has been made yet. Its packs are scanned under “Dish”.", "large")
        self.open = BigButton("Open it")
        self.trace = Button("Trace it")
        self.label = Button("Print its label")
        self.price = Button("Cost and price", name="What it cost and its price")
        foot = row(self.open, self.trace, self.label, self.price, self.loud, 1)
        foot.setStretch(4, 20)
        self.setLayout(column(self.none, self.table, foot, gap=8))
        self.layout().setStretch(1, 1)
        self.table.struck.connect(self._open)
        self.open.clicked.connect(self._open)
        self.table.moved.connect(self._moved)
        self.trace.clicked.connect(self._trace)
        self.label.clicked.connect(self._label)
        self.price.clicked.connect(self._price)
        self._moved(None)
        self.setFocusProxy(self.table)

    def set_dishes(self, dishes: Sequence[Any]) -> None:
        self.table.set_records(dishes)
        self.table.setVisible(bool(dishes))
        self.none.setVisible(not dishes)
        if self.table.current() is None and dishes:
            self.table.selectRow(0)
        self._moved(self.table.current())

    def _moved(self, one: Any) -> None:
        for button in (self.open, self.trace, self.label, self.price):
            button.setEnabled(one is not None)

    def _open(self, *_: object) -> None:
        if (one := self.table.current()) is not None:
            self.open_wanted.emit(one.code)

    def _trace(self, *_: object) -> None:
        if (one := self.table.current()) is not None:
            self.trace_wanted.emit(one.code)

    def _label(self) -> None:
        if (one := self.table.current()) is not None:
            self.label_wanted.emit(one.code)

    def _price(self) -> None:
        if (one := self.table.current()) is not None:
            self.price_wanted.emit(one.code)
