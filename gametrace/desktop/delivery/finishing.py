"""Finishes a delivery: opens what is missing, and writes down what was filled in, changed or answered."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QObject, QTimer

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.finish_page import FinishPage
from gametrace.desktop.delivery.paper_part import STATEMENTS
from gametrace.desktop.delivery.presenter import PREVIEW_MS, place_choices
from gametrace.desktop.parts.lot_words import missing_words, why_of
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.deliveries import Answer, Basis, Delivery
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.facts.species import age_classes
from gametrace.register.records import Carcass

_NOT_AMENDED = frozenset({"grams", "place", "basis", "count"})
_EMPTY = ("", None, (), False, "unknown", Answer.NOT_STATED)


def values_of(one: Carcass) -> dict[str, Any]:
    """A delivery as it was written, by the form's field names."""
    values: dict[str, Any] = {
        name: getattr(one, name)
        for name in (
            "tag", "species", "sex", "count", "origin", "route", "killed_on", "kill_time", "kill_place",
            "has_declaration", "declaration_number", "trained_person", "certificate_number",
            "approval_number", "inspection_notes", "readings", "supplier_grams", "pence_per_kg",
            "dispatched_on",
        )
    }  # fmt: skip
    values["supplier"] = one.supplier.code
    values["grams"] = one.grams_received
    values["place"] = one.lot.place
    values["basis"] = basis_of(one.basis_words)
    values["age_class"] = next(
        (age.id for age in age_classes(one.species, one.sex) if age.name == one.age_class), ""
    )
    for (name, _), statement in zip(STATEMENTS, one.statements, strict=False):
        if one.has_declaration:
            values[name] = Answer(statement.answer)
    return values


def basis_of(words: str) -> Basis:
    """The basis from its words."""
    return Basis(
        in_skin="in the skin" in words,
        head_on="head on" in words,
        feet_on="feet on" in words,
        pluck_in="pluck in" in words,
    )


