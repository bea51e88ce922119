"""Takes a delivery in: fills the form from the supplier, asks for the findings while it is filled, acts."""

from __future__ import annotations

import uuid
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery import live
from gametrace.desktop.delivery.announced import Announced
from gametrace.desktop.delivery.done_page import DonePage
from gametrace.desktop.delivery.next_body import kept_for_next
from gametrace.desktop.delivery.paper_out import print_tags
from gametrace.desktop.delivery.pictures import Pictures
from gametrace.desktop.delivery.pictures_part import SHOWS
from gametrace.desktop.parts.lot_words import missing_words, why_of
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.deliveries import Decision, Delivery
from gametrace.domain.errors import Refusal
from gametrace.domain.origins import decisions_allowed
from gametrace.domain.quantities import kg_text
from gametrace.register.records import Carcass, Place, Supplier

PREVIEW_MS = 250
_FROM_SUPPLIER = (
    ("trained_person", "trained_hunter"),
    ("certificate_number", "certificate_number"),
    ("approval_number", "approval_number"),
)
_CAN_WAIT = (
    ("tag", "tag"),
    ("killed_on", "day of killing"),
    ("kill_time", "time of killing"),
    ("kill_place", "place of killing"),
    ("readings", "temperature"),
    ("pence_per_kg", "price"),
    ("place", "hook"),
)


def place_choices(free: tuple[Place, ...], own: Place | None = None) -> list[tuple[str, str]]:
    """The free places in words, the one it hangs on first."""
    listed = [(own.code, own.name)] if own is not None else []
    listed += [(place.code, place.name) for place in free if own is None or place.code != own.code]
    return [("", "Not hung yet"), *listed]


def waiting_words(values: dict[str, Any]) -> str:
    """'Can wait: tag, price.' for what is still empty."""
    empty = [words for name, words in _CAN_WAIT if not values.get(name)]
    return f"Can wait: {', '.join(empty)}." if empty else ""


def first_gaps(bench: Bench) -> list[str]:
    """What the set-up must give before a first delivery."""
    wanted = (
        ("the larder's name and country", bench.ask("larder").name),
        ("a person", any(person.is_active for person in bench.ask("people"))),
        ("a cold store", bench.ask("places")),
        ("a supplier", bench.ask("suppliers")),
    )
    return [words for words, is_there in wanted if not is_there]


