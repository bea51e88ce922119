"""Finishes a delivery: opens what is missing, and writes down what was filled in, changed or answered."""

from __future__ import annotations

from dataclasses import fields
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery import live
from gametrace.desktop.delivery.amending import parted
from gametrace.desktop.delivery.calls import Calls
from gametrace.desktop.delivery.every_page import EveryPage
from gametrace.desktop.delivery.finish_page import FinishPage, WaitingList
from gametrace.desktop.delivery.paper_part import STATEMENTS
from gametrace.desktop.delivery.pictures import Keep, Pictures
from gametrace.desktop.delivery.pictures_part import SHOWS
from gametrace.desktop.delivery.presenter import PREVIEW_MS, place_choices
from gametrace.desktop.parts.lot_words import missing_words, why_of
from gametrace.desktop.parts.pages import Pages
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.deliveries import Answer, Delivery
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.register.records import Carcass

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile
    from gametrace.register.lists import DeliveryLine

_SHOWN = dict(SHOWS)
_EMPTY = ("", None, (), False, "unknown", Answer.NOT_STATED)
_NOT_ON_FORM = frozenset({"received_at", "decision", "decision_reason", "reasons"})


def values_of(delivery: Delivery) -> dict[str, Any]:
    """A delivery as it stands, by the form's field names."""
    values = {
        one.name: getattr(delivery, one.name) for one in fields(delivery) if one.name not in _NOT_ON_FORM
    }
    if not delivery.has_declaration:
        for name, _ in STATEMENTS:
            values[name] = ""
    return values


