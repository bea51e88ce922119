"""A delivery somebody announced on the telephone: who, when, how many bodies, of which kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.delivery.supplier_pick import SupplierPick
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.time_edit import TimeEdit
from gametrace.desktop.parts.words import Words, row
from gametrace.domain.errors import Refusal

LIST_HEIGHT = 148


class EntryForm(Sheet):
    """Signals: wanted(): write it down."""

    wanted = Signal()

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__("A delivery is announced", parent)
        self.supplier = SupplierPick()
        self.supplier.list.setFixedHeight(LIST_HEIGHT)
        self.on = OptionalDate("Day it is expected", today, looks_back=False)
        self.at = TimeEdit("Time it is expected")
        self.bodies = CountEdit("How many bodies", most=1_000, field="bodies")
        self.species = PickList("What is coming", search="Find a kind")
        self.species.setFixedHeight(LIST_HEIGHT)
        self.store = ChoiceRow([], name="Where it will hang", columns=2)
        self.note = QLineEdit()
        self.note.setMaxLength(500)
        self.act = BigButton("Write it down")
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.fields = {
            "supplier": Field("Who brings it?", self.supplier, name="supplier"),
            "bodies": Field("How many bodies?", self.bodies, name="bodies"),
            "on": Field("On which day?", self.on, name="on"),
            "at": Field("At what time?", self.at, name="at"),
            "species": Field("Of which kind?", self.species, name="species"),
            "store": Field("In which store will it hang?", self.store, name="store"),
            "note": Field("Note", self.note, name="note"),
        }
        self.add(self.fields["supplier"])
        self.add(row(self.fields["bodies"], self.fields["at"]))
        for name in ("on", "species", "store", "note"):
            self.add(self.fields[name])
        self.add(self.trouble)
        self.add(row(self.act, 1))
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._on)
        self._enter.watch()
        self.supplier.picked.connect(self._supplier_picked)
        self.species.picked.connect(self._species_picked)
        self.act.clicked.connect(self.wanted)
        self.setFocusProxy(self.supplier)

    def set_choices(
        self,
        suppliers: Sequence[Choice],
        kinds: Sequence[Choice],
        stores: Sequence[tuple[str, str]],
    ) -> None:
        """A store is only asked for where there are several to hang in."""
        self.supplier.set_choices(suppliers)
        self.species.set_choices(kinds)
        if tuple(code for code, _ in stores) != self.store.values():
            self.store.set_choices(stores, self.store.value())
            self._enter.watch()
        self.fields["store"].setVisible(len(stores) > 2)
        set_reading_order(self)

    def values(self) -> dict[str, Any]:
        """As the act takes them. Refusal where something cannot be read or is missing."""
        for name, missing in (
            ("supplier", "Choose who brings it."),
            ("bodies", "Write how many are coming."),
            ("on", "Write the day it is expected."),
        ):
            if not self._value(name):
                raise Refusal(missing, "", name)
        given = {name: self._value(name) for name in ("supplier", "bodies", "on", "at", "species", "store")}
        return {**given, "note": self.note.text().strip()}

    def _value(self, name: str) -> Any:
        try:
            return self.fields[name].inner.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, name) from refusal

    def refuse(self, refusal: Refusal) -> None:
        field = self.fields.get(refusal.field)
        if field is not None and not field.isHidden():
            field.refuse(str(refusal))
            return
        self.trouble.say(str(refusal))
        self.trouble.show()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        for field in self.fields.values():
            field.clear_refusal()

    def start_anew(self) -> None:
        """Empty for the next one; the hand goes back to the beginning."""
        self.supplier.set_value("")
        for edit in (self.bodies, self.on, self.at, self.note):
            edit.clear()
        self.species.set_value("")
        self.store.set_value("")
        self.supplier.list.setFocus()

    def _supplier_picked(self, code: str) -> None:
        self.bodies.edit.setFocus()

    def _species_picked(self, kind: str) -> None:
        (self.store if self.fields["store"].isVisible() else self.note).setFocus()

    def _on(self) -> None:
        self.focusNextPrevChild(True)