class DeliveryPresenter(QObject):
    """Signals: finish_wanted(str): a carcass whose blanks are to be filled."""

    finish_wanted = Signal(str)

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self.page = view.new_page
        self._suppliers: dict[str, Supplier] = {}
        self._filled_from = ""
        self._place_was_suggested = False
        self._key = uuid.uuid4().hex
        self._code = ""
        self._card: dict[str, Any] = {}  # what the next body of the same card starts with
        self._kept: list[tuple[str, Any]] = []  # pictures of the body just taken in
        self._held: list[tuple[str, Any]] = []  # pictures given before there is a number to keep them with
        self.pictures = Pictures(self.page, self.page.pictures, bench, self._holder)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(PREVIEW_MS)
        self._later.timeout.connect(self.preview)
        self.page.form.changed.connect(self._changed)
        self.page.form.supplier_picked.connect(self._supplier_picked)
        self.page.form.beast.place.picked.connect(self._place_picked)
        self.page.wanted.connect(self.take_in)
        view.new_wanted.connect(view.show_new)
        view.made.connect(self._page_made)

    def _page_made(self, done: object) -> None:
        if not isinstance(done, DonePage):
            return
        done.tag_wanted.connect(self._print)
        done.next_wanted.connect(self.start_anew)
        done.body_wanted.connect(self.next_body)
        done.finish_wanted.connect(self._finish)
        done.examine_wanted.connect(self._examine)
        done.larder_wanted.connect(self._to_larder)
        self._announced = Announced(done, self.bench)

    # -- reading ----------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Suppliers and free places as they are now. What is typed stays."""
        suppliers = self.bench.ask("suppliers")
        self._suppliers = {one.code: one for one in suppliers}
        form = self.page.form
        form.paper.supplier.set_choices(
            Choice(one.code, one.name, f"{one.address} {one.trained_hunter}") for one in suppliers
        )
        form.beast.set_probes(live.probe_choices(self.bench))
        place = form.beast.place
        kept = place.value()
        free = self.bench.ask("free_places")
        place.set_choices(place_choices(free))
        if not kept or kept not in place.values():
            self._suggest_place(free)

    def _suggest_place(self, free: tuple[Place, ...]) -> None:
        """The first free hook, unless somebody has said that it is not hung yet."""
        if self._place_was_suggested and not self.page.form.beast.place.value():
            return
        hooks = [place.code for place in free if place.kind == "hook"] or [place.code for place in free]
        self._place_was_suggested = True
        self.page.form.beast.place.set_value(hooks[0] if hooks else "")

    def preview(self) -> None:
        """The findings of what is typed so far."""
        values = self.page.form.read_what_can_be()
        self.view.say_can_wait(waiting_words(values))
        decision, form = self.page.decision, self.page.form
        decision.allow(decisions_allowed(values["route"], values["origin"]))
        live.show_card(self.bench, form, values)
        if not values["species"]:
            decision.set_findings(())
            decision.say_evidence("")
            return
        form.beast.say_same(live.same_batch_words(self.bench, values) if form.beast.is_small else "")
        delivery = Delivery(**values)
        found = live.findings_of(self.bench, delivery)
        if found is not None:
            live.show_licence(self.bench, form, values["species"], found)
            decision.say_evidence(live.evidence_words(delivery))
            decision.set_findings(found)
            self.page.set_order()

    def _changed(self) -> None:
        self.page.decision.clear_refusals()
        self._later.start()

    def _place_picked(self, code: str) -> None:
        self._place_was_suggested = True

    def _supplier_picked(self, code: str) -> None:
        """The supplier's own route, origin, people and numbers; what a person typed over them stays."""
        supplier, before = self._suppliers[code], self._suppliers.get(self._filled_from)
        paper = self.page.form.paper
        paper.route.set_value(supplier.route)
        paper.origin.set_value(supplier.origin)
        for field, attribute in _FROM_SUPPLIER:
            typed = paper.lines[field].text()
            if not typed or (before is not None and typed == getattr(before, attribute)):
                paper.lines[field].setText(getattr(supplier, attribute))
        self._filled_from = code
        paper.route.setFocus()

    # -- acting -----------------------------------------------------------------------------------------

    def take_in(self) -> None:
        """The main action. One key a form: pressed twice, it is taken in once."""
        if self.view.stack.currentWidget() is not self.page:
            return
        self.page.form.clear_refusals()
        self.page.decision.clear_refusals()
        try:
            delivery = self._wanted()
        except Refusal as refusal:
            self._refused(refusal)
            return
        key = self._key
        changes = self.bench.attempt("receive_delivery", on_refusal=self._refused, delivery=delivery, key=key)
        if changes is not None:
            self._card = kept_for_next(self.page.form.read()) if delivery.has_declaration else {}
            self._taken_in(changes.code)

    def _wanted(self) -> Delivery:
        values = self.page.form.read()
        if not values["supplier"]:
            raise Refusal("Choose the supplier.", "A new one is added under Set-up.", "supplier")
        if not values["species"]:
            raise Refusal("Choose what it is.", "", "species")
        if not values["grams"]:
            raise Refusal("Weigh it.", "Write kilos, for example 41.6.", "grams")
        decision = self.page.decision
        decision.allow(decisions_allowed(values["route"], values["origin"]))
        chosen = decision.chosen()
        if chosen is None:
            raise Refusal("Specimen or Reject: nothing else is open here.", "Choose one.", "decision")
        return Delivery(
            **values, decision=chosen, decision_reason=decision.reason.text().strip(),
            reasons=decision.panel.reasons(),
        )  # fmt: skip

    def _refused(self, refusal: Refusal) -> None:
        decision = self.page.decision
        if refusal.field == "decision_reason":
            decision.reason_field.refuse(str(refusal))
        elif not self.page.form.refuse(refusal.field, str(refusal)):
            decision.refuse(str(refusal))

    def _taken_in(self, code: str) -> None:
        self._code = code
        self._keep_pictures()
        carcass: Carcass = self.bench.ask("carcass", code)
        refused = carcass.decision == Decision.REJECT
        where = "" if refused else carcass.lot.where
        words = f"{carcass.title}, {kg_text(carcass.grams_received)}, from {carcass.supplier.name}"
        self.view.done_page.show_done(
            code=code,
            title=words[:1].upper() + words[1:],
            state=carcass.lot.state,
            reason=why_of(carcass.lot),
            days=carcass.days_hung,
            sentence=where[:1].upper() + where[1:] if where else "",
            waiting=f"Still missing: {missing_words(carcass.missing)}." if carcass.missing else "",
            card=self._card_words(),
        )
        self._announced.offer(code)
        self._clear()
        self.view.show_done()
        if refused:
            self.view.title.say("Refused, and written down")

    def _clear(self) -> None:
        """An empty form with a key of its own."""
        self._later.stop()
        self._key = uuid.uuid4().hex
        self._filled_from = ""
        self._place_was_suggested = False
        self.page.form.fill({})
        self.page.decision.start_anew()
        self._show_held()
        self.view.say_can_wait("")
        self.refresh()

    def start_anew(self) -> None:
        self.view.show_new()

    def _card_words(self) -> str:
        """'' where no card came with it; else which bodies of it are in."""
        number = self._card.get("declaration_number", "")
        if not self._card:
            return ""
        there = self.bench.ask("on_declaration", self._card["supplier"], number) if number else ()
        named = ", ".join(f"{one.code} {one.title}" for one in there)
        return (
            f"On declaration {number} so far: {named}." if len(there) > 1 else "One card may cover several."
        )

    def next_body(self) -> None:
        """The same card and its pictures; everything of the body itself is empty."""
        card = dict(self._card)
        self.page.form.fill(card)
        self._filled_from = card["supplier"]
        self._place_was_suggested = False
        self._held = [(what, made) for what, made in self._kept if what == "declaration"]
        self._show_held()
        self.refresh()
        self.view.show_new()
        self.preview()
        self.page.form.paper.lines["tag"].setFocus()

    # -- pictures ---------------------------------------------------------------------------------------

    def _holder(self) -> Any:
        """Pictures given before there is a number are held with the form."""
        return self._hold

    def _hold(self, what: str, made: Any) -> None:
        self._held.append((what, made))
        self._show_held()

    def _show_held(self) -> None:
        words = dict(SHOWS)
        fold = self.page.pictures
        fold.say(str(len(self._held)) if self._held else "")
        if fold.is_made:
            fold.inner.show_pictures(
                (words[what], made.media_type, made.content) for what, made in self._held
            )
            fold.set_open(bool(self._held))

    def _keep_pictures(self) -> None:
        """Each an act of its own; one that fails is told and stays with the form."""
        self._kept = []
        waiting: list[tuple[str, Any]] = []
        for what, made in self._held:
            done = self.bench.attempt(
                "attach_picture", code=self._code, what=what, content=made.content,
                original_hash=made.original_hash,
            )  # fmt: skip
            (waiting if done is None else self._kept).append((what, made))
        self._held = waiting

    def _print(self) -> None:
        if print_tags(self.bench, [self._code]):
            self.view.done_page.say_printed()

    def _finish(self) -> None:
        self.finish_wanted.emit(self._code)

    def _examine(self) -> None:
        self.bench.go("examination", self._code)

    def _to_larder(self) -> None:
        self.bench.go("larder", self._code)