class Finishing(QObject):
    """The list to finish and the page of one. Each thing written is an act of its own, in a fixed order."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self.calls: Calls | None = None
        self.pictures: Pictures | None = None
        self.code = ""
        self._carcass: Carcass | None = None
        self._before: dict[str, Any] = {}
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(PREVIEW_MS)
        self._later.timeout.connect(self.preview)
        view.list_wanted.connect(self.show_list)
        view.made.connect(self._page_made)

    @property
    def page(self) -> FinishPage:
        page: FinishPage = self.view.finish_page
        return page

    def _page_made(self, page: object) -> None:
        if isinstance(page, WaitingList):
            page.chosen.connect(self.open)
            page.examine_wanted.connect(self._examine)
            page.every_wanted.connect(self.show_every)
        elif isinstance(page, EveryPage):
            page.open_wanted.connect(self.open)
            page.trace_wanted.connect(partial(self.bench.go, "trace"))
        elif isinstance(page, FinishPage):
            page.changed.connect(self._changed)
            page.wanted.connect(self.write_down)
            page.examine_wanted.connect(self._examine)
            self.calls = Calls(page, self.bench)
            self.pictures = Pictures(page, page.pictures, self.bench, self._keeper)
            page.pictures.grew.connect(self._pictures_opened)

    def show_list(self) -> None:
        self._fill_list()
        self.view.show_list()

    def _fill_list(self) -> None:
        self.view.waiting_list.set_choices([_choice(one) for one in self.bench.ask("to_finish")])

    def show_every(self) -> None:
        self._fill_every()
        self.view.show_every()

    def _fill_every(self) -> None:
        count = self.bench.ask("delivery_count")
        self.view.every_page.set_deliveries(Pages(count, self._some_deliveries))

    def _some_deliveries(self, first: int, many: int) -> tuple[DeliveryLine, ...]:
        return self.bench.ask("delivery_lines", limit=many, first=first)

    def refresh(self) -> None:
        self.view.say_waiting(len(self.bench.ask("to_finish")))
        if self.view.is_list_shown:
            self._fill_list()
        if self.view.is_every_shown:
            self._fill_every()

    def scanned(self, code: str) -> bool:
        """A carcass that was scanned is opened here; anything else is somebody else's."""
        try:
            self.bench.ask("carcass", code)
        except Refusal:
            return False
        self.open(code)
        return True

    def _examine(self, code: str = "") -> None:
        """The look over; what is typed here waits."""
        self.bench.go("examination", code or self.code)

    def open(self, code: str) -> None:
        """Show one delivery as it is written. What was typed for it before and not written stays."""
        if code == self.code and self._is_touched():
            self.view.show_finish()
            return
        file = self.bench.guarded(partial(self.bench.ask, "animal_file", code))
        if file is None:
            return
        self.code = file.carcass.code
        self._show(file)
        self.view.show_finish()

    def _show(self, file: AnimalFile) -> None:
        one = file.carcass
        self._carcass = one
        form = self.page.form
        suppliers = self.bench.ask("suppliers")
        form.paper.supplier.set_choices(Choice(s.code, s.name, s.address) for s in suppliers)
        places = {place.code: place for place in self.bench.ask("places")}
        form.beast.place.set_choices(place_choices(self.bench.ask("free_places"), places.get(one.lot.place)))
        form.beast.set_probes(live.probe_choices(self.bench))
        form.beast.licence.offer(self.bench.ask("larder").jurisdiction, one.species)
        form.fill(values_of(file.delivery))
        self._before = form.read()
        self.page.panel.forget()
        self.page.panel.give_reasons(one.reasons)
        self.page.reason.clear()
        self.page.clear_refusals()
        self.page.ask_reason(False)
        self._say(file)
        self.page.set_findings(one.findings)
        live.show_licence(self.bench, form, one.species, one.findings)
        live.show_card(self.bench, form, self._before, one.code)

    def _say(self, file: AnimalFile) -> None:
        one = file.carcass
        self.page.show_one(
            title=f"{one.code} {one.title}",
            state=one.lot.state,
            why=why_of(one.lot),
            days=one.days_hung,
            missing=one.missing,
            evidence=one.evidence,
        )
        if self.calls is not None:
            self.calls.show_file(file)
        self._show_pictures(file)

    # -- pictures ---------------------------------------------------------------------------------------

    def _keeper(self) -> Keep | None:
        """Keeps a picture with the carcass on show now, whichever is on show when it is ready."""
        return partial(self._keep_picture, self.code) if self.code else None

    def _keep_picture(self, code: str, what: str, made: Any) -> None:
        done = self.bench.attempt(
            "attach_picture",
            on_refusal=self._picture_refused,
            said="The picture is kept.",
            code=code,
            what=what,
            content=made.content,
            original_hash=made.original_hash,
        )
        if done is not None and code == self.code:
            self._show_pictures(self.bench.ask("animal_file", code))

    def _picture_refused(self, refusal: Refusal) -> None:
        self.page.pictures.inner.refuse(str(refusal))

    def _pictures_opened(self) -> None:
        if self.page.pictures.is_open and self.code:
            self._show_pictures(self.bench.ask("animal_file", self.code))

    def _show_pictures(self, file: AnimalFile) -> None:
        """Their bytes are read only where somebody looks at them."""
        fold = self.page.pictures
        fold.say(str(len(file.pictures)) if file.pictures else "")
        if not fold.is_open:
            return
        shown = []
        for one in file.pictures:
            found = self.bench.ask("picture", one.hash)
            if found is not None:
                shown.append((f"{_SHOWN[one.what]}, {one.by}", *found))
        fold.inner.show_pictures(shown)

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
        delivery = self._delivery(values)
        found = live.findings_of(self.bench, delivery)
        if found is not None:
            own = self.code
            kept = [f for f in found if f.code != "tag-met-before" or own not in f.sentence]
            live.show_licence(self.bench, self.page.form, values["species"], kept)
            self.page.say_evidence(live.evidence_words(delivery))
            self.page.set_findings(kept)

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
        acts: list[tuple[str, dict[str, Any], list[str]]] = []
        if "grams" in changed:
            given = {"grams": values["grams"] or 0, "reason": reason}
            acts.append(("correct_weight", given, ["grams"]))
        if "place" in changed and values["place"]:
            acts.append(("move_lot", {"to": values["place"]}, ["place"]))
        for entry in parted(changed, values):
            why = reason if any(self._was_given(name) for name in entry) else ""
            acts.append(("amend_carcass", {"changes": entry, "reason": why}, list(entry)))
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
        file = self.bench.ask("animal_file", self.code)
        one = file.carcass
        left = f" Still missing: {missing_words(one.missing)}." if one.missing else ""
        self.bench.done.emit(f"{one.code} {one.title} is written down.{left}")
        self._show(file)

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))


def _choice(one: Carcass) -> Choice:
    count = len(one.missing)
    words = f"{one.code}   {one.title}, {kg_text(one.lot.grams)}, {one.supplier.name}: {count} missing"
    return Choice(one.code, words, f"{one.tag} {' '.join(one.missing)}")
