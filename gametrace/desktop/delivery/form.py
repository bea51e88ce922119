"""The whole form of one delivery: paper and beast side by side, read as typed values or refused at a field.

The same form takes a new delivery and finishes an old one. It judges nothing and writes nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.beast_part import BeastPart
from gametrace.desktop.delivery.paper_part import STATEMENTS, PaperPart
from gametrace.desktop.delivery.papers_asked import demand_words
from gametrace.desktop.delivery.reading_order import EnterMovesOn
from gametrace.desktop.delivery.weighing import difference_words
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import row
from gametrace.desktop.style import APART
from gametrace.domain.deliveries import Answer, Basis
from gametrace.domain.errors import Refusal
from gametrace.facts.species import species as species_called

_ON_PAPER = ("dispatched_on", "supplier_grams", "pence_per_kg")
_YES_NO: dict[bool | None, str] = {True: "yes", False: "no", None: ""}
_TYPED = (*_ON_PAPER, "grams", "killed_on", "kill_time", "count", "readings")


def _value(edit: Any) -> Any:
    return edit.value()


def _value_or_none(edit: Any) -> Any:
    return edit.value_or_none()


def _forget_hand(choice: ChoiceRow) -> None:
    """Where nothing is chosen, Tab stops at the first again, not at what was chosen for the beast before."""
    if not choice.value():
        for value in choice.values():
            choice.button(value).setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class DeliveryForm(ScrollColumn):
    """Signals: changed(): a value, or one that cannot be read. supplier_picked(str). grew().

    left(): Enter was pressed in a field. guide_wanted(): which kind is it?
    """

    changed = Signal()
    supplier_picked = Signal(str)
    grew = Signal()
    left = Signal()
    guide_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.paper = PaperPart(today)
        self.beast = BeastPart(look, today)
        sides = row(self.paper, self.beast, gap=APART)
        sides.setStretch(0, 1)
        sides.setStretch(1, 1)
        self.add(sides)
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self.left)
        self.fields: dict[str, Field] = {}
        self._find_fields()
        for part in (self.paper, self.beast):
            part.changed.connect(self._changed)
            part.grew.connect(self._grew)
        self.beast.guide_wanted.connect(self.guide_wanted)
        self.paper.supplier_picked.connect(self.supplier_picked)
        self.paper.asked.grew.connect(self.show_asked)
        self._enter.watch()
        self.show_asked()

    def _changed(self) -> None:
        self.clear_refusals()
        self.show_asked()
        self.changed.emit()

    def _find_fields(self) -> None:
        self.fields = {field.name: field for field in self.findChildren(Field) if field.name}

    def _grew(self) -> None:
        self._find_fields()
        self._enter.watch()
        self.grew.emit()

    # -- reading ----------------------------------------------------------------------------------------

    def read(self) -> dict[str, Any]:
        """Every value by its field's name; a Refusal that names the field where one cannot be read."""
        typed = {name: self._read(name) for name in _TYPED}
        return {**self._chosen(), **typed, **self.beast.lesser_values(_value)}

    def read_what_can_be(self) -> dict[str, Any]:
        """The same with what cannot be read left out, for what is worked out live."""
        typed = {name: self._edit(name).value_or_none() for name in _TYPED}
        read = {name: value for name, value in typed.items() if value is not None}
        return {**self._chosen(), **read, **self.beast.lesser_values(_value_or_none)}

    def _edit(self, name: str) -> Any:
        return getattr(self.paper if name in _ON_PAPER else self.beast, name)

    def _read(self, name: str) -> Any:
        try:
            return self._edit(name).value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, name) from refusal

    def _chosen(self) -> dict[str, Any]:
        paper, beast = self.paper, self.beast
        has_card = paper.has_declaration.value() == "yes"
        values: dict[str, Any] = {
            "supplier": paper.supplier.value(), "route": paper.route.value(), "origin": paper.origin.value(),
            "has_declaration": has_card, "inspection_notes": paper.notes.value(),
            "species": beast.species.value(), "sex": beast.sex.value() or "unknown",
            "age_class": beast.age_class.value(), "basis": beast.basis.value(),
            "kill_place": beast.kill_place.text().strip(), "place": beast.place.value(),
        }  # fmt: skip
        values.update({name: edit.text().strip() for name, edit in paper.lines.items()})
        for name, _ in STATEMENTS:
            given = paper.answers[name].value() if has_card else ""
            values[name] = Answer(given) if given else Answer.NOT_STATED
        if not has_card:
            values["declaration_number"] = ""
        return values

    # -- filling ----------------------------------------------------------------------------------------

    def fill(self, values: Mapping[str, Any]) -> None:
        """Show these values; what is not named is emptied. Tells nobody."""
        paper, beast = self.paper, self.beast
        paper.supplier.set_value(values.get("supplier", ""))
        paper.route.set_value(values.get("route", ""))
        paper.origin.set_value(values.get("origin", ""))
        for name, edit in paper.lines.items():
            edit.setText(values.get(name, ""))
        paper.has_declaration.set_value(_YES_NO[values.get("has_declaration")])
        for name, answer in paper.answers.items():
            answer.set_value(values.get(name, ""))
        paper.notes.blockSignals(True)
        paper.notes.set_value(values.get("inspection_notes", ""))
        paper.notes.blockSignals(False)
        beast.species.set_value(values.get("species", ""))
        beast.sex.set_value(values.get("sex", ""))
        beast.count.set_value(values.get("count", 1))
        beast.show_words()
        beast.age_class.set_value(values.get("age_class", ""))
        beast.basis.set_value(values.get("basis", Basis()))
        beast.readings.set_value(values.get("readings", ()))
        for name in (*_ON_PAPER, "grams", "killed_on", "kill_time"):
            self._edit(name).set_value(values.get(name))
        beast.kill_place.setText(values.get("kill_place", ""))
        beast.place.set_value(values.get("place", ""))
        for choice in self.findChildren(ChoiceRow):
            _forget_hand(choice)
        beast.set_lesser_values(values)
        paper.show_declaration()
        self.show_asked()
        self.clear_refusals()
        self.verticalScrollBar().setValue(0)

    def show_asked(self) -> None:
        """How far the route and origin ask for each paper, said in the empty fields themselves."""
        paper, beast = self.paper, self.beast
        species = beast.species.value()
        group = species_called(species).group if species else ""
        values = self.read_what_can_be()
        asked = demand_words(values["route"], values["origin"], group)
        paper.show_asked(asked)
        beast.killed_on.edit.setPlaceholderText(asked["killed_on"])
        beast.kill_time.edit.setPlaceholderText(asked["kill_time"])
        beast.kill_place.setPlaceholderText(asked["kill_place"])
        paper.say_difference(difference_words(values.get("grams"), values.get("supplier_grams")))
        if paper.asked.is_open:
            paper.asked.inner.show_for(values["route"], values["origin"], group, values)

    # -- refusals ---------------------------------------------------------------------------------------

    def refuse(self, field: str, sentence: str) -> bool:
        """Show a refusal at its field; False where there is no such field."""
        wrong = self.fields.get(field)
        if wrong is None:
            return False
        refuse_at(wrong, sentence)
        self.ensureWidgetVisible(wrong, 8, 24)
        return True

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            if field.trouble.isVisibleTo(field):
                field.clear_refusal()
