"""The paper that came with the beast: who brought it, by which way, its tag, its
declaration, and what the supplier says of weight and price."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.delivery.fields import DropList, Notes
from gametrace.desktop.delivery.supplier_pick import SupplierPick
from gametrace.desktop.parts.choice_row import ANSWERS, ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit, PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.words import Words, column, row
from gametrace.facts.origins import ORIGINS, ROUTES

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
        self.notes = Notes("Inspection notes", lines=3)
        self._build()
        self._connect()

    def _build(self) -> None:
        words = {name: text for name, text, _ in LINES}
        lined = {name: Field(words[name], edit, name=name) for name, edit in self.lines.items()}
        self.declaration = QWidget()
        statements = [Field(text, self.answers[name], name=name) for name, text in STATEMENTS]
        self.declaration.setLayout(column(lined["declaration_number"], *statements))
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
                row(lined["tag"], Field("Dispatched on", self.dispatched_on, name="dispatched_on")),
                Field("Is there a hunter's declaration?", self.has_declaration, name="has_declaration"),
                self.declaration,
                row(lined["trained_person"], lined["certificate_number"]),
                row(
                    Field("Supplier's weight", self.supplier_grams, name="supplier_grams"),
                    Field("Price", self.pence_per_kg, name="pence_per_kg"),
                ),
                Field("Inspection notes", self.notes, name="inspection_notes"),
                1,
            )
        )

    def _connect(self) -> None:
        self.supplier.picked.connect(self._supplier_picked)
        for drop in (self.route, self.origin):
            drop.picked.connect(self.changed)
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
