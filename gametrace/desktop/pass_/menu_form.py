"""What the menu wants to say of a dish, each word held against the records as it is chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.words import Words
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.domain.menu_claims import Claim

WORDS = (("wild", "Wild"), ("park", "Park deer"), ("farmed", "Farmed"), ("no-lead", "No lead shot"))


class ClaimTicks(QWidget):
    """Words that are said or not. Signals: changed()."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.buttons: dict[str, QPushButton] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        for at, (key, words) in enumerate(WORDS):
            button = QPushButton(words)
            button.setProperty("role", "choice")
            button.setCheckable(True)
            button.setAutoDefault(True)
            button.setAccessibleName(f"The menu says: {words}")
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.toggled.connect(self._toggled)
            self.buttons[key] = button
            grid.addWidget(button, at // 2, at % 2)

    def _toggled(self, _is_on: bool) -> None:
        self.changed.emit()

    def value(self) -> tuple[str, ...]:
        return tuple(key for key, button in self.buttons.items() if button.isChecked())

    def set_value(self, said: Sequence[str]) -> None:
        for key, button in self.buttons.items():
            button.setChecked(key in said)

    def clear(self) -> None:
        self.set_value(())


class MenuForm(RecordForm):
    """Signals: changed(): other words are wanted, to be checked."""

    act_name = "write_menu_line"
    changed = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__("", "Keep this line for the menu", parent)
        self.line_words = Words("", "heading")
        self.column.add(Words("The menu may print", "quiet"))
        self.column.add(self.line_words)
        self.ticks = self.add("claims", "The menu says", ClaimTicks())
        self.species = self.add("species", "Of", ChoiceRow((("", "no word"),), name="Of", columns=3))
        self.place = self.line("place", "From", hint="a place", most=80)
        self.hung = self.add("hung", "Hung, days", CountEdit("Days hung", most=60, field="hung"))
        self.beside("place", "hung")
        self.findings = FindingPanel(look, asks=False)
        self.column.add(self.findings)
        self.finish()
        self.ticks.changed.connect(self.changed)
        self.species.changed.connect(self._other)
        self.place.editingFinished.connect(self.changed)
        self.hung.changed.connect(self.changed)

    def _other(self, _value: str) -> None:
        self.changed.emit()

    def set_species(self, species: Sequence[tuple[str, str]]) -> None:
        choices = (("", "no word"), ("venison", "venison"), *species)
        if self.species.values() != tuple(key for key, _ in choices):
            self.species.set_choices(choices, self.species.value())

    def set_claims(self, claims: Sequence[Claim]) -> None:
        said = {claim.kind: claim.value for claim in claims}
        self.ticks.set_value(tuple(said))
        self.species.set_value(said.get("species", ""))
        self.place.setText(said.get("place", ""))
        self.hung.set_value(int(said["hung"]) if "hung" in said else None)

    def claims(self) -> list[Claim]:
        wanted = [Claim(kind) for kind in self.ticks.value()]
        if species := self.species.value():
            wanted.append(Claim("species", species))
        if place := self.place.text().strip():
            wanted.append(Claim("place", place))
        if (days := self.hung.value_or_none()) is not None:
            wanted.append(Claim("hung", str(days)))
        return wanted

    def given(self) -> dict[str, Any]:
        self.value("hung")  # refused here where it cannot be read
        return {"claims": self.claims()}

    def show_check(self, check: Any) -> None:
        """The line as far as it is shown, each claim's ruling, and the advice on lead."""
        self.line_words.say(f"“{check.line}”")
        self.findings.set_findings([*(one.finding() for one in check.rulings), *check.advice])
