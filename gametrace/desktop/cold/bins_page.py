"""What waits for the collector, by category with the words for its bin; a collection; weeks and papers."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.tick_list import TickList
from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row

_LIST_TALL = 160  # px: three rows in sight, in any size of type
LINES = (
    ("collector", "Who collects?", 200),
    ("destination", "Where do they go?", 200),
    ("document_number", "Number of the document", 80),
    ("signature", "Who signed? Printed name", 120),
)


class WaitingPage(QWidget):
    """Signals: category_chosen(str), collect_wanted(), written(): a field was typed in, ticked(),
    labels_wanted()."""

    category_chosen = Signal(str)
    collect_wanted = Signal()
    written = Signal()
    ticked = Signal()
    labels_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.category = ChoiceRow([], name="Category")
        self.label = Words("", "title")
        self.meaning = Words("", "quiet")
        self.count = Words("", "heading")
        self.unsettled = Words("", "amber")
        self.list = TickList(bench.look, "What waits for the collector")
        self.all = Button("Tick all")
        self.none = Button("Tick none")
        self.labels = Button("Labels", name="Print the labels of what is ticked")
        self.edits: dict[str, QLineEdit] = {}
        self.fields: dict[str, Field] = {}
        for name, words, most in LINES:
            edit = QLineEdit()
            edit.setMaxLength(most)
            edit.setAccessibleName(words)
            edit.textEdited.connect(self._typed)
            self.edits[name] = edit
            self.fields[name] = Field(words, edit, name=name)
        self.on = OptionalDate("Day of collection", bench.today)
        self.on.changed.connect(self.written)
        self.fields["on"] = Field("On which day?", self.on, name="on")
        self.paid = PenceEdit("What was paid for all of it, if sold", unit="£")
        self.paid.changed.connect(self.written)
        self.fields["pence"] = Field(
            "What was paid for all of it? Empty where nothing was", self.paid, name="pence"
        )
        self.missing = Words("", "amber")
        self.collect = BigButton("Write the collection down")
        right = ScrollColumn()
        right.add(Words("A collection", "heading"))
        for field in self.fields.values():
            right.add(field)
        right.add(self.missing)
        right.add(self.collect)
        right.add_stretch()
        left = ScrollColumn()
        left.body.setSpacing(6)
        ticks = row(self.all, self.none, self.labels, 1, gap=8)
        for part in (self.label, self.meaning, self.unsettled, self.count):
            left.add(part)
        left.add(self.list, 1)
        left.add(ticks)
        self.list.setMinimumHeight(bench.look.px(_LIST_TALL))
        both = row(gap=24)
        both.addWidget(left, 6)
        both.addWidget(right, 5)
        self.setLayout(column(self.category, both, gap=8))
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._on)
        self._enter.watch()
        self.category.changed.connect(self.category_chosen)
        self.collect.clicked.connect(self.collect_wanted)
        self.all.clicked.connect(self._tick_all)
        self.none.clicked.connect(self._tick_none)
        self.labels.clicked.connect(self.labels_wanted)
        self.list.ticked.connect(self.ticked)
        set_reading_order(self)

    def set_categories(self, choices: Sequence[tuple[str, str]], chosen: str) -> None:
        self.category.set_choices(choices, chosen)
        self._enter.watch()
        set_reading_order(self)

    def refuse(self, field: str, sentence: str) -> None:
        if field in self.fields:
            refuse_at(self.fields[field], sentence)
        else:
            self.missing.say(sentence)
            self.missing.show()

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def clear_fields(self) -> None:
        for name in ("document_number", "signature"):
            self.edits[name].clear()
        self.paid.clear()

    def _typed(self, text: str) -> None:
        self.written.emit()

    def _tick_all(self) -> None:
        self.list.tick_all(True)

    def _tick_none(self) -> None:
        self.list.tick_all(False)

    def _on(self) -> None:
        self.focusNextPrevChild(True)
