"""Turns what was typed into questions about many lots, keeps them in order, and acts on what they find."""

from __future__ import annotations

import re
from collections.abc import Sized
from datetime import date, datetime, timedelta
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.domain.spoken_days import read_day
from gametrace.register.clock import wall_day

ASKS = {
    "touched": "Everything made of these animals or lots",
    "behind": "Everything these lots were made of",
    "mixed": "Everything mixed with these",
    "lots": "Just these lots",
    "store": "Everything in a store between two times",
    "supplier": "Everything from a supplier",
    "hunter": "Everything a trained person signed for",
    "place": "Everything killed at a place",
    "killed": "Everything killed on a day",
    "received": "Everything received on a day",
    "declaration": "Everything under a declaration",
    "cooked": "What was cooked between two days",
    "here": "Everything that is here now",
    "session": "Everything touched in a session",
    "cutter": "Everything a cutter touched",
    "station": "Everything on a board or table",
}
HOWS = (("and", "and also"), ("less", "less"), ("only what is also", "only what is also"))
_CODES, _WORD, _SPAN = ("codes",), ("word",), ("first", "last")
_FIELDS = {
    **dict.fromkeys(("touched", "behind", "mixed", "lots"), _CODES),
    **dict.fromkeys(("supplier", "hunter", "place", "declaration", "session", "cutter", "station"), _WORD),
    **dict.fromkeys(("killed", "received"), ("first",)),
    "cooked": _SPAN,
    "store": ("store", *_SPAN),
    "here": (),
}
_TIME = re.compile(r"(.*?)[\s,]+(\d{1,2})[:.](\d{2})")
_NOTHING = (
    "Choose a question on the left and give what it asks for. Further questions are joined to the first, "
    "taken off it, or keep only what both find."
)


