"""The lot on the block: weighs trays and packs out of it at once, corrects, closes, prints.

Each lot's half-filled form is kept while another is on the page, so that each resumes as it was left.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.cutting import CuttingPage
from gametrace.desktop.block.dating import date_words, shelf_choices
from gametrace.desktop.block.drafts import Drafts, Form
from gametrace.desktop.block.products import Catalogue, catalogue
from gametrace.desktop.block.trays import Tray
from gametrace.desktop.labelling import ask_for_labels, print_labels
from gametrace.domain.break_down import AMBER, RED, sort_of
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text, kg_to_the_gram, tenths_percent_text
from gametrace.domain.yields import percent_text

# The order joints mostly come off: product, side.
_FIRST = (
    ("haunch", "left"),
    ("haunch", "right"),
    ("shoulder", "left"),
    ("shoulder", "right"),
    ("saddle", ""),
    ("neck", ""),
    ("trim", ""),
)
_HALVES = {"left-side": "left", "right-side": "right"}
LABELS_KEY = "labels_at_once"
PAD_KEY = "number_pad"


class CuttingPresenter:
    """`next_wanted` leads back to the choice of lots; `cutters` gives who may be named as cutting."""

    def __init__(
        self,
        page: CuttingPage,
        bench: Bench,
        next_wanted: Callable[[], None],
        cutters: Callable[[], list[tuple[str, str]]],
    ) -> None:
        self.page, self.bench, self._cutters = page, bench, cutters
        self.view: Any = None  # the BlockView shown
        self.catalogue = Catalogue()
        self._drafts: Drafts | None = None
        self._shelf_of: dict[str, str] = {}  # how packed -> the shelf used last
        self._key = uuid4().hex
        page.weighing.weigh_wanted.connect(self.weigh)
        page.weighing.changed.connect(self._changed)
        page.offering.changed.connect(self._changed)
        page.mode_changed.connect(self._changed)
        page.cutter.activated.connect(self._changed)
        page.pad_key.toggled.connect(self._keep_pad)
        page.packs.changed.connect(self._packed_changed)
        page.packs.labels.toggled.connect(self._keep_labels)
        page.balance.close_asked.connect(self.ask_close)
        page.balance.closing.wanted.connect(self.close)
        page.balance.correcting.wanted.connect(self.correct)
        page.balance.label_wanted.connect(self.print_label)
        page.balance.trace_wanted.connect(partial(bench.go, "trace"))
        page.trace_wanted.connect(partial(bench.go, "trace"))
        page.costs_wanted.connect(partial(bench.go, "costs"))
        page.next_wanted.connect(next_wanted)
        page.packs.labels.setChecked(bench.settings.flag(LABELS_KEY, True))
        page.pad_key.setChecked(bench.settings.flag(PAD_KEY, False))

    # -- one lot after another ----------------------------------------------------------------------------

    @property
    def drafts(self) -> Drafts:
        """What stands half-filled on this machine, of the register that is open."""
        if self._drafts is None:
            self._drafts = Drafts(self.bench.settings, str(self.bench.register.path))
        return self._drafts

    def show(self, code: str) -> None:
        """Lay a lot on the block, or take it up where it was left."""
        self._keep_form()
        self.drafts.at = code
        self.page.code = code
        self.page.balance.show_trays()
        self.page.weighing.begin()
        self.refresh()
        self._restore_form()
        self._say()
        self.page.offering.search.setFocus()

    def leave(self) -> None:
        """Nothing is in hand; what stood half-filled waits on its lot."""
        self._keep_form()
        self.drafts.at = ""

    def refresh(self) -> None:
        """Read the lot anew; nothing typed is touched."""
        if not self.page.code:
            return
        self.view = view = self.bench.ask("block_view", self.page.code)
        tree = self.bench.ask("cut_tree", view.lot.species) if view.lot.species else None
        whole = catalogue(view.lot.species, tree)
        self.catalogue = whole.of_a_part() if view.product else whole
        trays = [
            Tray(one.code, one.name, one.grams, sort_of(one.kind, one.product), one.cutter or one.by)
            for one in view.trays
        ]
        left = view.balance.left_grams
        words = "unaccounted" if view.is_closed else "unweighed"
        self.page.balance.set_balance(view.balance, trays, words, self._lines(view))
        self.page.offering.set_weighed(
            self.catalogue.weighed([(one.product, one.side) for one in view.trays])
        )
        self.page.show_closed(f"Closed. {kg_to_the_gram(left)} unaccounted." if view.is_closed else "")
        self.page.cutter.set_choices(self._cutters())
        lot = view.lot
        if lot.state == "specimen":
            sentence = f"{lot.state_reason or lot.code}. All that is cut from it stays a specimen."
            self.page.specimen.refuse(sentence, "specimen")
        else:
            self.page.specimen.hush()
        self.page.packs.place.set_places(shelf_choices(self.bench, self.page.packs.packed.value()))
        self._say()

    def _lines(self, view: Any) -> str:
        """How near the balance is to the kitchen's own lines, in words."""
        own = self.bench.ask("policies")
        share = f"{percent_text(view.balance.share_left)} of {kg_text(view.grams_in)} in"
        amber, red = own.unweighed_amber_tenths, own.unweighed_red_tenths
        past = {
            AMBER: f": past {tenths_percent_text(amber)}, amber",
            RED: f": past {tenths_percent_text(red)}, red",
        }
        return share + past.get(view.balance.level, "")

    def _keep_form(self) -> None:
        page = self.page
        if not page.code or self.view is None or self.view.is_closed:
            return
        one = page.offering.product()
        form = Form(
            product=one.id if one else "",
            side=page.offering.side_value(),
            typed=page.weighing.grams.text(),
            mode=page.mode.value(),
            state=page.offering.state_value(),
            cutter=page.cutter.value(),
        )
        self.drafts.keep(page.code, form)

    def _restore_form(self) -> None:
        page, view = self.page, self.view
        form = self.drafts.get(page.code) or self._first_form()
        page.offering.offer(
            self.catalogue,
            has_beast=view.lot.kind == "carcass" or view.product in _HALVES,
            product=form.product,
            side=form.side,
            state=form.state,
            of_side=view.side or _HALVES.get(view.product, ""),
        )
        page.weighing.grams.edit.setText(form.typed)
        page.cutter.set_value(form.cutter)
        page.set_mode(form.mode)

    def _first_form(self) -> Form:
        """What is likely first: the next joint of a carcass or a side, packs of what is a cut already."""
        view = self.view
        cutter = next((one.cutter for one in reversed(view.trays) if one.cutter), "")
        half = _HALVES.get(view.product, "")
        if view.lot.kind == "carcass" or half:
            weighed = {(one.product, one.side) for one in view.trays}
            wanted = [one for one in _FIRST if not half or one[1] in ("", half)]
            product, side = next((one for one in wanted if one not in weighed), wanted[-1])
            return Form(product, side, cutter=cutter)
        if view.lot.kind == "batch":
            return Form("whole-oven-ready", mode="packs", cutter=cutter)
        held = self.catalogue.get(view.product)
        return Form(held.id if held else "", view.side if held else "", mode="packs", cutter=cutter)

    # -- what stands on the page --------------------------------------------------------------------------

    def _changed(self, *_: object) -> None:
        """Something was chosen or typed: it stands there again after a night."""
        self._keep_form()
        self._say()

    def _say(self) -> None:
        if self.view is None or self.view.is_closed:
            return
        page = self.page
        one, side = page.offering.product(), page.offering.side_value()
        words = (one.name, side, page.offering.state_value()) if one else ("Choose what it is",)
        name = ", ".join(word for word in words if word)
        left = self.view.unweighed_grams
        grams = page.weighing.grams.value_or_none()
        many = self._how_many()
        if grams is None:
            page.weighing.say(name, f"{kg_text(left)} unweighed")
        elif (over := grams * many - left) > 0:
            page.weighing.say(name, f"{kg_text(over)} more than is left ({kg_text(left)})", "amber")
        else:
            page.weighing.say(name, f"leaves {kg_text(-over)} unweighed")
        if page.mode.value() == "packs":
            is_meat = one is not None and one.is_meat
            day, rule = date_words(
                self.bench, page.packs.packed.value(), one.id if is_meat else "", [self.view.lot]
            )
            page.packs.say_date(day, rule or ("Only meat is packed; this goes out as a tray." if one else ""))

    def _how_many(self) -> int:
        packs = self.page.mode.value() == "packs"
        return (self.page.packs.count.value_or_none() or 1) if packs else 1

    def _packed_changed(self) -> None:
        packed = self.page.packs.packed.value()
        self.page.packs.place.set_places(shelf_choices(self.bench, packed))
        self.page.packs.place.set_value(self._shelf_of.get(packed, ""))
        self._say()

    def _keep_pad(self, on: bool) -> None:
        self.bench.settings.keep(PAD_KEY, on)
        self.page.weighing.grams.edit.setFocus()

    def _keep_labels(self, on: bool) -> None:
        self.bench.settings.keep(LABELS_KEY, on)

    # -- acts ---------------------------------------------------------------------------------------------

    def weigh(self) -> None:
        """One tray, or the packs of one weight, on to disk."""
        outputs = self.bench.guarded(self._outputs, on_refusal=self._refuse)
        if not outputs:
            return
        changes = self.bench.attempt(
            "weigh_out",
            on_refusal=self._refuse,
            code=self.page.code,
            outputs=outputs,
            cutter=self.page.cutter.value(),
            key=self._key,
        )
        if changes is None:
            return
        self._key = uuid4().hex
        self._acknowledge(outputs, changes.created)

    def _outputs(self) -> list[Any]:
        from gametrace.register.block import Out

        page = self.page
        one = page.offering.product()
        if one is None:
            raise Refusal("It is not said what this is.", "Choose the product first.", "product")
        grams = page.weighing.grams.value()
        if grams is None:
            raise Refusal("No weight has been given.", "Weigh it and type the kilograms.", "grams")
        side, state = page.offering.side_value(), page.offering.state_value()
        if page.mode.value() != "packs" or not one.is_meat:
            return [Out(one.id, grams, side, state=state)]
        many = page.packs.count.value() or 1
        place, packed = page.packs.place.value(), page.packs.packed.value()
        pack = Out(one.id, grams, side, place=place, pack_state=packed, is_pack=True, state=state)
        return [pack] * many

    def _acknowledge(self, outputs: list[Any], created: tuple[str, ...]) -> None:
        page, first = self.page, outputs[0]
        one = self.catalogue.get(first.product)
        words = (one.name if one else first.product, first.side, first.state)
        name = ", ".join(word for word in words if word)
        if len(outputs) == 1:
            sentence = f"{name}, {kg_text(first.grams)}: {created[0]}."
        else:
            sentence = (
                f"{len(outputs)} packs of {name}, {kg_text(first.grams)} each: {created[0]} to {created[-1]}."
            )
        page.weighing.acknowledge(sentence)
        page.packs.count.set_value(1)
        if first.is_pack:
            self._shelf_of[first.pack_state] = first.place
            page.weighing.grams.select()
            if page.packs.labels.isChecked():
                many = len(created)
                whose = f"{created[0]}: its label is" if many == 1 else f"{many} packs: {many} labels are"
                said = f"{whose} open, ready to print."
                print_labels(self.bench, created, done=partial(page.weighing.say_done, said))
        else:
            self._to_the_other_side(first)
            page.offering.search.setFocus()
        self._changed()

    def _to_the_other_side(self, done: Any) -> None:
        """After the left of a pair the right is likely next, as long as it has not been weighed."""
        weighed = {(one.product, one.side) for one in self.view.trays}
        one = self.catalogue.get(done.product)
        is_whole = self.view.lot.kind == "carcass"
        if one and one.is_paired and is_whole and done.side == "left" and (one.id, "right") not in weighed:
            self.page.offering.choose(done.product, "right")

    def _refuse(self, refusal: Refusal) -> None:
        is_grams = refusal.field == "grams"
        self.page.weighing.refuse(refusal.sentence if is_grams else str(refusal))
        if refusal.field == "product":
            self.page.offering.search.setFocus()

    def print_label(self, code: str) -> None:
        if code:
            ask_for_labels(self.bench, [code], back="block")

    def correct(self, code: str) -> None:
        face = self.page.balance.correcting
        try:
            grams = face.grams.inner.value()
        except Refusal as refusal:
            face.refuse("grams", str(refusal))
            return
        done = self.bench.attempt(
            "correct_weight",
            on_refusal=self._refuse_correction,
            code=code,
            grams=grams or 0,
            reason=face.reason.inner.text(),
            key=uuid4().hex,
        )
        if done is not None:
            self.page.balance.show_trays()
            self.page.balance.trays.setFocus()
            self.page.weighing.say_done(f"{code} is corrected; the old weight stays on view.")

    def _refuse_correction(self, refusal: Refusal) -> None:
        self.page.balance.correcting.refuse(refusal.field, str(refusal))

    def ask_close(self) -> None:
        """Closing asks once, in another place; above two in a hundred it asks for a reason."""
        if not self.view.trays:
            self.page.weighing.refuse("Nothing has been weighed out of it yet, so there is nothing to close.")
            return
        self.page.balance.show_closing(self.view.balance)

    def close(self) -> None:
        reason = self.page.balance.closing.reason
        self.bench.attempt(
            "close_lot",
            on_refusal=self._refuse_close,
            code=self.page.code,
            reason=reason.inner.text(),
            cutter=self.page.cutter.value(),
            key=uuid4().hex,
        )
        if self.view.is_closed:
            self.drafts.drop(self.page.code)
            self.drafts.at = ""
            self.page.next.setFocus()

    def _refuse_close(self, refusal: Refusal) -> None:
        reason = self.page.balance.closing.reason
        reason.show()
        reason.refuse(str(refusal))
