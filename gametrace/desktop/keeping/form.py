"""The form that freezes, thaws, packs again or dates a lot, with the old and the new date side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from gametrace.desktop.block.weighing import PlaceBox
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.larder.act_form import ActForm
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.words import Words, column

CHANGES = {
    "freeze": ("Freeze", "Freeze it"),
    "thaw": ("Thaw", "Thaw it"),
    "repack": ("Pack again", "Write it down as packed again"),
    "override": ("Date by hand", "Give it this date"),
}
PACKED_AGAIN = (
    ("chilled-loose", "Chilled, loose"),
    ("vacuum", "Vacuum"),
    ("modified-atmosphere", "Modified air"),
)
_ASKED = {
    "freeze": ("place", "reason"),
    "thaw": ("method", "place"),
    "repack": ("pack_state",),
    "override": ("to", "reason"),
}


class KeepingForm(ActForm):
    """Signals: changed(): something else is asked for, so the dates are to be worked out again."""

    changed = Signal()

    title, act = "Freeze, thaw, date", "Freeze it"

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        self._today = today
        super().__init__(parent)

    def _build(self) -> None:
        self.change = ChoiceRow((), name="What is done", columns=2)
        hint = "It is done with the whole lot. For a part of it, pack that part first."
        self.ask("What is done with it?", self.change, "change", hint)
        self.was, self.was_rule = Words("", "strong"), Words("", "quiet")
        self.now, self.rule = Words("", "large"), Words("", "quiet")
        self.asked = Words("", "amber")
        self.dates = QWidget()
        self.dates.setLayout(column(self.was, self.was_rule, self.now, self.rule, self.asked, gap=4))
        self.column.addWidget(self.dates)
        self.method = ChoiceRow((), name="How it is thawed", columns=1)
        self.ask("How?", self.method, "method")
        self.pack_state = ChoiceRow(PACKED_AGAIN, name="How it is packed", columns=1)
        self.ask("How is it packed now?", self.pack_state, "pack_state")
        self.to = OptionalDate("The new date", self._today, looks_back=False, buttons=False)
        self.ask("The new date", self.to, "to", "A tutor's word, with a reason.")
        self.place = PlaceBox("Where it lies from now on")
        self.ask("Where does it lie from now on?", self.place, "place")
        self.reason = line_edit("Why", 500)
        self.ask("Why?", self.reason, "reason")
        self.labels = QCheckBox("Print its new label")
        self.labels.setAccessibleName("Print its new label at once")
        self.labels.setChecked(True)
        self.column.addWidget(self.labels)
        self.change.changed.connect(self._change_chosen)
        self.method.changed.connect(self.changed)
        self.pack_state.changed.connect(self.changed)
        self.to.changed.connect(self.changed)
        self.reason.textEdited.connect(self.changed)

    def start(self, changes: Sequence[str], methods: Sequence[tuple[str, str]]) -> None:
        """Offer these changes, the first one chosen, with nothing typed."""
        self.change.set_choices([(name, CHANGES[name][0]) for name in changes], changes[0] if changes else "")
        self.method.set_choices(methods)
        self.pack_state.set_value("")
        self.to.clear()
        self.reason.clear()
        self._enter.watch()
        set_reading_order(self)
        self._change_chosen(self.change.value())

    def needs_reason(self, wanted: bool) -> None:
        """Freezing asks why only where there is no date to go by."""
        self.fields["reason"].setVisible(wanted)

    def say_dates(self, was: str, was_rule: str, now: str, rule: str, asked: str = "") -> None:
        """What it has, what it would get, and what is asked before."""
        for words, said in (
            (self.was, was), (self.was_rule, was_rule), (self.now, now), (self.rule, rule),
            (self.asked, asked),
        ):  # fmt: skip
            words.say(said)
            words.setVisible(bool(said))

    def _change_chosen(self, change: str) -> None:
        asked = _ASKED.get(change, ())
        for name, field in self.fields.items():
            if name != "change":
                field.setVisible(name in asked)
        if change == "freeze":
            self.needs_reason(False)
        words = CHANGES.get(change, ("", self.act))[1]
        self.main.setText(words)
        self.main.setAccessibleName(words)
        self.main.setEnabled(bool(change))
        self.clear_refusals()
        self.changed.emit()
