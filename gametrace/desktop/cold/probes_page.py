"""Thermometers: which there are, when each was last held in ice and in boiling water, and a check now."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.cold.boiling_edit import BoilingEdit
from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import CelsiusEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row, rule


class ProbesPage(QWidget):
    """Signals: check_wanted(), add_wanted()."""

    check_wanted = Signal()
    add_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lines = column(gap=12)
        self.probe = ChoiceRow([], name="Probe")
        self.ice = CelsiusEdit("In melting ice")
        self.boiling = BoilingEdit("In boiling water")
        self.name = QLineEdit()
        self.name.setMaxLength(80)
        self.name.setAccessibleName("Name of another probe")
        self.fields = {
            "probe": Field("Which probe?", self.probe, name="probe"),
            "ice_tenths_c": Field(
                "In melting ice, nothing where it was not held in it", self.ice, name="ice_tenths_c"
            ),
            "boiling_tenths_c": Field("In boiling water", self.boiling, name="boiling_tenths_c"),
            "name": Field("Another probe: its name", self.name, name="name"),
        }
        self.check = BigButton("Write the check down")
        self.add = Button("Add the probe")
        left, right = ScrollColumn(), ScrollColumn()
        left.add(Words("Probes", "heading"))
        left.add(self.lines)
        left.add_stretch()
        right.add(Words("Check a probe", "heading"))
        for name in ("probe", "ice_tenths_c", "boiling_tenths_c"):
            right.add(self.fields[name])
        right.add(self.check)
        right.add(rule())
        right.add(self.fields["name"])
        right.add(row(self.add, 1))
        right.add_stretch()
        both = row(gap=32)
        both.addWidget(left, 1)
        both.addWidget(right, 1)
        self.setLayout(both)
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._on)
        self._enter.watch()
        self.check.clicked.connect(self.check_wanted)
        self.add.clicked.connect(self.add_wanted)

    def set_probes(self, probes: Sequence[tuple[str, str]], told: Sequence[tuple[str, str, bool]]) -> None:
        """Probes as (code, name), and of each (name, its last check in words, whether it wants one)."""
        if tuple(code for code, _ in probes) != self.probe.values():
            self.probe.set_choices(probes, self.probe.value() or (probes[0][0] if probes else ""))
            self._enter.watch()
            set_reading_order(self)
        clear(self.lines)
        for name, words, wants_check in told:
            self.lines.addWidget(Words(name, "strong"))
            self.lines.addWidget(Words(words, "amber" if wants_check else "quiet"))
        if not told:
            self.lines.addWidget(Words("No probe has been written down yet. Give the first one a name."))

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["ice_tenths_c"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _on(self) -> None:
        self.focusNextPrevChild(True)
