"""What is in stock, the one to use first on top: into the dish, or out with a reason."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.keeping.form import KeepingForm
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.table_marks import MarkDelegate
from gametrace.desktop.parts.use_by import due_role, due_words, kg_aligned, meat_name
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART
from gametrace.domain.quantities import kg_text

WAYS_OUT = (
    ("binned", "Binned"),
    ("condemned", "Condemned"),
    ("shot-damage", "Shot damage"),
    ("returned", "Sent back"),
)
PACKED = {
    "chilled-loose": "chilled",
    "vacuum": "vacuum",
    "modified-atmosphere": "modified air",
    "frozen": "frozen",
    "cooked": "cooked",
    "thawed": "thawed",
}


class StockPage(QWidget):
    """Signals: add_wanted(str): a code into the dish. bin_wanted(str): the code, its form filled.
    trace_wanted(str), label_wanted(str). keep_wanted(object): the lot, its form open."""

    add_wanted = Signal(str)
    bin_wanted = Signal(str)
    trace_wanted = Signal(str)
    label_wanted = Signal(str)
    keep_wanted = Signal(object)

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._all: tuple[Any, ...] = ()
        self._today = today
        self.search = QLineEdit()
        self.search.setPlaceholderText("find: a cut, a code, a species, a shelf")
        self.search.setAccessibleName("Find in the stock")
        self.search.setMaxLength(80)
        self.table = RecordTable(
            look,
            "The stock, the one to use first on top. Enter puts it into the dish",
            (
                Column("name", "In stock", meat_name),
                Column("code", "Code", lambda one: one.code, 150),
                Column("grams", "kg", lambda one: kg_aligned(one.grams), 84, lambda one: one.grams, True),
                Column("date", "Use by", self._date, 250, lambda one: one.use_by or date.max),
            ),
            lambda one: one.code,
        )
        self.table.setItemDelegateForColumn(
            0, MarkDelegate(look, sign=lambda one: one.state, parent=self.table)
        )
        self.table.setItemDelegateForColumn(3, MarkDelegate(look, tint=self._tint, parent=self.table))
        self.loud = Loud(look)
        self.title, self.about = Words("", "heading"), Words("", "quiet")
        self.why = Loud(look)
        self.add = BigButton("Into the dish")
        self.label = Button("Label", name="Print its label")
        self.trace = Button("Trace", name="Trace it")
        self.bin = Button("Bin it", name="Bin some or all of it")
        self.keep = Button("Freeze, thaw, date", name="Freeze it, thaw it, pack it again or date it")
        self.binning = BinningFace(look)
        self.keeping = KeepingForm(today)
        self.keeping_roll = ScrollColumn()
        self.keeping_roll.add(self.keeping)
        self._build(look)
        self._connect()
        self._moved(None)
        self.setFocusProxy(self.search)

    def _build(self, look: Look) -> None:
        left = column(self.search, self.loud, self.table, gap=8)
        left.setStretch(2, 1)
        self.chosen = QWidget()
        acts = row(self.bin, self.label, self.trace, 1, gap=8)
        self.chosen.setLayout(column(self.title, self.about, self.why, self.add, acts, self.keep, gap=8))
        self.hint = Words("Press a row to see it; the date to use first is on top.", "quiet")
        side = QWidget()
        side.setLayout(column(self.hint, self.chosen, self.binning, 1, gap=8))
        self.side = side
        keep_width(look, side, 330)
        keep_width(look, self.keeping_roll, 420)
        self.keeping_roll.hide()
        whole = row(left, side, self.keeping_roll, gap=APART)
        whole.setStretch(0, 1)
        self.setLayout(whole)
        self.binning.hide()

    def _connect(self) -> None:
        self.search.textChanged.connect(self._show)
        self.search.returnPressed.connect(self._add)
        self.table.moved.connect(self._moved)
        self.table.struck.connect(self._add)
        self.add.clicked.connect(self._add)
        self.label.clicked.connect(self._label)
        self.trace.clicked.connect(self._trace)
        self.bin.clicked.connect(self._begin_bin)
        self.keep.clicked.connect(self._begin_keeping)
        self.keeping.left.connect(self.end_keeping)
        self.binning.wanted.connect(self._bin)
        self.binning.left.connect(self.end_binning)

    def _date(self, one: Any) -> str:
        return due_words(one.use_by, self._today())

    def _tint(self, one: Any) -> str:
        return due_role(one.use_by, self._today())

    def say_for(self, page: str) -> None:
        """What the main act puts the chosen lot into."""
        self.add.setText("Onto the list" if page == "handing" else "Into the dish")
        self.add.setAccessibleName(self.add.text())

    def set_stock(self, lots: Sequence[Any]) -> None:
        self._all = tuple(lots)
        self._show()

    def _show(self) -> None:
        words = self.search.text().casefold().split()
        self.table.set_records(
            [
                one
                for one in self._all
                if all(word in f"{meat_name(one)} {one.code} {one.where}".casefold() for word in words)
            ]
        )
        if words and self.table.current() is None and self.table.records_model.rowCount():
            self.table.selectRow(0)
        self._moved(self.table.current())

    def _moved(self, one: Any) -> None:
        self.chosen.setVisible(one is not None and not self.binning.isVisibleTo(self))
        self.hint.setVisible(one is None)
        if one is None:
            return
        self.title.say(meat_name(one))
        packed = PACKED.get(one.pack_state, "")
        about = [one.code, f"{kg_text(one.grams)} left", packed, one.where]
        if one.date_rule:
            about.append(f"Date: {one.date_rule}")
        self.about.say(" · ".join(part for part in about if part))
        if one.state_reason:
            self.why.refuse(one.state_reason, one.state)
        else:
            self.why.hush()
        self.add.setEnabled(not one.state_reason)

    def current_code(self) -> str:
        one = self.table.current()
        return one.code if one is not None else ""

    def _add(self, *_: object) -> None:
        if code := self.current_code():
            self.add_wanted.emit(code)

    def _label(self) -> None:
        self.label_wanted.emit(self.current_code())

    def _trace(self) -> None:
        self.trace_wanted.emit(self.current_code())

    def _begin_bin(self) -> None:
        if (one := self.table.current()) is not None:
            self.binning.begin(one.code, meat_name(one), one.grams)
            self.binning.show()
            self.chosen.hide()

    def _begin_keeping(self) -> None:
        if (one := self.table.current()) is not None:
            self.keep_wanted.emit(one)
            self.side.hide()
            self.keeping_roll.show()
            self.keeping_roll.verticalScrollBar().setValue(0)
            self.keeping.setFocus()

    def end_keeping(self) -> None:
        self.keeping_roll.hide()
        self.side.show()
        self.table.setFocus()

    def end_binning(self) -> None:
        self.binning.hide()
        self._moved(self.table.current())
        self.table.setFocus()

    def _bin(self) -> None:
        self.bin_wanted.emit(self.binning.code)


class BinningFace(QWidget):
    """How much goes, which way, and why. Signals: wanted(). left()."""

    wanted = Signal()
    left = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.code = ""
        self.title = Words("", "heading")
        self.way = ChoiceRow(WAYS_OUT, value="binned", name="Which way out", columns=2)
        self.grams = Field("How much", KiloEdit("How much"), name="grams")
        self.reason = Field("Why", QLineEdit(), name="reason")
        self.reason.inner.setMaxLength(500)
        self.do = BigButton("Take it out of stock")
        self.back = Button("Leave it in stock")
        self.setLayout(column(self.title, self.way, self.grams, self.reason, self.do, self.back, gap=8))
        self.do.clicked.connect(self.wanted)
        self.reason.inner.returnPressed.connect(self.wanted)
        self.back.clicked.connect(self.left)

    def begin(self, code: str, name: str, grams: int) -> None:
        self.code = code
        self.title.say(f"{name} {code}")
        self.way.set_value("binned")
        self.grams.inner.set_value(grams)
        self.reason.inner.clear()
        for field in (self.grams, self.reason):
            field.clear_refusal()
        self.reason.inner.setFocus()

    def refuse(self, field: str, sentence: str) -> None:
        (self.grams if field == "grams" else self.reason).refuse(sentence)
