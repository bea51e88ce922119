"""Where sources read a category differently: both readings, and 'confirm once with the authority'."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.words import Words, column, row
from gametrace.domain.findings import Finding

_CHOICES = (("1", "Category 1"), ("2", "Category 2"), ("3", "Category 3"))


class CategoryPart(QWidget):
    """One item at a time. Signals: wanted(str): settle this item. later(): the next one first."""

    wanted = Signal(str)
    later = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.item = ""
        self.title = Words("", "heading")
        self.panel = FindingPanel(bench.look, asks=False)
        self.category = ChoiceRow(_CHOICES, name="Category")
        self.who = QLineEdit()
        self.who.setMaxLength(120)
        self.who.setAccessibleName("Who said so?")
        self.on = OptionalDate("Day it was said", bench.today)
        self.fields = {
            "category": Field("What did they say?", self.category, name="category"),
            "who": Field("Who said so? Name and authority", self.who, name="who"),
            "on": Field("On which day?", self.on, name="on"),
        }
        self.settle = Button("Confirm it for good")
        self.next = Button("Another one first")
        self.settle.clicked.connect(self._wanted)
        self.next.clicked.connect(self.later)
        self.setLayout(
            column(
                self.title, self.panel, *self.fields.values(), row(self.settle, self.next, 1, gap=8), 1,
                gap=8,
            )
        )  # fmt: skip

    def show_item(self, item: str, findings: tuple[Finding, ...], *, has_more: bool) -> None:
        """What is not settled about it; nothing where all is."""
        for widget in (self.panel, *self.fields.values(), self.settle):
            widget.setVisible(bool(item))
        if item != self.item:
            self.category.set_value("")
            self.clear_refusals()
        self.item = item
        words = f"Confirm once with the authority: {item.replace('-', ' ')}"
        self.title.say(words if item else "Every category that sources read differently is confirmed.")
        self.panel.forget()
        self.panel.set_findings(findings)
        self.next.setVisible(has_more)

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["who"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _wanted(self) -> None:
        self.wanted.emit(self.item)
