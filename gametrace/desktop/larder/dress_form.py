"""Skin and dress: what comes off with its weight, and the number handed on before it can be finished."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.delivery.fields import Notes
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.larder.act_form import ActForm
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.words import Words, rule, set_role

NOT_YET = "It cannot be finished before the number is on the new tag: print the tag, or type its number."


@dataclass(frozen=True, slots=True)
class Part:
    """Something that can come off: its name in the facts, and its word."""

    product: str
    word: str


class PartRow(QWidget):
    """'The head comes off' or 'stays on', and what it weighs."""

    def __init__(self, part: Part, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.part = part
        self.off = QPushButton()
        self.off.setProperty("role", "choice")
        self.off.setCheckable(True)
        self.off.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.grams = KiloEdit(f"Weight of the {part.word}")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        grid.addWidget(self.off, 0, 0)
        grid.addWidget(self.grams, 0, 1)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        self.off.toggled.connect(self._say)
        self.off.setChecked(True)

    def _say(self, comes_off: bool) -> None:
        words = f"{self.part.word.capitalize()} {'off' if comes_off else 'stays on'}"
        self.off.setText(words)
        self.off.setAccessibleName(f"{words}. Press to change")
        self.grams.setEnabled(comes_off)


class DressForm(ActForm):
    """Signals: tag_wanted(): print the new tag now."""

    tag_wanted = Signal()

    title, act = "Skin and dress", "Finish dressing"

    def _build(self) -> None:
        self.column.addWidget(Words("The old tag goes with the skin: hand the number on first.", "strong"))
        self.print = Button("Print the new tag now")
        self.column.addWidget(self.print)
        self.number = line_edit("Number on the new tag", 60)
        self.ask("or type the number that is on the new tag", self.number, "tag")
        self.column.addWidget(rule())
        self.rows: list[PartRow] = []
        self.parts = QWidget()
        self._parts = QGridLayout(self.parts)
        self._parts.setContentsMargins(0, 0, 0, 0)
        self.ask("What comes off, and its weight", self.parts, "outputs")
        self.after = KiloEdit("Weight after dressing")
        self.ask(
            "Weight after, may stay empty", self.after, "grams_after", "What is missing shows as unaccounted."
        )
        self.notes = Notes("Notes on dressing", lines=1)
        self.ask("Notes", self.notes, "notes")
        self.handed = Words(NOT_YET, "amber")
        self.column.addWidget(self.handed)
        self.is_printed = False
        self.print.clicked.connect(self.tag_wanted)
        self.number.textEdited.connect(self._typed)

    def start(self, parts: Sequence[Part]) -> None:
        """An empty form for a carcass from which these can come off."""
        while self._parts.count():
            widget = self._parts.takeAt(0).widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.rows = [PartRow(part) for part in parts]
        for at, one in enumerate(self.rows):
            self._parts.addWidget(one, at, 0)
        self.setFocusProxy(self.print)
        self.is_printed = False
        self.after.clear()
        self.notes.set_value("")
        self.number.clear()
        self.clear_refusals()
        self._enter.watch()
        set_reading_order(self)
        self.say_handed()

    def mark_printed(self) -> None:
        self.is_printed = True
        self.print.setText("Print it again")
        self.say_handed()

    def say_handed(self) -> None:
        """Whether the number is handed on, in words; the main action waits for it."""
        if self.is_printed:
            self.handed.say("The new tag is printed. Tie it on before the skin goes.")
        elif self.number.text().strip():
            self.handed.say("The number is on the new tag.")
        else:
            self.print.setText("Print the new tag now")
            self.handed.say(NOT_YET)
        set_role(self.handed, "steel" if self.is_handed_on else "amber")
        self.main.setEnabled(self.is_handed_on)

    @property
    def is_handed_on(self) -> bool:
        return self.is_printed or bool(self.number.text().strip())

    def _typed(self, text: str) -> None:
        self.clear_refusals()
        self.say_handed()
