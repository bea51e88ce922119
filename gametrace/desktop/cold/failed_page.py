"""A store that failed: everything in it on hold in one act, then decided lot by lot or several together."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.cold.tick_list import TickList
from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row, rule

WAYS = (("condemned", "Condemned"), ("binned", "Binned"), ("returned", "Sent back"))


class FailedPage(QWidget):
    """Signals: store_chosen(str), fail_wanted(), release_wanted(), dispose_wanted(), ticked()."""

    store_chosen = Signal(str)
    fail_wanted = Signal()
    release_wanted = Signal()
    dispose_wanted = Signal()
    ticked = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.store = ChoiceRow([], name="Which store failed?", columns=1)
        self.inside = Words("", "quiet")
        self.reason = QLineEdit()
        self.reason.setMaxLength(500)
        self.reason.setAccessibleName("What happened?")
        self.why = QLineEdit()
        self.why.setMaxLength(500)
        self.why.setAccessibleName("Why it is decided so")
        self.way = ChoiceRow(WAYS, value="condemned", name="Where it goes", columns=1)
        self.fields = {
            "store": Field("Which store failed?", self.store, name="store"),
            "reason": Field("What happened?", self.reason, name="reason"),
            "why": Field("Why is it decided so?", self.why, name="why"),
            "way": Field("If it goes, where to?", self.way, name="way"),
        }
        self.fail = BigButton("Everything in it on hold")
        self.count = Words("", "heading")
        self.list = TickList(look, "Lots on hold")
        self.all = Button("Tick all")
        self.none = Button("Tick none")
        self.release = Button("Lift their holds")
        self.dispose = Button("They go")
        left, right = ScrollColumn(), ScrollColumn()
        left.add(self.fields["store"])
        left.add(self.inside)
        left.add(self.fields["reason"])
        left.add(self.fail)
        left.add_stretch()
        for item in (
            self.fields["why"], row(self.release, 1), rule(), self.fields["way"], row(self.dispose, 1)
        ):  # fmt: skip
            right.add(item)
        right.add_stretch()
        middle = QWidget()
        middle.setLayout(column(self.count, self.list, row(self.all, self.none, 1, gap=8), gap=8))
        both = row(gap=20)
        both.addWidget(left, 3)
        both.addWidget(middle, 5)
        both.addWidget(right, 3)
        self.setLayout(both)
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._on)
        self._enter.watch()
        self.store.changed.connect(self.store_chosen)
        self.fail.clicked.connect(self.fail_wanted)
        self.release.clicked.connect(self.release_wanted)
        self.dispose.clicked.connect(self.dispose_wanted)
        self.all.clicked.connect(self._tick_all)
        self.none.clicked.connect(self._tick_none)
        self.list.ticked.connect(self.ticked)
        set_reading_order(self)

    def set_stores(self, stores: Sequence[tuple[str, str]]) -> None:
        if tuple(code for code, _ in stores) != self.store.values():
            self.store.set_choices(stores, self.store.value())
            self._enter.watch()
            set_reading_order(self)

    def refuse(self, field: str, sentence: str) -> None:
        self.fields.get(field, self.fields["why"]).refuse(sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _tick_all(self) -> None:
        self.list.tick_all(True)

    def _tick_none(self) -> None:
        self.list.tick_all(False)

    def _on(self) -> None:
        self.focusNextPrevChild(True)
