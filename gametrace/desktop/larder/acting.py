"""Opens the form of each act with what it needs, reads it, acts, and puts refusals where they belong."""

from __future__ import annotations

import uuid
from typing import Any

from PySide6.QtCore import QObject, Signal

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.paper_out import print_tags
from gametrace.desktop.keeping.asking import Keeping
from gametrace.desktop.keeping.form import KeepingForm
from gametrace.desktop.labelling import ask_for_labels
from gametrace.desktop.larder.drawer import Drawer
from gametrace.desktop.larder.dress_form import DressForm, Part
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.facts.species import species as species_called
from gametrace.register.records import Carcass, Hold, Lot

_ON_NOW = (("head", "head on"), ("feet", "feet on"), ("pluck", "pluck in"))


class LarderActs(QObject):
    """Signals: done(): an act was done and its form may close."""

    done = Signal()

    def __init__(self, drawer: Drawer, bench: Bench) -> None:
        super().__init__(drawer)
        self.drawer, self.bench = drawer, bench
        self._lot: Lot | None = None
        self._carcass: Carcass | None = None
        self._holds: tuple[Hold, ...] = ()
        self._key = ""
        form = drawer.forms["keeping"]
        assert isinstance(form, KeepingForm)
        self.keeping = Keeping(form, bench)
        drawer.wanted.connect(self._wanted)
        self._dress_form.tag_wanted.connect(self._print_new_tag)

    @property
    def _dress_form(self) -> DressForm:
        form = self.drawer.forms["dress"]
        assert isinstance(form, DressForm)
        return form

    @property
    def lot(self) -> Lot:
        assert self._lot is not None
        return self._lot

    def take(self, lot: Lot, carcass: Carcass | None, holds: tuple[Hold, ...]) -> None:
        """The lot that is acted on from now on."""
        self._lot, self._carcass, self._holds = lot, carcass, holds

    # -- opening ----------------------------------------------------------------------------------------

    def start(self, act: str) -> None:
        """Open the form of an act, or do it where nothing is asked."""
        if act in ("tag", "hold-label"):
            sort = "hold" if act == "hold-label" else ""
            ask_for_labels(self.bench, [self.lot.code], sort=sort, back="larder")
            return
        self._key = uuid.uuid4().hex
        getattr(self, f"_open_{act}")(self.drawer.forms[act])
        self.drawer.show_form(act)

    def _open_move(self, form: Any) -> None:
        free = self.bench.ask("free_places")
        form.say_about(f"{self.lot.code} is now: {self.lot.where}.")
        form.set_places([Choice(place.code, place.name) for place in free if place.code != self.lot.place])

    def _open_weigh(self, form: Any) -> None:
        form.say_about(f"Last weight {kg_text(self.lot.grams)}.")
        form.grams.clear()
        form.reason.clear()

    def _open_correct(self, form: Any) -> None:
        form.say_about(f"Written at the start: {kg_text(self.lot.grams_made)}.")
        form.grams.clear()
        form.reason.clear()

    def _open_hold(self, form: Any) -> None:
        form.reason.clear()

    def _open_keeping(self, form: Any) -> None:
        self.keeping.open(self.lot)

    def _do_keeping(self, form: Any) -> tuple[str, dict[str, Any], str]:
        return self.keeping.read()

    def _open_release(self, form: Any) -> None:
        from gametrace.register.clock import wall_text

        form.set_holds(
            [
                (
                    str(hold.id),
                    f"Hold {hold.id}, placed by {hold.placed_by}",
                    f"Placed by {hold.placed_by}, {wall_text(hold.placed_at)}; another person lifts it. "
                    f"Why: {hold.reason}",
                )
                for hold in self._holds
            ]
        )
        form.reason.clear()

    def _open_strike(self, form: Any) -> None:
        form.set_entries(self.bench.ask("strikable", self.lot.code))
        form.reason.clear()

    def _open_dispose(self, form: Any) -> None:
        form.say_about(f"{kg_text(self.lot.grams)} is left of {self.lot.code}.")
        form.way.set_value("")
        form.grams.clear()
        form.reason.clear()

    def _open_dress(self, form: DressForm) -> None:
        assert self._carcass is not None
        small = species_called(self._carcass.species).group == "small"
        parts = [Part("skin", "skin or feathers" if small else "skin")] if self._carcass.in_skin else []
        parts += [Part(product, product) for product, words in _ON_NOW if words in self._carcass.basis_now]
        form.say_about(f"{self.lot.code}, {kg_text(self.lot.grams)} now, {self._carcass.basis_now}.")
        form.start(parts)

    # -- doing ------------------------------------------------------------------------------------------

    def _wanted(self, act: str) -> None:
        form = self.drawer.forms[act]
        form.clear_refusals()
        try:
            name, given, said = getattr(self, f"_do_{act}")(form)
        except Refusal as refusal:
            self._refused(refusal)
            return
        code = {} if act in ("release", "strike") else {"code": self.lot.code}
        lot = self.lot
        changes = self.bench.attempt(
            name, on_refusal=self._refused, said=f"{lot.code}: {said}", key=self._key, **code, **given
        )
        if changes is not None:
            if act == "keeping":
                self.keeping.after()
            self.done.emit()

    def _refused(self, refusal: Refusal) -> None:
        form = self.drawer.forms.get(self.drawer.form_name)
        if form is None:
            self.bench.refused.emit(str(refusal))
        else:
            form.refuse(refusal.field, str(refusal))

    def _do_move(self, form: Any) -> tuple[str, dict[str, Any], str]:
        to = form.places.value()
        if not to:
            raise Refusal("Choose where it goes.", "", "to")
        return "move_lot", {"to": to}, "moved."

    def _do_weigh(self, form: Any) -> tuple[str, dict[str, Any], str]:
        grams = needed_grams(form.grams)
        return "reweigh", {"grams": grams, "reason": form.reason.text()}, f"{kg_text(grams)} written down."

    def _do_correct(self, form: Any) -> tuple[str, dict[str, Any], str]:
        grams = needed_grams(form.grams)
        return "correct_weight", {"grams": grams, "reason": form.reason.text()}, "the weight is put right."

    def _do_hold(self, form: Any) -> tuple[str, dict[str, Any], str]:
        return "hold_lot", {"reason": form.reason.text()}, "on hold, and everything made of it."

    def _do_release(self, form: Any) -> tuple[str, dict[str, Any], str]:
        if not form.hold.value():
            raise Refusal("Choose the hold to lift.", "", "hold")
        return "release_hold", {"hold": int(form.hold.value()), "reason": form.reason.text()}, "hold lifted."

    def _do_strike(self, form: Any) -> tuple[str, dict[str, Any], str]:
        if not form.entries.value():
            raise Refusal("Choose the entry that was a mistake.", "", "seq")
        given = {"seq": int(form.entries.value()), "reason": form.reason.text()}
        return "strike_entry", given, "the entry is struck."

    def _do_dispose(self, form: Any) -> tuple[str, dict[str, Any], str]:
        if not form.way.value():
            raise Refusal("Choose where it goes.", "", "product")
        given = {"product": form.way.value(), "grams": form.grams.value(), "reason": form.reason.text()}
        return "dispose", given, "written off."

    def _do_dress(self, form: DressForm) -> tuple[str, dict[str, Any], str]:
        if not form.is_handed_on:
            raise Refusal("Print the new tag, or type its number.", "", "tag")
        after = read(form.after, "grams_after")
        outputs, off = [], set()
        for line in form.rows:
            if not line.off.isChecked():
                continue
            off.add(line.part.product)
            grams = read(line.grams, "outputs")
            if grams is not None:
                outputs.append(self.bench.acts.Out(line.part.product, grams))
            elif after is None or line.part.product == "skin":
                raise Refusal(f"Weigh the {line.part.word}.", "Or say that it stays on.", "outputs")
        typed = form.number.text().strip()
        tag = self.bench.acts.TagHandOver("typed", typed) if typed else self.bench.acts.TagHandOver("printed")
        given = {
            "outputs": outputs, "tag": tag, "skin_off": "skin" in off, "head_off": "head" in off,
            "feet_off": "feet" in off, "pluck_out": "pluck" in off, "grams_after": after,
            "notes": form.notes.value(),
        }  # fmt: skip
        return "dress_carcass", given, "dressed, its number handed on."

    def _print_new_tag(self) -> None:
        """The tag of the carcass as it will be, so that it can be tied on before the skin goes."""
        off = {line.part.product for line in self._dress_form.rows if line.off.isChecked()}
        words = "Skinned" if "skin" in off else "Dressed"
        if print_tags(self.bench, [self.lot.code], "carcass", first_line=words):
            self._dress_form.mark_printed()


def read(edit: Any, field: str) -> Any:
    """The value of a field, a refusal naming that field."""
    try:
        return edit.value()
    except Refusal as refusal:
        raise Refusal(refusal.sentence, refusal.what_to_do, field) from refusal


def needed_grams(edit: Any) -> int:
    grams = read(edit, "grams")
    if grams is None:
        raise Refusal("Weigh it and type the kilograms.", "For example 41.6.", "grams")
    return int(grams)