class Finishing(QObject):
    """The list to finish and the page of one. Each thing written is an act of its own, in a fixed order."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._is_wired = False
        self.code = ""
        self._carcass: Carcass | None = None
        self._before: dict[str, Any] = {}
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(PREVIEW_MS)
        self._later.timeout.connect(self.preview)
        view.list_wanted.connect(view.show_list)
        view.waiting_list.chosen.connect(self.open)

    @property
    def page(self) -> FinishPage:
        page: FinishPage = self.view.finish_page
        if not self._is_wired:
            self._is_wired = True
            page.changed.connect(self._changed)
            page.wanted.connect(self.write_down)
        return page

    def refresh(self) -> None:
        waiting = self.bench.ask("to_finish")
        self.view.say_waiting(len(waiting))
        self.view.waiting_list.set_choices([_choice(one) for one in waiting])

    def scanned(self, code: str) -> bool:
        """A carcass that was scanned is opened here; anything else is somebody else's."""
        try:
            self.bench.ask("carcass", code)
        except Refusal:
            return False
        self.open(code)
        return True

    def open(self, code: str) -> None:
        """Show one delivery as it is written. What was typed for it before and not written stays."""
        if code == self.code and self._is_touched():
            self.view.show_finish()
            return
        one = self.bench.guarded(partial(self.bench.ask, "carcass", code))
        if one is None:
            return
        self.code = one.code
        self._show(one)
        self.view.show_finish()

    def _show(self, one: Carcass) -> None:
        self._carcass = one
        form = self.page.form
        suppliers = self.bench.ask("suppliers")
        form.paper.supplier.set_choices(Choice(s.code, s.name, s.address) for s in suppliers)
        places = {place.code: place for place in self.bench.ask("places")}
        form.beast.place.set_choices(place_choices(self.bench.ask("free_places"), places.get(one.lot.place)))
        form.fill(values_of(one))
        self._before = form.read()
        self.page.panel.forget()
        self.page.panel.give_reasons(one.reasons)
        self.page.reason.clear()
        self.page.clear_refusals()
        self.page.ask_reason(False)
        self._say(one)
        self.page.set_findings(one.findings)

    def _say(self, one: Carcass) -> None:
        title = f"{one.code} {one.title}"
        self.page.show_one(
            title=title,
            state=one.lot.state,
            why=why_of(one.lot),
            days=one.days_hung,
            missing=missing_words(one.missing),
        )

    # -- live -------------------------------------------------------------------------------------------

    def _changed(self) -> None:
        self.page.trouble.hide()
        self._later.start()

    def preview(self) -> None:
        """What the rules would say, and whether a reason is asked for."""
        if self._carcass is None:
            return
        values = self.page.form.read_what_can_be()
        self.page.ask_reason(any(self._was_given(name) for name in self._changed_names(values)))
        found = self.bench.guarded(
            partial(self.bench.acts.preview_delivery, self.bench.register, self._delivery(values))
        )
        if found is not None:
            own = self.code
            self.page.set_findings([f for f in found if f.code != "tag-met-before" or own not in f.sentence])

    def _delivery(self, values: dict[str, Any]) -> Delivery:
        assert self._carcass is not None
        return Delivery(**values, received_at=self._carcass.received_at)

    def _changed_names(self, values: dict[str, Any]) -> list[str]:
        return [name for name, value in values.items() if value != self._before.get(name)]

    def _was_given(self, name: str) -> bool:
        """Whether changing it needs a reason: it was given, and it is no move to another hook."""
        return name != "place" and self._before.get(name) not in _EMPTY

    def _is_touched(self) -> bool:
        try:
            values = self.page.form.read()
        except Refusal:
            return True
        return bool(self._changed_names(values) or self._new_answers())

    def _new_answers(self) -> dict[str, str]:
        kept = self._carcass.reasons if self._carcass is not None else {}
        return {code: why for code, why in self.page.panel.reasons().items() if kept.get(code) != why}

    # -- acting -----------------------------------------------------------------------------------------

    def write_down(self) -> None:
        """Weight, place, values, answers: what is refused stays on the page, what was written is written."""
        self.page.clear_refusals()
        try:
            values = self.page.form.read()
        except Refusal as refusal:
            self._refused(refusal)
            return
        changed = self._changed_names(values)
        reason = self.page.reason.text().strip()
        self.page.ask_reason(any(self._was_given(name) for name in changed))
        if not changed and not self._new_answers():
            self._refused(Refusal("Nothing is different.", "Fill in what is missing first."))
            return
        amended = {name: values[name] for name in changed if name not in _NOT_AMENDED}
        acts: list[tuple[str, dict[str, Any], list[str]]] = []
        if "grams" in changed:
            given = {"grams": values["grams"] or 0, "reason": reason}
            acts.append(("correct_weight", given, ["grams"]))
        if "place" in changed and values["place"]:
            acts.append(("move_lot", {"to": values["place"]}, ["place"]))
        if amended:
            acts.append(("amend_carcass", {"changes": amended, "reason": reason}, list(amended)))
        for act, given, names in acts:
            if self.bench.attempt(act, on_refusal=self._refused, code=self.code, **given) is None:
                return
            self._before.update({name: values[name] for name in names})
        if self._answer():
            self._written()

    def _answer(self) -> bool:
        """Reasons, for the questions that are asked of it now."""
        one = self.bench.ask("carcass", self.code)
        asked = {finding.code for finding in one.findings}
        answers = {code: why for code, why in self._new_answers().items() if code in asked}
        if not answers:
            return True
        done = self.bench.attempt("answer_finding", on_refusal=self._refused, code=self.code, reasons=answers)
        return done is not None

    def _written(self) -> None:
        one = self.bench.ask("carcass", self.code)
        left = f" Still missing: {missing_words(one.missing)}." if one.missing else ""
        self.bench.done.emit(f"{one.code} {one.title} is written down.{left}")
        self._show(one)

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))


def _choice(one: Carcass) -> Choice:
    count = len(one.missing)
    words = f"{one.code}   {one.title}, {kg_text(one.lot.grams)}, {one.supplier.name}: {count} missing"
    return Choice(one.code, words, f"{one.tag} {' '.join(one.missing)}")
