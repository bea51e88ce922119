"""What goes into a mix besides meat: a list under the trays, and a face that copies a packet."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QVBoxLayout, QWidget

from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.reading_order import EnterMovesOn
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.desktop.style import APART, GAP
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text

TALLEST = 132  # px of the list before it rolls: two things and the edge of a third


class BesidesList(QWidget):
    """Signals: changed(): something was put in or taken out."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._others: tuple[Any, ...] = ()
        self.add = Button("Add something besides meat", name="Add salt, rusk, wine or the like")
        self.lines = QVBoxLayout()
        self.lines.setSpacing(4)
        self.roll = ScrollColumn()
        self.roll.body.setContentsMargins(0, 0, 8, 0)
        self.roll.add(self.lines)
        self.roll.setMaximumHeight(TALLEST)
        self.roll.hide()
        self.setLayout(column(self.roll, row(self.add, 1), gap=4))

    def others(self) -> tuple[Any, ...]:
        return self._others

    def grams(self) -> int:
        return sum(one.grams for one in self._others)

    def set_others(self, others: Sequence[Any]) -> None:
        self._others = tuple(others)
        clear(self.lines)
        for at, one in enumerate(self._others):
            out = Button("Out", name=f"Take {one.name} out again")
            out.clicked.connect(partial(self._take_out, at))
            line = row(Words(f"{one.name}, {kg_text(one.grams)}{_about(one)}"), out, gap=8)
            line.setStretch(0, 1)
            self.lines.addLayout(line)
        self.roll.setVisible(bool(self._others))
        self.changed.emit()

    def _take_out(self, at: int) -> None:
        self.set_others([one for place, one in enumerate(self._others) if place != at])


def _about(one: Any) -> str:
    told = [f"lot {one.lot}" if one.lot else "no lot"]
    if one.use_by:
        told.append(f"to {day_text(one.use_by)}")
    if one.allergens is None:
        told.append("allergens not known")
    return " · " + " · ".join(told)


class IngredientFace(QWidget):
    """Signals: wanted(): put it in. left(): not. changed(): something typed or ticked."""

    wanted = Signal()
    left = Signal()
    changed = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = line_edit("What it is", 80)
        self.grams = KiloEdit("Its weight", big=True)
        self.lot = line_edit("The lot on its packet", 80)
        self.supplier = line_edit("Who made it or sold it", 80)
        self.use_by = OptionalDate("Its last day", today, looks_back=False, buttons=False)
        self.fields = {
            "name": Field("What is it?", self.name, name="name"),
            "grams": Field("Its weight", self.grams, name="grams"),
            "lot": Field("The lot on its packet", self.lot, name="lot"),
            "supplier": Field("Maker or seller, may stay empty", self.supplier, name="supplier"),
            "use_by": Field("Its last day, may stay empty", self.use_by, name="use_by"),
        }
        self.was_read = QCheckBox("I have read its packet")
        self.was_read.setAccessibleName("I have read its packet; nothing ticked means none of the fourteen")
        self.ticks: dict[str, QCheckBox] = {}
        self._grid = QGridLayout()
        self.asked, self.trouble = Words("", "amber"), Words("", "amber")
        self.put_in = BigButton("Put it in")
        self.back = Button("Back, put nothing in")
        self._build(look)
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._move_on)
        self._enter.watch()
        self.put_in.clicked.connect(self.wanted)
        self.back.clicked.connect(self.left)
        for edit in (self.name, self.lot, self.supplier):
            edit.textEdited.connect(self.changed)
        for typed in (self.grams, self.use_by):
            typed.changed.connect(self.changed)
        self.was_read.toggled.connect(self.changed)
        self.setFocusProxy(self.name)

    def _build(self, look: Look) -> None:
        form = column(*self.fields.values(), gap=8)
        left = QWidget()
        left.setLayout(column(form, self.asked, 1))
        keep_width(look, left, 460)
        self._grid.setHorizontalSpacing(GAP)
        self._grid.setVerticalSpacing(0)
        packet = ScrollColumn()
        packet.body.setSpacing(4)
        for part in (Words("Allergens on its packet", "heading"), self.was_read, self._grid):
            packet.add(part)
        packet.add_stretch()
        right = QWidget()
        right.setLayout(column(packet, self.trouble, row(self.put_in, self.back, 1), gap=8))
        right.layout().setStretch(0, 1)
        body = row(left, right, gap=APART)
        body.setStretch(1, 1)
        self.setLayout(column(Words("Something besides meat", "title", wrap=False), body, gap=GAP))
        self.layout().setStretch(1, 1)

    def begin(self) -> None:
        """A new packet, nothing of the last one left."""
        self._fill_ticks()
        for edit in (self.name, self.lot, self.supplier):
            edit.clear()
        self.grams.clear()
        self.use_by.clear()
        for tick in (self.was_read, *self.ticks.values()):
            tick.setChecked(False)
        for field in self.fields.values():
            field.clear_refusal()
        self.trouble.say("")
        self.say_asked("")

    def _fill_ticks(self) -> None:
        """The fourteen are only read when somebody asks for them."""
        if self.ticks:
            return
        from gametrace.facts.allergens import allergens

        for at, one in enumerate(allergens()):
            tick = QCheckBox(one.name)
            tick.setAccessibleName(f"Contains {one.name}")
            tick.toggled.connect(self._ticked)
            self.ticks[one.id] = tick
            self._grid.addWidget(tick, at // 2, at % 2)

    def _ticked(self, on: bool) -> None:
        if on:
            self.was_read.setChecked(True)
        self.changed.emit()

    def other(self, make: Callable[..., Any]) -> Any:
        """What was typed, as the act takes it. Refuses what cannot be read, naming its field."""
        ticked = [name for name, tick in self.ticks.items() if tick.isChecked()]
        if not self.name.text().strip():
            raise Refusal("It has no name yet.", "Type what it is.", "name")
        grams, use_by = self._value("grams", self.grams), self._value("use_by", self.use_by)
        if not grams:
            raise Refusal("It has no weight yet.", "Weigh it and type the kilograms.", "grams")
        return make(
            name=self.name.text(),
            grams=grams,
            lot=self.lot.text(),
            supplier=self.supplier.text(),
            allergens=ticked if self.was_read.isChecked() else None,
            use_by=use_by,
        )

    def _value(self, field: str, edit: Any) -> Any:
        try:
            return edit.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, field) from refusal

    def say_asked(self, words: str) -> None:
        self.asked.say(words)
        self.asked.setVisible(bool(words))

    def refuse(self, field: str, sentence: str) -> None:
        for one in self.fields.values():
            one.clear_refusal()
        if field in self.fields:
            self.fields[field].refuse(sentence)
            self.fields[field].inner.setFocus()
        else:
            self.trouble.say(sentence)

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)

    def _move_on(self) -> None:
        self.focusNextPrevChild(True)
