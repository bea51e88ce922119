"""What a carcass's paper still lacks, each a way to its field: filled in any order, each its own entry."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, clear, column

# What is missing, as the register words it, and the field of the form that takes it.
FIELD_OF = {
    "the tag number": "tag",
    "the day of killing": "killed_on",
    "the time of killing": "kill_time",
    "the place of killing": "kill_place",
    "a temperature": "readings",
    "the sex": "sex",
    "a hook or shelf": "place",
    "the price": "pence_per_kg",
}
REASONS = "reasons"


class MissingList(QWidget):
    """Signals: wanted(str): the field whose value is missing; 'reasons' for the questions asked."""

    wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = Words("", "strong")
        self._grid = QGridLayout()
        self._grid.setSpacing(0)
        self._grid.setColumnStretch(1, 1)
        self.buttons: dict[str, Button] = {}
        self.setLayout(column(self.heading, self._grid, gap=4))

    def show_missing(self, missing: Sequence[str]) -> None:
        plain = [words for words in missing if words in FIELD_OF]
        reasons = len(missing) - len(plain)
        named = [(FIELD_OF[words], words.removeprefix("the ").removeprefix("a ")) for words in plain]
        if reasons:
            named.append((REASONS, "a reason" if reasons == 1 else f"{reasons} reasons"))
        clear(self._grid)
        self.buttons = {}
        for at, (field, words) in enumerate(named):
            button = Button(words, quiet=True, name=f"Missing: {words}. Go there")
            button.setProperty("field", field)
            button.clicked.connect(self._pressed)
            self.buttons[field] = button
            self._grid.addWidget(button, at // 2, at % 2)
        self.heading.say("Still missing" if named else "Nothing is missing.")

    def _pressed(self) -> None:
        self.wanted.emit(self.sender().property("field"))

    def words(self) -> str:
        """All that is listed."""
        return ", ".join(button.text() for button in self.buttons.values())
