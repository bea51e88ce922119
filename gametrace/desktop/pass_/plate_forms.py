"""Plates of a dish: served to whom, left over or binned, and what changed in the pot on the night."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.domain.errors import Refusal

MOST_SHELVES = 5  # as many as stand in a row of choices; the rest by moving it in the larder


class ServeForm(RecordForm):
    act_name = "serve_dish"

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", "Write down: served", parent)
        self.add("portions", "Portions", CountEdit("Portions", field="portions"))
        self.line("to_group", "To whom", hint="a table, a group; may stay empty")
        self.finish()

    def given(self) -> dict[str, Any]:
        portions = self.needed("portions", "How many portions went out?")
        return {"portions": portions, "to_group": self.value("to_group")}


class LeftOverForm(RecordForm):
    WAYS = (("stock", "Back to stock"), ("waste", "To waste"))

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", "Write down: left over", parent)
        self.add("portions", "Portions left", CountEdit("Portions left", field="portions"))
        self.way = self.add("way", "Where they go", ChoiceRow(self.WAYS, value="stock", name="They go"))
        self.place = self.add("place", "Shelf", ChoiceRow((("", "Later"),), name="Shelf", columns=2))
        self.line("reason", "Why", hint="for waste, or to keep it all the same", most=500)
        self.finish()
        self.way.changed.connect(self._turned)

    @property
    def act_name(self) -> str:
        return "keep_left_over" if self.way.value() == "stock" else "bin_left_over"

    def set_shelves(self, shelves: Sequence[tuple[str, str]]) -> None:
        self.place.set_choices((("", "Later"), *shelves[:MOST_SHELVES]), self.place.value())

    def given(self) -> dict[str, Any]:
        given = {
            "portions": self.needed("portions", "How many portions were left?"),
            "reason": self.value("reason"),
        }
        return given | ({"place": self.place.value()} if self.way.value() == "stock" else {})

    def _turned(self, way: str) -> None:
        self.fields["place"].setVisible(way == "stock")


class ChangeForm(RecordForm):
    """What went in too, what did not, and the number of portions; a scan fills the first field."""

    act_name = "change_dish"

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Scan what went in too. What did not go in is chosen below.", "Put it right", parent)
        self.line("added", "Went in too", hint="its code", most=40)
        self.add("added_grams", "All, unless typed", KiloEdit("Of what went in too"))
        self.beside("added", "added_grams")
        self.out = self.add("not_used", "Did not go in", ChoiceRow((), name="Did not go in", columns=1))
        self.add("back_grams", "Of it, all unless typed", KiloEdit("Of what did not go in"))
        self.add("portions", "Portions, if counted wrong", CountEdit("Portions made"))
        self.beside("back_grams", "portions")
        self.line("reason", "Why", most=500)
        self.finish()

    def set_inputs(self, inputs: Sequence[tuple[str, str]]) -> None:
        self.out.set_choices((("", "all of it did"), *inputs), "")

    def set_code(self, code: str) -> None:
        self.fields["added"].inner.setText(code)
        self.fields["added_grams"].inner.edit.setFocus()

    def given(self) -> dict[str, Any]:
        added, back = self.value("added"), self.out.value()
        if not added and self.value("added_grams") is not None:
            raise Refusal("Of what? The code is missing.", "Scan or type it.", "added")
        return {
            "added": [(added, self.value("added_grams"))] if added else [],
            "not_used": [(back, self.value("back_grams"))] if back else [],
            "portions": self.value("portions"),
            "reason": self.value("reason"),
        }

    def clear(self, *keep: str) -> None:
        super().clear(*keep)
        self.out.set_value("")
