"""What a kilo counts for: the kitchen's way of spreading a cost, its sales values and its points."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.costs.cost_page import METHODS
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, column, row, rule
from gametrace.domain.quantities import pounds_text

PRICED_ON = (("our weight", "Our weight"), ("supplier's weight", "The supplier's"))


def _price(one: Any) -> str:
    if one.pence_per_kg is None:
        return "–"
    return f"{pounds_text(one.pence_per_kg)}{' *' if one.price_from else ''}"


def points_figure(one: Any) -> str:
    """'1.2', with the kitchen's own marked."""
    if one.points is None:
        return "–"
    whole, tenths = divmod(int(one.points * 10), 10)
    return f"{whole}.{tenths}{' own' if one.points_are_own else ''}"


class ValuesPage(QWidget):
    """Signals: keep_wanted(), choices_wanted(): method and weight. moved(object): another product."""

    keep_wanted = Signal()
    choices_wanted = Signal()
    moved = Signal(object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.table = RecordTable(
            look,
            "Products with their sales value and points",
            (
                Column("name", "Product", lambda one: one.name),
                Column("price", "£ a kilo", _price, 120, lambda one: one.pence_per_kg or -1, True),
                Column("points", "Points", points_figure, 120, lambda one: one.points or -1, True),
            ),
            lambda one: one.product,
        )
        self.about = Words("", "quiet")
        self.name = Words("", "heading")
        self.price = PenceEdit("Sales value", unit="£ a kg")
        self.points = QLineEdit()
        self.points.setMaxLength(6)
        self.reason = QLineEdit()
        self.reason.setMaxLength(300)
        self.method = ChoiceRow(METHODS, value="weight", name="The kitchen spreads a cost", columns=1)
        self.priced_on = ChoiceRow(PRICED_ON, value="our weight", name="A price a kilo is paid on")
        self.fields = {
            "price": Field("What a kilo would fetch", self.price, name="price"),
            "points": Field("Value points, for example 4 or 1.2", self.points, name="points"),
            "reason": Field("Why?", self.reason, name="reason"),
        }
        self.keep = BigButton("Keep these values")
        self.choose = Button("Keep these choices")
        left = column(self.table, self.about, gap=8)
        left.setStretch(0, 1)
        right = ScrollColumn()
        for item in (self.name, *self.fields.values(), self.keep, rule()):
            right.add(item)
        right.add(Field("This kitchen spreads a cost over cuts", self.method))
        right.add(Field("A price a kilo is paid on", self.priced_on))
        right.add(row(self.choose, 1))
        right.add_stretch()
        right.setFixedWidth(look.px(460))
        both = row(left, right, gap=32)
        both.setStretch(0, 1)
        self.setLayout(both)
        self.setFocusProxy(self.table)
        self.table.moved.connect(self.moved)
        self.table.struck.connect(self.price.select)
        self.price.entered.connect(self._on)
        self.points.returnPressed.connect(self._on)
        self.reason.returnPressed.connect(self._on)
        self.keep.clicked.connect(self.keep_wanted)
        self.choose.clicked.connect(self.choices_wanted)

    def set_products(self, products: Sequence[Any]) -> None:
        chosen = self.table.current_id()
        self.table.set_records(products)
        if chosen:
            self.table.choose_id(chosen)
        elif products:
            self.table.selectRow(0)

    def show_product(self, one: Any, about: str) -> None:
        self.name.say(one.name)
        self.price.set_value(None if one.price_from else one.pence_per_kg)
        self.points.setText("" if one.points is None else points_figure(one).split()[0])
        self.about.say(about)
        self.clear_refusals()

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["reason"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _on(self) -> None:
        self.focusNextPrevChild(True)
