"""The bag with no label: what can be told of it, what it may be and why, and the decision."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text

_INTRODUCTION = (
    "Weigh it, look at it, say where it lay. The register tells what it may be; a person decides, or bins it."
)


class BagView(QWidget):
    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look: Look = bench.look
        self.back = Button("Back to Trace")
        self.grams = KiloEdit("Weight of the bag")
        self.on = OptionalDate("A day that can be read on it, or when it may have been packed", bench.today)
        self.look_edit = QLineEdit()
        self.look_edit.setMaxLength(200)
        self.look_edit.setPlaceholderText("haunch, diced, dark, vacuum")
        self.place = PickList("Where it lay")
        self.place.setFixedHeight(look.px(190))
        self.fields = {
            "grams": Field("Weight", self.grams, name="grams"),
            "on": Field("A day on it, or when it may have been packed", self.on, name="on"),
            "look": Field("How it looks", self.look_edit, name="look"),
            "place": Field("Where it lay", self.place, name="place"),
        }
        self.find_button = BigButton("What may it be?")
        self.answer = Words("", "large")
        self.candidates = PickList("What it may be")
        self.why = Words("", "")
        self.reason = QLineEdit()
        self.reason.setMaxLength(500)
        self.fields["reason"] = Field("What decided it", self.reason, name="reason")
        self.trouble = Words("", "amber")
        self.is_it = BigButton("It is this one")
        self.bin = Button("Bin the bag")
        self.before = Words("", "quiet")
        left = ScrollColumn()
        left.add(row(self.back, 1))
        left.add(Words("A bag with no label", "heading"))
        left.add(Words(_INTRODUCTION, "quiet"))
        for name in ("grams", "on", "look", "place"):
            left.add(self.fields[name])
        left.add(row(self.find_button, 1))
        left.add_stretch()
        right = column(self.answer, self.candidates, self.why, self.fields["reason"], self.trouble, gap=8)
        right.addLayout(row(self.is_it, self.bin, 1))
        right.addWidget(self.before)
        right.addStretch()
        sides = row(left, right, gap=APART)
        sides.setStretch(0, 4)
        sides.setStretch(1, 6)
        self.setLayout(sides)
        self.setFocusProxy(self.grams)
        self.look_edit.returnPressed.connect(self.find_button.click)

    def show_decision(self, is_asked: bool) -> None:
        for one in (self.candidates, self.why, self.fields["reason"], self.is_it, self.bin):
            one.setVisible(is_asked)

    def refuse(self, refusal: Refusal) -> None:
        field = self.fields.get(refusal.field)
        if field is not None and field.isVisible():
            field.refuse(str(refusal))
        else:
            self.trouble.say(str(refusal))
            self.trouble.show()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        for field in self.fields.values():
            field.clear_refusal()


class BagPresenter(QObject):
    """One view, one bench."""

    def __init__(self, view: BagView, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._found: dict[str, Any] = {}
        view.find_button.clicked.connect(self.find)
        view.candidates.moved.connect(self.show_why)
        view.candidates.picked.connect(self._to_reason)
        view.is_it.clicked.connect(self.decide)
        view.bin.clicked.connect(self.throw_away)
        view.show_decision(is_asked=False)
        view.trouble.hide()

    def refresh(self) -> None:
        places = [one for one in self.bench.ask("places") if one.kind in ("shelf", "hook")]
        shelves = [Choice("", "Not known"), *(Choice(one.code, one.name) for one in places)]
        self.view.place.set_choices(shelves)
        said = [_said(one) for one in self.bench.ask("decided_bags")[:4]]
        self.view.before.say("\n".join(["Bags before this one:", *said]) if said else "")

    def _told(self) -> dict[str, Any]:
        return {
            "grams": self.view.grams.value(),
            "on": self.view.on.value(),
            "look": self.view.look_edit.text(),
            "place": self.view.place.value(),
        }

    def find(self) -> None:
        self.view.clear_refusals()
        self.bench.guarded(self._find, on_refusal=self.view.refuse)

    def _find(self) -> None:
        found: Sequence[Any] = self.bench.ask("bag_candidates", **self._told())
        self._found = {one.lot.code: one for one in found}
        choices = [
            Choice(code, f"{code}  {one.lot.name}, {kg_text(one.lot.grams)}")
            for code, one in self._found.items()
        ]
        self.view.candidates.set_choices(choices)
        self.view.show_decision(is_asked=True)
        self.view.candidates.setVisible(bool(choices))
        self.view.is_it.setVisible(bool(choices))
        if choices:
            self.view.answer.say("The likeliest first. Look at each before you decide.")
            self.view.candidates.set_value(choices[0].value)
            self.show_why(choices[0].value)
            self.view.candidates.setFocus()
        else:
            self.view.answer.say("Nothing that is here fits what was told. Tell more of it, or bin it.")
            self.view.why.say("")

    def show_why(self, code: str) -> None:
        one = self._found.get(code)
        if one is None:
            return
        lines = [f"{one.lot.where or 'place not stated'}, {one.lot.state}"]
        lines += [f"for it: {'; '.join(one.for_it)}"] if one.for_it else []
        lines += [f"against it: {'; '.join(one.against)}"] if one.against else []
        self.view.why.say("\n".join(lines))

    def _to_reason(self, code: str) -> None:
        self.show_why(code)
        self.view.reason.setFocus()

    def decide(self) -> None:
        code = self.view.candidates.value()
        self._decide(code, f"The bag is {code}. Print it a label.")

    def throw_away(self) -> None:
        self._decide("", "The bag was binned; that is written down.")

    def _decide(self, code: str, said: str) -> None:
        self.view.clear_refusals()
        told = self.bench.guarded(self._told, on_refusal=self.view.refuse)
        if told is None:
            return
        told |= {"code": code, "reason": self.view.reason.text(), "offered": tuple(self._found)}
        if self.bench.attempt("decide_bag", on_refusal=self.view.refuse, said=said, **told) is None:
            return
        for edit in (self.view.look_edit, self.view.reason, self.view.grams, self.view.on):
            edit.clear()
        self._found = {}
        self.view.answer.say("")
        self.view.show_decision(is_asked=False)
        self.view.setFocus()


def _said(bag: Any) -> str:
    weight = f"{kg_text(bag.grams)}, " if bag.grams else ""
    return f"{weight}{bag.look or 'no words'}: {f'taken for {bag.code}' if bag.code else 'binned'}, {bag.by}"


class BagStation(Station):
    """Not on the strip: Trace leads here."""

    name = "bag"
    title = "No label"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = BagView(bench)
        super().__init__(bench, self.view, parent)
        self.presenter = BagPresenter(self.view, bench)
        self.view.back.clicked.connect(partial(bench.go, "trace", ""))

    def refresh(self) -> None:
        self.presenter.refresh()
