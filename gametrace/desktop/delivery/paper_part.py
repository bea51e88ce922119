"""The paper that came with the beast: who brought it, by which way, its tag, its
declaration, and what the supplier says of weight and price."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.delivery.card_bodies import CardBodies
from gametrace.desktop.delivery.fields import DropList, Notes
from gametrace.desktop.delivery.fold import Fold
from gametrace.desktop.delivery.papers_asked import PapersAsked
from gametrace.desktop.delivery.supplier_pick import SupplierPick
from gametrace.desktop.parts.choice_row import ANSWERS, ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit, PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.words import Words, column, row
from gametrace.facts.origins import ORIGIN_MEANINGS, ORIGINS, ROUTES

# The three statements of a declaration, in the law's order. Regulation 853/2004 Annex III IV II 4(a).
STATEMENTS = (
    ("no_abnormal_characteristics", "No abnormal characteristics found"),
    ("no_abnormal_behaviour", "No abnormal behaviour before killing"),
    ("no_contamination", "No suspicion of environmental contamination"),
)
LINES = (
    ("tag", "Supplier's tag", 60),
    ("declaration_number", "Declaration number", 60),
    ("trained_person", "Trained person", 120),
    ("certificate_number", "Certificate number", 60),
    ("approval_number", "Approval number", 60),
)

DECLARED = "Is there a hunter's declaration?"
_TOLD = {
    "must be there": "It must be.",
    "should be there": "It should be.",
    "not expected here": "None expected.",
}

# Four answers side by side in half a page at 1280 pixels.
TIGHT = "QPushButton { padding: 2px 4px; } QPushButton:focus, QPushButton:checked:focus { padding: 0px; }"


def line_edit(name: str, most: int) -> QLineEdit:
    edit = QLineEdit()
    edit.setAccessibleName(name)
    edit.setMaxLength(most)
    return edit


class PaperPart(QWidget):
    """Signals: changed(). supplier_picked(str): by a person. grew(): there are other fields now."""

    changed = Signal()
    supplier_picked = Signal(str)
    grew = Signal()

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.supplier = SupplierPick()
        self.route = DropList("Supply route", ROUTES.items())
        self.origin = DropList("Origin", ORIGINS.items())
        self.lines = {name: line_edit(words, most) for name, words, most in LINES}
        self.dispatched_on = OptionalDate("Dispatched on", today, buttons=False)
        self.has_declaration = ChoiceRow(
            [("yes", "Yes"), ("no", "No")], name="Is there a hunter's declaration"
        )
        self.answers = {name: ChoiceRow(ANSWERS, name=words) for name, words in STATEMENTS}
        self.supplier_grams = KiloEdit("Supplier's weight")
        self.pence_per_kg = PenceEdit("Price a kilo")
        self.difference = Words("", "quiet")
        self.notes = Notes("Inspection notes", lines=3)
        self.meaning = Words("", "quiet")
        self.asked = Fold("Papers and pictures asked for", PapersAsked)
        self.on_card = CardBodies()
        self._build()
        self._connect()

    def _build(self) -> None:
        words = {name: text for name, text, _ in LINES}
        lined = {name: Field(words[name], edit, name=name) for name, edit in self.lines.items()}
        self.declaration = QWidget()
        statements = [Field(text, self.answers[name], name=name) for name, text in STATEMENTS]
        self.declaration.setLayout(column(lined["declaration_number"], self.on_card, *statements))
        self.declared_field = Field(DECLARED, self.has_declaration, name="has_declaration")
        self.declaration.hide()
        for answer in self.answers.values():
            for value in answer.values():
                answer.button(value).setStyleSheet(TIGHT)
        self.setLayout(
            column(
                Words("Paper", "heading"),
                Field("Supplier", self.supplier, name="supplier"),
                Field("Route", self.route, name="route"),
                row(Field("Origin", self.origin, name="origin"), lined["approval_number"]),
                self.meaning,
                row(lined["tag"], Field("Dispatched on", self.dispatched_on, name="dispatched_on")),
                self.declared_field,
                self.declaration,
                row(lined["trained_person"], lined["certificate_number"]),
                row(
                    Field("Supplier's weight", self.supplier_grams, name="supplier_grams"),
                    Field("Price", self.pence_per_kg, name="pence_per_kg"),
                ),
                self.difference,
                Field("Inspection notes", self.notes, name="inspection_notes"),
                self.asked,
                1,
            )
        )

    def _connect(self) -> None:
        self.supplier.picked.connect(self._supplier_picked)
        for drop in (self.route, self.origin):
            drop.picked.connect(self.changed)
        self.asked.grew.connect(self.grew)
        for edit in self.lines.values():
            edit.textEdited.connect(self.changed)
        for typed in (self.dispatched_on, self.supplier_grams, self.pence_per_kg):
            typed.changed.connect(self.changed)
        self.notes.textChanged.connect(self.changed)
        self.has_declaration.changed.connect(self._declaration_answered)
        for answer in self.answers.values():
            answer.changed.connect(self.changed)

    def _supplier_picked(self, code: str) -> None:
        self.supplier_picked.emit(code)
        self.changed.emit()

    def _declaration_answered(self, answer: str) -> None:
        self.show_declaration()
        self.changed.emit()

    def show_declaration(self) -> None:
        """The statements are asked for only where there is a card."""
        self.declaration.setVisible(self.has_declaration.value() == "yes")
        self.grew.emit()

    def show_asked(self, asked: dict[str, str]) -> None:
        """How far each paper is asked for, in its empty field; and what the chosen origin means."""
        for name in ("tag", "approval_number"):
            self.lines[name].setPlaceholderText(asked[name])
            self.lines[name].setAccessibleDescription(asked[name])
        how = asked["has_declaration"]
        self.declared_field.label.say(f"{DECLARED} {_TOLD.get(how, '')}".strip())
        self.meaning.say(ORIGIN_MEANINGS.get(self.origin.value(), ""))

    def say_difference(self, words: str) -> None:
        """Theirs beside ours."""
        self.difference.say(words)
        self.difference.setVisible(bool(words))

    def add_last(self, widget: QWidget) -> None:
        """Something only one of the pages has, at the foot of the column."""
        layout = self.layout()
        layout.insertWidget(layout.count() - 1, widget)
