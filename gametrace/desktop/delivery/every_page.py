"""Every delivery of all years, newest first; choose one to open or to trace it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal, SignalInstance
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.use_by import kg_aligned
from gametrace.desktop.parts.words import Words, column, row
from gametrace.register.clock import wall_day

if TYPE_CHECKING:
    from gametrace.register.lists import DeliveryLine


class EveryPage(QWidget):
    """Signals: open_wanted(str), trace_wanted(str): a carcass's code."""

    open_wanted = Signal(str)
    trace_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.table = RecordTable(look, "Every delivery, newest first. Enter opens one", COLUMNS, _code)
        self.none = Words("Nothing has been taken in yet.", "large")
        self.open = BigButton("Open it")
        self.trace = Button("Trace it")
        self.setLayout(column(self.none, self.table, row(self.open, self.trace, 1), gap=8))
        self.layout().setStretch(1, 1)
        self.setFocusProxy(self.table)
        self.table.struck.connect(partial(self._act, self.open_wanted))
        self.open.clicked.connect(partial(self._act, self.open_wanted))
        self.trace.clicked.connect(partial(self._act, self.trace_wanted))

    def set_deliveries(self, found: Sequence[DeliveryLine]) -> None:
        """A tuple, or `Pages` of ten years."""
        self.table.set_records(found)
        self.table.setVisible(bool(found))
        self.none.setVisible(not found)
        if self.table.current() is None and found:
            self.table.selectRow(0)
        for button in (self.open, self.trace):
            button.setEnabled(bool(found))

    def _act(self, wanted: SignalInstance, *_: object) -> None:
        if (one := self.table.current()) is not None:
            wanted.emit(one.code)


def _code(one: DeliveryLine) -> str:
    return one.code


def _day(one: DeliveryLine) -> str:
    return weekday_text(wall_day(one.received_at))


def _received(one: DeliveryLine) -> object:
    return one.received_at


def _name(one: DeliveryLine) -> str:
    return one.name


def _supplier(one: DeliveryLine) -> str:
    return one.supplier


def _tag(one: DeliveryLine) -> str:
    return one.tag


def _kilos(one: DeliveryLine) -> str:
    return kg_aligned(one.grams_received)


def _grams(one: DeliveryLine) -> int:
    return one.grams_received


def _decision(one: DeliveryLine) -> str:
    return one.decision


COLUMNS = (
    Column("received", "Received", _day, 190, _received),
    Column("code", "Number", _code, 150),
    Column("animal", "Animal", _name, 180),
    Column("supplier", "Supplier", _supplier),
    Column("tag", "Tag", _tag, 110),
    Column("grams", "kg", _kilos, 96, _grams, True),
    Column("decision", "Decision", _decision, 120),
)
