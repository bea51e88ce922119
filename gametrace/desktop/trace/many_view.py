"""Questions about many lots: asked one after another, joined and cut, then saved, held or recalled."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART
from gametrace.desktop.trace.many_presenter import ASKS, HOWS, ManyPresenter
from gametrace.domain.quantities import kg_figure
from gametrace.register.records import Lot


class ManyView(QWidget):
    """Signals: asked_for(str): another question. chosen(str): a code of the list."""

    asked_for = Signal(str)
    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = Button("Back to Trace")
        self.question = PickList("What to ask", [Choice(sort, words) for sort, words in ASKS.items()])
        self.question.setFixedHeight(look.px(232))
        self.form = Form("", "Ask")
        self.how = self.form.choice("how", "How it is put to what is there", HOWS, value="and")
        self.form.line("codes", "Codes, with a space between", hint="scan or type", most=2_000)
        self.form.line("word", "Name, number or place", most=120)
        self.store = self.form.choice("store", "Store", [], columns=2)
        self.form.line("first", "From", hint="12 Nov 2026, or 12 Nov 2026 14:30", most=40)
        self.form.line("last", "Till", hint="13 Nov 2026, or 13 Nov 2026 9:00", most=40)
        self.form.finish()
        self.saved = PickList("Saved sets")
        self.saved.setMinimumHeight(look.px(120))
        self.sentence = Words("", "large")
        self.count = Words("", "quiet")
        self.undo = Button("Take the last off")
        self.anew = Button("Start again")
        self.table = RecordTable(look, "What was found", _COLUMNS, _code_of)
        self.act = Form("", "Put all on hold")
        self.act.line("reason", "Why all of it is held, or recalled", most=500)
        self.act.finish()
        self.held = PickList("Held together")
        self.held.setFixedHeight(look.px(96))
        self.lifting = Form("On hold together", "Lift what is left of it")
        self.lifting.add(self.held)
        self.lifting.line("reason", "Why it may go on", hint="another person than held it", most=500)
        self.lifting.finish()
        self.naming = Form("", "Save what was found")
        self.naming.line("name", "A name for it", most=80)
        self.naming.finish()
        self.recall = Button("Recall all of it")
        left, right = ScrollColumn(), column(gap=8)
        left.add(row(self.back, 1))
        left.add(Words("What do you want to know?", "heading"))
        left.add(self.question)
        left.add(self.form)
        left.add(self.naming)
        self.no_sets = Words("", "quiet")
        left.add(self.no_sets)
        left.add(self.saved)
        left.add(self.lifting)
        left.add_stretch()
        for item in (self.sentence, row(self.count, self.undo, self.anew, self.recall), self.table, self.act):
            if isinstance(item, QWidget):
                right.addWidget(item, 1 if item is self.table else 0)
            else:
                right.addLayout(item)
        sides = row(left, right, gap=APART)
        sides.setStretch(0, 4)
        sides.setStretch(1, 6)
        self.setLayout(sides)
        self.setFocusProxy(self.question)
        self.question.moved.connect(self.asked_for)
        self.question.picked.connect(self._into_form)
        self.table.chosen.connect(self._chosen)

    def show_fields(self, names: Sequence[str]) -> None:
        self.form.ask_only(("how", *names) if self.table.isVisibleTo(self) else names)

    def show_saved(self, choices: Sequence[Choice]) -> None:
        self.saved.set_choices(choices)
        self.saved.setVisible(bool(choices))
        self.no_sets.say("Saved sets: Enter takes one up" if choices else "Nothing is saved yet.")

    def show_held(self, choices: Sequence[Choice]) -> None:
        self.held.set_choices(choices)
        if len(choices) == 1:  # of several one is chosen by hand
            self.held.begin()
        self.lifting.setVisible(bool(choices))

    def show_found(self, sentence: str, count: str, lots: Sequence[Lot]) -> None:
        """What the steps found; nothing asked yet shows what to do."""
        self.sentence.say(sentence)
        self.count.say(count)
        has_asked = bool(count)
        for one in (self.undo, self.anew, self.recall, self.table, self.act, self.naming):
            one.setVisible(has_asked)
        self.form.fields["how"].setVisible(has_asked)
        self.table.set_records(lots)

    def _into_form(self, _sort: str) -> None:
        names = [name for name, field in self.form.fields.items() if not field.isHidden() and name != "how"]
        if names:
            self.form.fields[names[0]].setFocus()
        else:
            self.form.wanted.emit()

    def _chosen(self, lot: Lot) -> None:
        self.chosen.emit(lot.code)


def _code_of(lot: Lot) -> str:
    return lot.code


def _what(lot: Lot) -> str:
    return f"{lot.code} {lot.name}"


def _state(lot: Lot) -> str:
    return lot.state


def _grams(lot: Lot) -> str:
    return kg_figure(lot.grams)


def _grams_number(lot: Lot) -> int:
    return lot.grams


def _where(lot: Lot) -> str:
    return lot.where


_COLUMNS = (
    Column("what", "What", _what, 250),
    Column("state", "State", _state, 110),
    Column("grams", "kg left", _grams, 90, sort=_grams_number, is_figure=True),
    Column("where", "Where", _where),
)


class ManyStation(Station):
    """Not on the strip: Trace leads here."""

    name = "many"
    title = "Many lots"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = ManyView(bench.look)
        super().__init__(bench, self.view, parent)
        self.presenter = ManyPresenter(self.view, bench)
        self.view.back.clicked.connect(partial(bench.go, "trace", ""))

    def refresh(self) -> None:
        self.presenter.refresh()

    def on_scan(self, code: str) -> bool:
        return self.presenter.take_scan(code)
