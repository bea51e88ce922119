"""Drills: begin one at random or by hand, find every pack against the clock, read the book by term."""

from __future__ import annotations

from functools import partial
from itertools import groupby
from typing import Any

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.long_text import LongText
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART

_INTRODUCTION = (
    "A drill asks the officer's question of one lot or animal: find every pack of it where the register "
    "says, and see the weight add up. Nothing is moved or held."
)
_TICK_MS = 1_000


class DrillView(QWidget):
    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = Button("Back to Trace")
        self.lot, self.animal = BigButton("A lot at random"), Button("An animal at random")
        self.form = Form("", "Begin with this one")
        self.form.line("code", "Or one by hand", hint="scan or type its code", most=40)
        self.form.finish()
        self.book = LongText("The book of drills")
        self.clock = Words("", "figure", wrap=False)
        self.question = Words("", "large")
        self.balance = Words("")
        self.left = Words("", "strong")
        self.to_find = PickList("Packs to find")
        self.note = Form("", "All looked for: stop the clock")
        self.note.line("note", "Note", hint="what was missing, and where it was found", most=500)
        self.note.finish()
        side = ScrollColumn()
        side.add(row(self.back, 1))
        side.add(Words("Drills", "heading"))
        side.add(Words(_INTRODUCTION, "quiet"))
        side.add(row(self.lot, self.animal, 1))
        side.add(self.form)
        side.add(Words("The book", "heading"))
        side.add(self.book)
        side.add_stretch()
        self.running = QWidget()
        self.running.setLayout(
            column(
                row(self.clock, 1),
                self.question,
                self.balance,
                self.left,
                self.to_find,
                self.note,
                1,
                gap=8,
            )
        )
        self.idle = Words("No drill is running.", "quiet")
        whole = row(side, column(self.idle, self.running, 1, gap=8), gap=APART)
        whole.setStretch(0, 4)
        whole.setStretch(1, 6)
        self.setLayout(whole)
        self.setFocusProxy(self.lot)


class DrillPresenter(QObject):
    """Keeps what was found while the clock runs; the register keeps the rest."""

    def __init__(self, view: DrillView, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._running: Any = None
        self._found: set[str] = set()
        self._tick = QTimer(self)
        self._tick.setInterval(_TICK_MS)
        self._tick.timeout.connect(self._show_clock)
        view.lot.clicked.connect(partial(self.begin, "lot"))
        view.animal.clicked.connect(partial(self.begin, "animal"))
        view.form.wanted.connect(self.begin_by_hand)
        view.to_find.picked.connect(self.find)
        view.note.wanted.connect(self.end)

    def refresh(self) -> None:
        """A drill that was left running is taken up again, with its clock."""
        book = self.bench.ask("drill_book")
        open_now = next((one for one in book if one.ended_at is None), None)
        if open_now is None:
            self._running = None
        elif self._running is None or self._running.drill.code != open_now.code:
            self._running = self.bench.ask("running_drill", open_now.code)
            self._found = set()
        self._show(book)

    def begin(self, sort: str, _checked: bool = False) -> None:
        self.bench.attempt("begin_drill", sort=sort)

    def begin_by_hand(self) -> None:
        self.view.form.clear_refusals()
        code = self.view.form.values()["code"]
        if not code:
            self.view.form.fields["code"].refuse("Scan or type the code first.")
        elif self.bench.attempt("begin_drill", on_refusal=self.view.form.refuse, code=code):
            self.view.form.clear()

    def find(self, code: str) -> bool:
        """A pack stands where the register says: ticked by its label or from the list."""
        if self._running is None or code not in {lot.code for lot in self._running.to_find}:
            return False
        self._found.add(code)
        self._show_left()
        return True

    def end(self) -> None:
        if self._running is None:
            return
        self.view.note.clear_refusals()
        drill, note = self._running.drill.code, self.view.note.values()["note"]
        given = {"drill": drill, "found": tuple(sorted(self._found)), "note": note}
        if self.bench.attempt(
            "end_drill", on_refusal=self.view.note.refuse, said="The clock stands.", **given
        ):
            self.view.note.clear()

    def _show(self, book: Any) -> None:
        is_running = self._running is not None
        self.view.running.setVisible(is_running)
        for one in (self.view.lot, self.view.animal, self.view.form):
            one.setEnabled(not is_running)
        ended = [one for one in book if one.ended_at is not None]
        self.view.book.say(book_words(ended) or "No drill has ended yet. One a term is usual.")
        self.view.idle.setVisible(not is_running)
        self.view.idle.say(result_words(ended[0]) if ended else "No drill is running.")
        if not is_running:
            self._tick.stop()
            return
        drill = self._running.drill
        animals = ", ".join(f"{lot.code} {lot.name}" for lot in self._running.animals)
        self.view.question.say(f"{drill.lot} {drill.name}, {drill.manner}. It comes from {animals}.")
        self.view.balance.say(f"Balance: {self._running.balance_words}")
        self._show_left()
        self._show_clock()
        self._tick.start()

    def _show_left(self) -> None:
        waiting = [lot for lot in self._running.to_find if lot.code not in self._found]
        total = len(self._running.to_find)
        self.view.left.say(
            f"{total - len(waiting)} of {total} found. Scan each one where it stands, or press it here."
        )
        self.view.to_find.set_choices(
            [Choice(lot.code, f"{lot.code}  {lot.name}, {lot.where or 'on the block'}") for lot in waiting]
        )
        self.view.to_find.setVisible(bool(waiting))

    def _show_clock(self) -> None:
        if self._running is not None and self.bench.is_open:
            spent = self.bench.now() - self._running.drill.begun_at
            self.view.clock.say(time_words(max(0, int(spent.total_seconds()))))


def time_words(seconds: int) -> str:
    """'4:05', '1:02:09'."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def result_words(drill: Any) -> str:
    """One drill in a sentence."""
    found = (
        f"{drill.found} of {drill.asked} found, {drill.percent} %" if drill.asked else "nothing left to find"
    )
    return (
        f"{drill.code} on {drill.lot} {drill.name}: {found}, in {time_words(drill.seconds)}, {drill.standing}"
    )


def book_words(ended: Any) -> str:
    """Every ended drill, newest first, under its term."""
    lines = []
    for term, drills in groupby(ended, key=_term):
        lines.append(term.capitalize())
        lines += [f"  {result_words(one)}" for one in drills]
    return "\n".join(lines[:40])


def _term(drill: Any) -> str:
    return drill.term


class DrillStation(Station):
    """Not on the strip: Trace leads here."""

    name = "drills"
    title = "Drills"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = DrillView(bench)
        super().__init__(bench, self.view, parent)
        self.presenter = DrillPresenter(self.view, bench)
        self.view.back.clicked.connect(partial(bench.go, "trace", ""))

    def refresh(self) -> None:
        self.presenter.refresh()

    def on_scan(self, code: str) -> bool:
        return self.presenter.find(code)
