"""The small forms of the drawer, one an act: what is asked, the act, and a way back. They act on nothing."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.words import Words, column


class ActForm(QWidget):
    """Signals: wanted(): do it. left(): back, nothing done."""

    wanted = Signal()
    left = Signal()

    title = ""
    act = ""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self.heading = Words(self.title, "heading")
        self.about = Words("", "quiet")
        self.about.hide()
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.main = BigButton(self.act)
        self.back = Button("Back, change nothing")
        self.column = column(self.heading, self.about)
        self.setLayout(self.column)
        self._build()
        self.column.addWidget(self.trouble)
        self.column.addWidget(self.main)
        self.column.addWidget(self.back)
        self.column.addStretch(1)
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self._move_on)
        self._enter.watch()
        self.main.clicked.connect(self.wanted)
        self.back.clicked.connect(self.left)
        set_reading_order(self)

    def _build(self) -> None:
        """Add what is asked."""

    def ask(self, label: str, inner: QWidget, name: str, hint: str = "") -> Field:
        """Add a field."""
        field = Field(label, inner, name=name, hint=hint)
        self.fields[name] = field
        self.column.addWidget(field)
        if self.focusProxy() is None:
            self.setFocusProxy(inner)
        return field

    def say_about(self, words: str) -> None:
        self.about.say(words)
        self.about.setVisible(bool(words))

    def refuse(self, field: str, sentence: str) -> None:
        """At its field, else above the main action."""
        self.clear_refusals()
        if field in self.fields:
            refuse_at(self.fields[field], sentence)
        else:
            self.trouble.say(sentence)
            self.trouble.show()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        for field in self.fields.values():
            if field.trouble.isVisibleTo(field):
                field.clear_refusal()

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)

    def _move_on(self) -> None:
        self.focusNextPrevChild(True)


class MoveForm(ActForm):
    """One press on a place moves it there."""

    title, act = "Move to", "Move it"

    def _build(self) -> None:
        self.places = PickList("Free places", search="Find a hook or shelf")
        self.places.setFixedHeight(320)
        self.ask("", self.places, "to")
        self.fields["place"] = self.fields["to"]
        self.places.picked.connect(self._picked)

    def set_places(self, places: Sequence[Choice]) -> None:
        self.places.set_choices(places)

    def _picked(self, place: str) -> None:
        self.wanted.emit()


class WeighForm(ActForm):
    title, act = "Weigh again", "Write the weight down"

    def _build(self) -> None:
        self.grams = KiloEdit("Weight now", big=True)
        self.ask("Weight now", self.grams, "grams", "What it lost since is kept as drying.")
        self.reason = line_edit("Remark, may stay empty", 500)
        self.ask("Remark, may stay empty", self.reason, "reason")


class CorrectForm(ActForm):
    title, act = "Correct the weight", "Put it right"

    def _build(self) -> None:
        self.grams = KiloEdit("The right weight", big=True)
        self.ask("The right weight at the start", self.grams, "grams")
        self.reason = line_edit("What was wrong", 500)
        self.ask("What was wrong?", self.reason, "reason", "The old weight stays on view with the reason.")


class HoldForm(ActForm):
    title, act = "Put on hold", "Hold it"

    def _build(self) -> None:
        self.say_about("The hold reaches everything ever made of it. Another person lifts it.")
        self.reason = line_edit("Why it is held", 500)
        self.ask("Why?", self.reason, "reason")


class ReleaseForm(ActForm):
    title, act = "Lift a hold", "Lift this hold"

    def _build(self) -> None:
        self.hold = ChoiceRow([], name="Hold", columns=1)
        self.ask("Which hold?", self.hold, "hold")
        self.what = Words("", "")
        self.column.addWidget(self.what)
        self.reason = line_edit("Why it may be lifted", 500)
        self.ask("Why may it be lifted?", self.reason, "reason")
        self._words: dict[str, str] = {}
        self.hold.changed.connect(self._say)

    def set_holds(self, holds: Sequence[tuple[str, str, str]]) -> None:
        """Each as number, short words, and the whole reason."""
        self._words = {number: reason for number, _, reason in holds}
        self.hold.set_choices([(number, words) for number, words, _ in holds], holds[0][0] if holds else "")
        self._enter.watch()
        set_reading_order(self)
        self._say(self.hold.value())

    def _say(self, number: str) -> None:
        self.what.say(self._words.get(number, ""))


class DisposeForm(ActForm):
    title, act = "Dispose of it", "Write it off"

    WAYS = (("returned", "Returned to the supplier"), ("condemned", "Condemned"), ("binned", "Binned"))

    def _build(self) -> None:
        self.way = ChoiceRow(self.WAYS, name="Where it goes", columns=1)
        self.ask("Where does it go?", self.way, "product")
        self.grams = KiloEdit("Weight that goes")
        self.ask("How much?", self.grams, "grams", "Left empty, all that is left goes.")
        self.reason = line_edit("Why it goes", 500)
        self.ask("Why?", self.reason, "reason")
