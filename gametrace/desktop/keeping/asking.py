"""Works the form of how a lot is kept: asks what a change would do, shows it, and reads what is wanted."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.keeping.form import KeepingForm
from gametrace.desktop.labelling import print_labels
from gametrace.desktop.parts.days import day_text, weekday_text
from gametrace.desktop.parts.use_by import meat_name
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text

KINDS = ("part", "pack", "mix", "batch")
_ACTS = {"freeze": "freeze_lot", "thaw": "thaw_lot", "repack": "repack", "override": "override_date"}
_PACKED = {
    "chilled-loose": "chilled, loose",
    "modified-atmosphere": "modified air",
    "": "not packed",
}


def can_keep(lot: Any) -> bool:
    """Whether it can be frozen, thawed or dated at all."""
    return lot.kind in KINDS and lot.grams > 0


class Keeping:
    """One form at work on one lot."""

    def __init__(self, form: KeepingForm, bench: Bench) -> None:
        self.form, self.bench = form, bench
        self.lot: Any = None
        self._key = ""
        form.changed.connect(self.preview)

    def open(self, lot: Any) -> None:
        """Offer what may be done with this lot."""
        from gametrace.facts.shelf_life import thaw_methods

        self.lot, self._key = lot, uuid4().hex
        self.form.heading.say(meat_name(lot))
        packed = _PACKED.get(lot.pack_state, lot.pack_state)
        self.form.say_about(" · ".join((lot.code, kg_text(lot.grams), packed, lot.where)))
        is_frozen = lot.pack_state == "frozen"
        changes = ("thaw", "override") if is_frozen else ("freeze", "repack", "override")
        self.form.start(changes, [(one.id, one.name) for one in thaw_methods().values()])

    def preview(self) -> None:
        """The date it has and the one it would get, with the rule of each; or why it cannot be."""
        form, lot = self.form, self.lot
        if lot is None:
            return
        self._show_places()
        words = "Best by" if lot.pack_state == "frozen" else "Use by"
        was = f"Now: {words.lower()} {weekday_text(lot.use_by)}" if lot.use_by else "Now: no date"
        try:
            told = self.bench.ask("redating", lot.code, form.change.value(), **self._asked())
        except Refusal as refusal:
            form.say_dates(was, lot.date_rule, "", "", self._why(refusal))
            return
        asks = [one for one in told.findings if one.severity != "note"]
        if form.change.value() == "freeze":
            form.needs_reason(bool(asks))
        words = "Best by" if told.state == "frozen" else "Use by"
        now = f"Then: {words.lower()} {weekday_text(told.now)}"
        if told.state == "frozen" and told.first_frozen_on:
            now += f" · Frozen on {day_text(told.first_frozen_on)}"
        rule = "a tutor's own date" if form.change.value() == "override" else told.rule
        form.say_dates(
            was, lot.date_rule, now, rule, " ".join(f"{one.sentence} {one.what_to_do}" for one in asks)
        )

    def _why(self, refusal: Refusal) -> str:
        """A field still empty is no trouble yet; anything else is said at once."""
        is_waiting = refusal.field in ("method", "pack_state", "to", "reason") and not self._given_all()
        return "" if is_waiting else str(refusal)

    def _given_all(self) -> bool:
        asked = self._asked()
        return all(value or name == "reason" for name, value in asked.items())

    def _asked(self) -> dict[str, Any]:
        form = self.form
        match form.change.value():
            case "thaw":
                return {"method": form.method.value()}
            case "repack":
                return {"pack_state": form.pack_state.value()}
            case "override":
                return {
                    "to": form.to.value_or_none(),
                    "reason": form.reason.text().strip() or "its reason is still to come",
                }
        return {}

    def _show_places(self) -> None:
        wanted = "freezer" if self.form.change.value() == "freeze" else "chill"
        shelves = [one for one in self.bench.ask("places") if one.kind == "shelf" and one.sort == wanted]
        self.form.place.set_places([(one.code, one.name) for one in shelves])
        if not self.form.place.value():
            here = next((one.code for one in shelves if one.code == self.lot.place), "")
            self.form.place.set_value(here or (shelves[0].code if len(shelves) == 1 else ""))

    def read(self) -> tuple[str, dict[str, Any], str]:
        """The act, what it is given, and what is said once it is done. Refuses what is not filled in."""
        form, change = self.form, self.form.change.value()
        if not change:
            raise Refusal("Choose what is done.", "", "change")
        given: dict[str, Any] = {}
        if change in ("freeze", "thaw"):
            given["place"] = form.place.value()
        if change == "freeze":
            given["reason"] = form.reason.text() if form.fields["reason"].isVisibleTo(form) else ""
        elif change == "thaw":
            given["method"] = form.method.value()
        elif change == "repack":
            given["pack_state"] = form.pack_state.value()
        else:
            try:
                day = form.to.value()
            except Refusal as refusal:
                raise Refusal(refusal.sentence, refusal.what_to_do, "to") from refusal
            if day is None:
                raise Refusal("The new date is missing.", "Write the day, for example 4 Dec.", "to")
            given |= {"to": day, "reason": form.reason.text()}
        said = {"freeze": "frozen.", "thaw": "thawed.", "repack": "packed again.", "override": "dated."}
        return _ACTS[change], given, said[change]

    def do(self, done: Callable[[str], None]) -> None:
        """The act, once a form; `done` is told what to say. A refusal stands at its field."""
        self.form.clear_refusals()
        try:
            act, given, said = self.read()
        except Refusal as refusal:
            self._refuse(refusal)
            return
        changes = self.bench.attempt(act, on_refusal=self._refuse, code=self.lot.code, key=self._key, **given)
        if changes is not None:
            done(f"{self.lot.code}: {said}{self.after()}")

    def after(self) -> str:
        """Print the label that is right from now on, if that is wanted. What is to be said of the old one."""
        if self.form.labels.isChecked():
            print_labels(self.bench, [self.lot.code], done=_nothing)
            return " Its new label is open: take the old one off."
        return " The old label is wrong now: print the new one."

    def _refuse(self, refusal: Refusal) -> None:
        self.form.refuse(refusal.field, str(refusal))


def _nothing() -> None:
    """What was printed is said with the act itself."""