class ManyPresenter(QObject):
    """One view, one bench."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._sort = "touched"
        self._steps: list[Any] = []
        self._saved: dict[str, Any] = {}
        view.asked_for.connect(self.turn_to)
        view.form.wanted.connect(self.ask)
        view.undo.clicked.connect(self.take_off)
        view.anew.clicked.connect(self.start_again)
        view.naming.wanted.connect(self.save)
        view.act.wanted.connect(self.hold)
        view.recall.clicked.connect(self.recall)
        view.lifting.wanted.connect(self.lift)
        view.chosen.connect(self._trace)
        view.saved.picked.connect(self.take_up)
        view.question.set_value(self._sort)

    def refresh(self) -> None:
        stores = [(one.code, one.name) for one in self.bench.ask("larder_view")]
        if tuple(code for code, _ in stores) != self.view.store.values():
            self.view.store.set_choices(stores, stores[0][0] if stores else "")
        self._saved = {one.code: one for one in self.bench.ask("saved_sets")}
        self.view.show_saved(
            [Choice(s.code, f"{s.code}  {s.name}, {s.lots} lots") for s in self._saved.values()]
        )
        self.view.show_held([Choice(str(s.seq), _held_words(s)) for s in self.bench.ask("held_sets")])
        self._show()

    def turn_to(self, sort: str) -> None:
        self._sort = sort
        self.view.form.clear_refusals()
        self.view.show_fields(_FIELDS[sort])

    def take_scan(self, code: str) -> bool:
        """A scanned label goes into the codes of the question, where it asks for some."""
        if "codes" not in _FIELDS[self._sort]:
            return False
        edit = self.view.form.fields["codes"].inner
        edit.setText(" ".join((*edit.text().split(), code)))
        return True

    def ask(self) -> None:
        """Put one more question to those before it."""
        self.view.form.clear_refusals()
        self.bench.guarded(self._ask, on_refusal=self.view.form.refuse)

    def _ask(self) -> None:
        from gametrace.domain.lot_sets import How
        from gametrace.register.asking_round import Step

        values = self.view.form.values()
        how = How(values.get("how") or "and") if self._steps else How.JOIN
        steps = [*self._steps, Step(self._sort, self._given(values), how)]
        self.bench.ask("gather", steps)
        self._steps = steps
        self.view.form.clear(keep=("how", "store"))
        self._show()

    def _given(self, values: dict[str, str]) -> tuple[str, ...]:
        names = _FIELDS[self._sort]
        if names == _CODES:
            return tuple(self._code(one) for one in values["codes"].replace(",", " ").split())
        if names == _WORD:
            return (values["word"],)
        if self._sort == "store":
            return (
                values["store"],
                self._moment(values["first"], "first"),
                self._moment(values["last"], "last"),
            )
        days = tuple(self._day(values[name], name, needed=names == ("first",)) for name in names)
        return tuple(day.isoformat() if day else "" for day in days)

    def _code(self, text: str) -> str:
        try:
            return self.bench.questions.normal_code(text)
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, "codes") from refusal

    def _day(self, text: str, field: str, *, needed: bool) -> date | None:
        if not text and not needed:
            return None
        day = read_day(text, self.bench.today())
        if day is None:
            raise Refusal("That day cannot be read.", "Type it as 12 Nov 2026.", field)
        return day

    def _moment(self, text: str, field: str) -> str:
        """A day with a time, or a bare day: from its beginning, till its end."""
        from gametrace.register.clock import wall_instant

        timed = _TIME.fullmatch(text)
        day = self._day(timed[1] if timed else text, field, needed=True)
        assert day is not None
        if timed and int(timed[2]) < 24 and int(timed[3]) < 60:
            moment: datetime = wall_instant(day, int(timed[2]), int(timed[3]))
        elif timed:
            raise Refusal("That time cannot be read.", "Type it as 14:30.", field)
        else:
            moment = wall_instant(day + timedelta(days=1) if field == "last" else day, 0)
        return moment.isoformat()

    # -- what is done with what was found ---------------------------------------------------------------

    def take_off(self) -> None:
        self._steps = self._steps[:-1]
        self._show()

    def start_again(self) -> None:
        self._steps = []
        self._show()
        self.view.question.setFocus()

    def take_up(self, code: str) -> None:
        """Ask a saved set's questions anew."""
        if code in self._saved:
            self._steps = list(self._saved[code].steps)
            self._show()

    def save(self) -> None:
        form = self.view.naming
        if self._attempt(form, "save_set", "It is saved.", name=form.values()["name"]):
            form.clear()

    def hold(self) -> None:
        form = self.view.act
        if self._attempt(form, "hold_set", "All of it is on hold.", reason=form.values()["reason"]):
            form.clear()

    def lift(self) -> None:
        """All that is left of what was held together goes on: another person decides."""
        form = self.view.lifting
        form.clear_refusals()
        given = {"seq": int(self.view.held.value() or 0), "reason": form.values()["reason"]}
        if self.bench.attempt("release_set", on_refusal=form.refuse, said="It may all go on.", **given):
            form.clear()

    def recall(self) -> None:
        """Hand the lots to the recalls, with the reason."""
        codes = self.bench.ask("gather", self._steps).codes
        self.bench.hand("recalls", (codes, self.view.act.values()["reason"]))

    def _attempt(self, form: Any, act: str, said: str, **given: Any) -> bool:
        form.clear_refusals()
        steps = tuple(self._steps)
        return self.bench.attempt(act, on_refusal=form.refuse, said=said, steps=steps, **given) is not None

    def _show(self) -> None:
        if not self._steps:
            self.view.show_found(_NOTHING, "", ())
        else:
            found = self.bench.ask("gather", self._steps)
            count = f"{_counted(found.lots)}, {kg_text(found.grams_here)} of meat still here"
            self.view.show_found(f"{found.words[:1].upper()}{found.words[1:]}", count, found.lots)
        self.view.show_fields(_FIELDS[self._sort])

    def _trace(self, code: str) -> None:
        self.bench.go("trace", code)


def _held_words(held: Any) -> str:
    return f"{_counted(held.codes)}, {held.reason} ({held.held_by}, {day_text(wall_day(held.held_at))})"


def _counted(lots: Sized) -> str:
    return "1 lot" if len(lots) == 1 else f"{len(lots):,} lots"
