"""What is in a dish besides game: a name, the packet's lot, and the fourteen allergens to tick."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.facts.allergens import allergens

READ = (("no", "Not read yet"), ("yes", "Read, as ticked"))


class AllergenTicks(QWidget):
    """The fourteen as buttons that stay down."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.buttons: dict[str, QPushButton] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        for at, one in enumerate(allergens()):
            button = QPushButton(one.id.capitalize())  # one word each; the whole name is read aloud
            button.setProperty("role", "choice")
            button.setCheckable(True)
            button.setAutoDefault(True)
            button.setAccessibleName(f"Holds {one.name}")
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            self.buttons[one.id] = button
            grid.addWidget(button, at // 2, at % 2)

    def value(self) -> frozenset[str]:
        return frozenset(key for key, button in self.buttons.items() if button.isChecked())

    def clear(self) -> None:
        for button in self.buttons.values():
            button.setChecked(False)


class BesidesForm(RecordForm):
    act_name = "note_ingredients"

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", "Write down: also in it", parent)
        self.line("name", "Also in it", hint="cream, stock, flour...")
        self.line("packet", "Lot on its packet")
        self.read = self.add("read", "Its packet", ChoiceRow(READ, value="no", name="Its packet"))
        self.ticks = self.add("allergens", "Allergens it holds", AllergenTicks())
        self.finish()
        for button in self.ticks.buttons.values():
            button.clicked.connect(partial(self._ticked))

    def _ticked(self, *_: object) -> None:
        self.read.set_value("yes")

    def given(self) -> dict[str, Any]:
        from gametrace.domain.ingredients import Ingredient

        name = self.needed("name", "What is it called?")
        read = self.read.value() == "yes"
        one = Ingredient(name, lot=self.value("packet"), allergens=self.ticks.value() if read else None)
        return {"ingredients": [one]}

    def clear(self, *keep: str) -> None:
        super().clear(*keep)
        self.read.set_value("no")
