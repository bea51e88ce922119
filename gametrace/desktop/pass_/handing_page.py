"""Meat that leaves without a dish: to a class, a training restaurant, or another business with its note."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.going_in import GoingIn
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.desktop.style import APART
from gametrace.domain.quantities import kg_text

if TYPE_CHECKING:
    from gametrace.register.plate_records import Customer

TO = (("class", "Class"), ("restaurant", "Restaurant"), ("business", "Business"))
NEW = "new"
_ISSUE = ("charged_to", "purpose")
_SUPPLY = ("customer", "owner_before", "owner_after")
_NEW = ("name", "address", "phone", "registration")


class HandingForm(RecordForm):
    """To whom it goes. The fields follow the choice. Signals: turned(): another sort was chosen."""

    turned = Signal()

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__("", "Hand it over", parent)
        self.to = self.add("sort", "", ChoiceRow(TO, value="class", name="It goes to a"))
        self.line("charged_to", "Its code, charged with the meat", hint="such as L2-B", most=80)
        self.line("purpose", "What for", hint="may stay empty")
        self.customers = self.add("customer", "Customer", PickList("Customer"))
        self.line("name", "New customer: name", most=120)
        self.line("address", "Address, as the law asks", most=300)
        self.line("phone", "Telephone", hint="may stay empty", most=60)
        self.line("registration", "Registration or approval", hint="may stay empty", most=80)
        self.day = self.add("on", "Day", OptionalDate("Day it leaves", today, buttons=False))
        self.line(
            "owner_before", "Owner before, if not us", hint="name and address; may stay empty", most=300
        )
        self.line("owner_after", "Owner after, if not the customer", hint="may stay empty", most=300)
        self.finish()
        self.customers.setFixedHeight(150)
        self.to.changed.connect(self._turned)
        self.customers.picked.connect(self._follow)
        self.customers.moved.connect(self._follow)
        self.customers.picked.connect(self._picked)
        self._follow()

    def set_customers(self, customers: Sequence[Customer]) -> None:
        made = [Choice(one.code, f"{one.name}, {one.address}", one.code) for one in customers]
        self.customers.set_choices([*made, Choice(NEW, "A new customer…")])
        if not customers:
            self.customers.set_value(NEW)
        self._follow()

    def _turned(self, _value: str) -> None:
        self._follow()
        self.turned.emit()

    def _follow(self, _value: str = "") -> None:
        """Ask what belongs to the choice; what is typed in a field put away is not lost."""
        is_supply = self.to.value() == "business"
        is_new = is_supply and self.customers.value() == NEW
        for names, shown in ((_ISSUE, not is_supply), (_SUPPLY, is_supply), (_NEW, is_new)):
            for name in names:
                self.fields[name].setVisible(shown)
        self.act.setText("Supply it, with its note" if is_supply else "Issue it")
        self.act.setAccessibleName(self.act.text())

    def _picked(self, _code: str) -> None:
        self.go_on()

    def is_supply(self) -> bool:
        return self.to.value() == "business"

    def new_customer(self) -> dict[str, Any]:
        return {name: self.value(name) for name in _NEW}

    def clear(self, *keep: str) -> None:
        super().clear("customer", "charged_to", "on", *keep)


class HandingPage(QWidget):
    """Signals: hand_wanted(), stock_wanted(), out_wanted(str), note_wanted(str): a supplied lot's code."""

    hand_wanted = Signal()
    stock_wanted = Signal()
    out_wanted = Signal(str)
    note_wanted = Signal(str)

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.form = HandingForm(today)
        self.loud = Loud(look)
        self.going = GoingIn(
            look,
            "What leaves",
            "Scan what leaves. All of each goes unless you type less; a whole carcass may go to a business.",
        )
        self.stock = Button("From the stock", name="Choose what leaves from the stock")
        self.total = Words("", "heading")
        self.gone = RecordTable(
            look,
            "Handed over, newest first. Enter prints the note of a supply",
            (
                Column("to", "Gone to", lambda one: one.to),
                Column("what", "What", lambda one: one.what),
                Column("day", "Day", lambda one: day_text(one.on), 160, lambda one: one.on),
            ),
            lambda one: one.code,
        )
        self.none = Words("Nothing has been handed over yet.", "quiet")
        self.note = Button("Print the note again", name="Print the supply note again")
        foot = row(self.total, self.stock)
        foot.setStretch(0, 1)
        upper = column(self.loud, self.going, foot, gap=8)
        upper.setStretch(1, 1)
        right = column(upper, Words("Handed over", "heading"), self.none, self.gone, row(self.note, 1), gap=8)
        right.setStretch(0, 3)
        right.setStretch(3, 2)
        keep_width(look, self.form, 400)
        whole = row(self.form, right, gap=APART)
        whole.setStretch(1, 1)
        self.setLayout(whole)
        self.form.wanted.connect(self.hand_wanted)
        self.stock.clicked.connect(self.stock_wanted)
        self.going.out_wanted.connect(self.out_wanted)
        self.going.changed.connect(self.say_total)
        self.gone.struck.connect(self._print)
        self.gone.moved.connect(self._moved)
        self.note.clicked.connect(self._print)
        self._moved(None)
        self.setFocusProxy(self.form)

    def say_total(self) -> None:
        taken = self.going.taken_or_less()
        grams = sum(grams for _, grams in taken)
        self.total.say(f"{len(taken)} to go, {kg_text(grams)}" if taken else "")

    def set_gone(self, gone: Sequence[Any]) -> None:
        self.gone.set_records(gone)
        self.gone.setVisible(bool(gone))
        self.none.setVisible(not gone)
        if self.gone.current() is None and gone:
            self.gone.selectRow(0)
        self._moved(self.gone.current())

    def _moved(self, one: Any) -> None:
        self.note.setEnabled(one is not None and one.is_supply)

    def _print(self, *_: object) -> None:
        one = self.gone.current()
        if one is not None and one.is_supply:
            self.note_wanted.emit(one.code)
