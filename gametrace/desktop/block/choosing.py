"""The first page of the block: what may be cut, opened lots first; what may not is shown with the reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.delivery.reading_order import reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.table_marks import MarkDelegate
from gametrace.desktop.parts.use_by import kg_aligned
from gametrace.desktop.parts.words import Words, column, row

KINDS = (("all", "All"), ("animals", "Animals"), ("parts", "Parts and trim"), ("mixes", "Mince"))


@dataclass(frozen=True, slots=True)
class Candidate:
    """One lot as this page shows it. `why_not` is '' where it may be cut."""

    code: str
    kind: str  # animals | parts | mixes
    name: str
    state: str
    grams: int
    about: str  # 'open · 2.84 kg to weigh', 'hung 7 days', 'use by ...'
    where: str
    why_not: str = ""
    is_open: bool = False
    days: int | None = None


def _about(one: Candidate) -> str:
    return one.why_not or one.about


def _tint(one: Candidate) -> str:
    if one.state in ("rejected", "out of date", "specimen"):
        return "plum"
    if one.why_not:
        return "amber"
    return "steel" if one.is_open else ""


class ChoosingPage(QWidget):
    """Signals: chosen(str): a code that may be cut. pack_wanted(str), keep_wanted(str): a code. mix_wanted(),
    session_wanted(), cut_names_wanted(), scale_wanted(): another page. costs_wanted(str): a code, or ''."""

    chosen = Signal(str)
    mix_wanted = Signal()
    pack_wanted = Signal(str)
    keep_wanted = Signal(str)
    session_wanted = Signal()
    cut_names_wanted = Signal()
    scale_wanted = Signal()
    costs_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._all: tuple[Candidate, ...] = ()
        self.kinds = ChoiceRow(KINDS, value="all", name="Show")
        self.search = QLineEdit()
        self.search.setPlaceholderText("find")
        self.search.setAccessibleName("Find in this list")
        self.search.setMaxLength(80)
        self.search.setMaximumWidth(look.px(240))
        self.mix = Button("Make mince")
        self.session = Button("Session", name="The cutting session")
        self.table = RecordTable(
            look,
            "What may be cut",
            (
                Column("name", "What", lambda one: one.name, 300),
                Column("code", "Code", lambda one: one.code, 150),
                Column("grams", "kg", lambda one: kg_aligned(one.grams), 96, lambda one: one.grams, True),
                Column("about", "How it stands", _about),
                Column("where", "Where", lambda one: one.where, 300),
            ),
            lambda one: one.code,
        )
        self.table.setItemDelegateForColumn(
            0, MarkDelegate(look, sign=lambda one: one.state, days=lambda one: one.days, parent=self.table)
        )
        self.table.setItemDelegateForColumn(3, MarkDelegate(look, tint=_tint, parent=self.table))
        self.why = Loud(look)
        self.hint = Words("Press a row, or scan its label, to lay it on the block.", "quiet")
        self.pack = Button("Pack it", name="Pack it in one go")
        self.keep = Button("Freeze, thaw, date", name="Freeze it, thaw it, pack it again or date it")
        self.title = Words("What is to be cut?", "title", wrap=False)
        head = row(self.title, 1, self.kinds, self.search, self.mix, self.session)
        self.cut_names = Button("Names of cuts", quiet=True)
        self.scale = Button("Scale", name="Set up a scale", quiet=True)
        self.costs = Button("Costs and yields", name="Costs and yields of it", quiet=True)
        said = column(self.why, self.hint, gap=0)
        foot = row(said, self.keep, self.pack, self.costs, self.cut_names, self.scale, gap=8)
        foot.setStretch(0, 1)
        self.setLayout(column(head, self.table, foot))
        self.layout().setStretch(1, 1)
        self.kinds.changed.connect(self._show)
        self.search.textChanged.connect(self._show)
        self.search.returnPressed.connect(self._choose_first)
        self.table.chosen.connect(self._choose)
        self.table.moved.connect(self._say_why)
        self.mix.clicked.connect(self.mix_wanted)
        self.session.clicked.connect(self.session_wanted)
        self.cut_names.clicked.connect(self.cut_names_wanted)
        self.scale.clicked.connect(self.scale_wanted)
        self.costs.clicked.connect(self._costs)
        self.pack.clicked.connect(self._pack)
        self.keep.clicked.connect(self._keep)
        self.setFocusProxy(self.table)
        # Tab comes to the table first, and must come to all the rest from there.
        order = [self.table, *(one for one in reading_order(self) if one is not self.table)]
        for first, second in pairwise(order):
            QWidget.setTabOrder(first, second)

    def set_candidates(self, candidates: Sequence[Candidate]) -> None:
        self._all = tuple(candidates)
        self._show()

    def say_for(self, table: str) -> None:
        """What is chosen goes to this table, or wherever it is said then."""
        self.title.say(f"What goes on {table}?" if table else "What is to be cut?")

    def show_refusal(self, code: str, sentence: str) -> None:
        """Why one of them may not be cut, said loudly, its row in sight."""
        if self.table.records_model.row_of(code) < 0:
            self.kinds.set_value("all")
            self.search.clear()
            self._show()
        self.table.choose_id(code)
        state = next((one.state for one in self._all if one.code == code), "on hold")
        self._refuse(sentence, state)

    def say_done(self, sentence: str) -> None:
        """Something done to one of them."""
        self.why.done(sentence)
        self.hint.hide()

    def _show(self) -> None:
        kind, words = self.kinds.value(), self.search.text().casefold().split()
        self.table.set_records(
            [
                one
                for one in self._all
                if kind in ("all", one.kind)
                and all(word in f"{one.name} {one.code} {one.where}".casefold() for word in words)
            ]
        )
        if self.table.current() is None and self.table.records_model.rowCount():
            self.table.selectRow(0)
        self._say_why(self.table.current())

    def _say_why(self, one: Candidate | None) -> None:
        is_lot = one is not None and one.kind != "animals"
        self.pack.setEnabled(is_lot and not one.why_not)
        self.keep.setEnabled(is_lot)
        if one is not None and one.why_not:
            self._refuse(f"{one.name}: {one.why_not}", one.state)
        else:
            self.why.hush()
            self.hint.show()

    def _pack(self) -> None:
        if (one := self.table.current()) is not None:
            self.pack_wanted.emit(one.code)

    def _keep(self) -> None:
        if (one := self.table.current()) is not None:
            self.keep_wanted.emit(one.code)

    def _costs(self) -> None:
        one = self.table.current()
        self.costs_wanted.emit(one.code if one is not None else "")

    def _refuse(self, sentence: str, state: str) -> None:
        self.why.refuse(sentence, "on hold" if state in ("hanging", "ready") else state)
        self.hint.hide()

    def _choose(self, one: Candidate) -> None:
        if one.why_not:
            self.show_refusal(one.code, one.why_not)
        else:
            self.chosen.emit(one.code)

    def _choose_first(self) -> None:
        if (one := self.table.current()) is not None:
            self._choose(one)
