"""One supplier's approval file: every field, what has lapsed, the score from the larder's own records."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.kilo_edit import PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.domain.claims import RULES
from gametrace.domain.errors import Refusal
from gametrace.facts.origins import ORIGINS, ROUTES

_RULE_WORDS = {
    "none": "None agreed",
    "bought price": "Per kilo, at the price bought",
    "cut price": "Per kilo, at the price of the cut",
    "fixed": "A fixed sum",
}
_LEAD = (("yes", "Yes, in writing"), ("no", "No"), ("not stated", "Not stated"))


class SupplierLines(Sheet):
    """Everybody in the book, a press each; what has lapsed stands under the name.

    Signals: wanted(str): a supplier's code.
    """

    wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Suppliers", parent)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(8)
        self.add(self._lines)
        self.buttons: dict[str, Button] = {}

    def show_suppliers(self, lines: Sequence[tuple[str, str, Sequence[str]]]) -> None:
        """(code, words, what has lapsed) for each."""
        clear(self._lines)
        self.buttons = {}
        self.setVisible(bool(lines))
        for code, words, lapses in lines:
            button = Button("Open", name=f"Open the file of {words}")
            button.clicked.connect(partial(self.wanted.emit, code))
            said = column(Words(words), *(Words(lapse, "amber") for lapse in lapses), gap=2)
            line = row(said, button)
            line.setStretch(0, 1)
            self._lines.addLayout(line)
            self.buttons[code] = button
            if self.isVisible():
                button.show()  # now, not at the next event: the next Tab must find it


class SupplierFile(Sheet):
    """The whole file of one supplier, open to be amended with a reason.

    Signals: kept(): keep what is written. closed(): back to all of them.
    """

    kept = Signal()
    closed = Signal()

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(" ", parent)
        self._today = today
        self.fields: dict[str, Field] = {}
        self.back = Button("All suppliers")
        self.back.clicked.connect(self.closed)
        self.add(row(self.back, 1))
        self.lapses = QVBoxLayout()
        self.add(self.lapses)
        self.add(Words("From this larder's own records", "heading"))
        self.scores = QVBoxLayout()
        self.scores.setSpacing(4)
        self.add(self.scores)
        self._who()
        self._papers()
        self._agreed()
        self.reason = self._line("reason", "What changed, and why? Filling in a blank needs no reason", 500)
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.act = BigButton("Keep this")
        self.act.clicked.connect(self.kept)
        self.add(self.trouble)
        self.add(row(self.act, 1))

    def _who(self) -> None:
        self.add(Words("Who, and by which way", "heading"))
        self._line("name", "Name")
        self._line("address", "Address", 500)
        self._line("phone", "Telephone")
        self._choice("route", "By which route?", [(key, _capital(words)) for key, words in ROUTES.items()])
        self._choice(
            "origin", "How do the animals live?", [(key, _capital(words)) for key, words in ORIGINS.items()]
        )

    def _papers(self) -> None:
        self.add(Words("Papers, and the last day each holds", "heading"))
        self._line("approval_number", "Registration with the council, or approval number")
        self._line("trained_hunter", "Trained hunter")
        self._line("certificate_number", "Certificate number")
        self._day("certificate_until", "Certificate holds until")
        self._day("insured_until", "Insured until")
        self._choice("lead_free", "Does the supplier state that no lead is shot?", _LEAD, columns=3)
        self._day("lead_free_until", "That statement holds until")
        self._day("review_on", "Next review of this file")

    def _agreed(self) -> None:
        self.add(Words("What was agreed", "heading"))
        self._line("price_basis", "The price is for a carcass how dressed?", hint="in the skin, head off")
        self._choice(
            "damage_rule", "Rule for shot damage", [(rule, _RULE_WORDS.get(rule, rule)) for rule in RULES]
        )
        pence = PenceEdit("The fixed sum", unit="£ a carcass")
        pence.edit.returnPressed.connect(self._go_on)
        self._add("damage_pence", "The fixed sum", pence)
        days = CountEdit("Days within which a claim is raised", most=90, field="claim_days")
        days.edit.setPlaceholderText("no window agreed")
        days.edit.returnPressed.connect(self._go_on)
        self._add("claim_days", "Days within which a claim is raised", days)
        self.fields["damage_rule"].inner.changed.connect(self._rule_changed)

    # -- what the presenter calls -----------------------------------------------------------------------

    def show_file(
        self, code: str, values: Mapping[str, Any], lapses: Sequence[str], scores: Sequence[str]
    ) -> None:
        """Another supplier, or the same as it is now; `values` are the fields of its Approval."""
        self.say_title(f"{code}   {values['name']}")
        for name, field in self.fields.items():
            if name != "reason":
                self._set(field.inner, values[name])
        self.show_told(lapses, scores)
        self._rule_changed(values["damage_rule"])
        self.fields["reason"].inner.clear()
        self.clear_refusals()

    def show_told(self, lapses: Sequence[str], scores: Sequence[str]) -> None:
        """What the records say now; what is typed stays."""
        for layout, lines, role in ((self.lapses, lapses, "amber"), (self.scores, scores, "")):
            clear(layout)
            for line in lines:
                layout.addWidget(Words(line, role))

    def values(self) -> dict[str, Any]:
        """Everything as the act takes it. Refusal where something cannot be read."""
        return {name: self._value(name, field.inner) for name, field in self.fields.items()}

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

    # -- the rest ---------------------------------------------------------------------------------------

    def _value(self, name: str, inner: Any) -> Any:
        if isinstance(inner, QLineEdit):
            return inner.text().strip()
        try:
            value = inner.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, name) from refusal
        return 0 if value is None and name in ("claim_days", "damage_pence") else value

    def _set(self, inner: Any, value: Any) -> None:
        if isinstance(inner, QLineEdit):
            inner.setText(value)
        else:
            inner.set_value(None if value == 0 else value)

    def _rule_changed(self, rule: str) -> None:
        self.fields["damage_pence"].setVisible(rule == "fixed")

    def _line(self, name: str, label: str, most: int = 200, *, hint: str = "not stated") -> QLineEdit:
        edit = QLineEdit()
        edit.setMaxLength(most)
        edit.setPlaceholderText("" if name == "reason" else hint)
        edit.returnPressed.connect(self._go_on)
        self._add(name, label, edit)
        return edit

    def _choice(self, name: str, label: str, choices: Sequence[tuple[str, str]], *, columns: int = 2) -> None:
        made = ChoiceRow(choices, name=label, columns=columns)
        made.entered.connect(self._go_on)
        self._add(name, label, made)

    def _day(self, name: str, label: str) -> None:
        made = OptionalDate(label, self._today, looks_back=False, buttons=False)
        made.edit.returnPressed.connect(self._go_on)
        self._add(name, label, made)

    def _add(self, name: str, label: str, inner: QWidget) -> None:
        field = Field(label, inner, name=name)
        self.fields[name] = field
        self.add(field)

    def _go_on(self) -> None:
        """Enter goes to the next field, and from the last one it is the act."""
        shown = [field.inner for field in self.fields.values() if not field.isHidden()]
        focused = self.focusWidget()
        at = next((i for i, inner in enumerate(shown) if focused is inner or inner.isAncestorOf(focused)), -1)
        if at + 1 < len(shown):
            shown[at + 1].setFocus()
        else:
            self.kept.emit()


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
