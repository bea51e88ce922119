"""The sheets of money on the second page: the price, a new claim, and the claims there are."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit, PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, column, row
from gametrace.domain.errors import Refusal

SETTLEMENTS = (("agreed", "Agreed"), ("credited", "Credited"), ("refused", "Refused"))


def _line() -> QLineEdit:
    edit = QLineEdit()
    edit.setMaxLength(500)
    return edit


class PriceSheet(Sheet):
    """The price a kilo, open until the second decision. Signals: wanted()."""

    wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Price", parent)
        self.pence = PenceEdit("Price a kilo")
        self.pence_field = Field("Price a kilo", self.pence, name="pence_per_kg")
        self.why = _line()
        self.reason_field = Field("Why is the price changed?", self.why, name="reason")
        self.act = Button("Write the price down")
        self.act.setAutoDefault(True)
        self.trouble = Words("", "amber")
        self.trouble.hide()
        for part in (self.pence_field, self.reason_field, self.trouble, row(self.act, 1)):
            self.add(part)
        self.pence.entered.connect(self._entered)
        self.why.returnPressed.connect(self.wanted)
        self.act.clicked.connect(self.wanted)

    def _entered(self) -> None:
        if self.reason_field.isHidden():
            self.wanted.emit()
        else:
            self.why.setFocus()

    def refuse(self, refusal: Refusal) -> None:
        if refusal.field == "pence_per_kg":
            refuse_at(self.pence_field, str(refusal))
        elif refusal.field == "reason":
            self.reason_field.show()
            self.reason_field.refuse(str(refusal))
        else:
            self.trouble.say(str(refusal))
            self.trouble.show()

    def clear_refusals(self) -> None:
        self.pence_field.clear_refusal()
        self.reason_field.clear_refusal()
        self.trouble.hide()


class ClaimSheet(Sheet):
    """A new claim: the rule, the window, and the sum before it is raised. Signals: wanted(), changed()."""

    wanted = Signal()
    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Claim", parent)
        self.rule = Words("", "strong")
        self.window_words = Words("")
        self.grams = KiloEdit("Weight lost")
        self.cut_pence = PenceEdit("Price of the cut")
        self.why = _line()
        self.reason_field = Field("What was found", self.why, name="reason")
        self.grams_field = Field("Weight lost", self.grams, name="grams")
        self.cut_field = Field("Price of the cut that was lost", self.cut_pence, name="pence_per_kg")
        self.sum = Words("", "large")
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.act = BigButton("Raise the claim")
        for part in (
            self.rule,
            self.window_words,
            self.grams_field,
            self.cut_field,
            self.reason_field,
            self.sum,
            self.trouble,
            row(self.act, 1),
        ):
            self.add(part)
        self.grams.changed.connect(self.changed)
        self.cut_pence.changed.connect(self.changed)
        self.grams.entered.connect(self._on)
        self.cut_pence.entered.connect(self.why.setFocus)
        self.why.returnPressed.connect(self.wanted)
        self.act.clicked.connect(self.wanted)

    def _on(self) -> None:
        (self.why if self.cut_field.isHidden() else self.cut_pence).setFocus()

    def ask(self, *, is_asked: bool, is_cut_price: bool) -> None:
        """Only what the rule needs; nothing where no rule is agreed."""
        for part in (self.grams_field, self.reason_field, self.sum, self.act):
            part.setVisible(is_asked)
        self.cut_field.setVisible(is_asked and is_cut_price)

    def clear(self) -> None:
        self.grams.clear()
        self.cut_pence.clear()
        self.why.clear()
        self.clear_refusals()

    def refuse(self, refusal: Refusal) -> None:
        fields = {"grams": self.grams_field, "pence_per_kg": self.cut_field, "reason": self.reason_field}
        field = fields.get(refusal.field)
        if field is not None and not field.isHidden():
            refuse_at(field, str(refusal))
        else:
            self.trouble.say(str(refusal))
            self.trouble.show()

    def clear_refusals(self) -> None:
        for field in (self.grams_field, self.cut_field, self.reason_field):
            field.clear_refusal()
        self.trouble.hide()


class SettleSheet(Sheet):
    """The claims there are, and what became of the one chosen. Signals: wanted(), note_wanted()."""

    wanted = Signal()
    note_wanted = Signal()
    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Claims of this animal", parent)
        self.list = PickList("Claims of this animal")
        self.list.setMinimumHeight(64)
        self.list.setMaximumHeight(132)
        self.status = ChoiceRow(SETTLEMENTS, name="The supplier's answer", columns=2)
        self.pence = PenceEdit("Sum", "£")
        self.note = _line()
        self.note_field = Field("What was said", self.note, name="note")
        self.pence_field = Field("Sum", self.pence, name="pence")
        self.act = Button("Settle it")
        self.print = Button("Print the claim note")
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.asked = QWidget()
        self.asked.setLayout(column(self.status, self.pence_field, self.note_field, self.trouble, gap=8))
        for button in (self.act, self.print):
            button.setAutoDefault(True)
        for part in (self.list, row(self.print, 1), self.asked, row(self.act, 1)):
            self.add(part)
        self.act.clicked.connect(self.wanted)
        self.note.returnPressed.connect(self.wanted)
        self.print.clicked.connect(self.note_wanted)
        self.list.picked.connect(self.chosen)
        self.list.moved.connect(self.chosen)

    def show_claims(self, choices: Sequence[Choice]) -> None:
        kept = self.list.value()
        self.list.set_choices(choices)
        values = [one.value for one in choices]
        self.list.set_value(kept if kept in values else values[-1] if values else "")
        self.setVisible(bool(choices))

    def ask(self, is_open: bool) -> None:
        self.asked.setVisible(is_open)
        self.act.setVisible(is_open)

    def refuse(self, refusal: Refusal) -> None:
        if refusal.field == "pence":
            refuse_at(self.pence_field, str(refusal))
            return
        self.trouble.say(str(refusal))
        self.trouble.show()

    def clear_refusals(self) -> None:
        self.pence_field.clear_refusal()
        self.trouble.hide()
