"""Answers an officer's two questions and turns the pages of days. It only asks: its register is read-only."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial
from typing import Any, Protocol

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal
from gametrace.register.day_page import DayPage
from gametrace.register.records import Larder, Trace

LEAST_LETTERS = 2


class View(Protocol):
    def show_day(self, page: DayPage, *, is_last: bool) -> None: ...
    def show_answer(self, trace: Trace) -> None: ...
    def show_candidates(self, question: str, explained: str, choices: Sequence[Choice]) -> None: ...


class OfficerPresenter:
    """What is on view: a day, an answer, or candidates for one."""

    def __init__(self, view: View, bench: Bench) -> None:
        self._view, self._bench = view, bench
        self._page: DayPage | None = None
        self._trace: Trace | None = None

    @property
    def trace(self) -> Trace | None:
        return self._trace

    # -- days -------------------------------------------------------------------------------------------

    def show_day(self, day: date | None = None) -> None:
        today = self._bench.today()
        wanted = min(day or today, today)
        page = self._bench.guarded(partial(self._bench.ask, "day_page", wanted))
        if page is not None:
            self._page, self._trace = page, None
            self._view.show_day(page, is_last=wanted >= today)

    def turn(self, days: int) -> None:
        if self._page is not None:
            self.show_day(self._page.day + timedelta(days=days))

    def show_day_again(self) -> None:
        self.show_day(self._page.day if self._page else None)

    def print_day(self) -> None:
        if self._page is not None:
            make = partial(_day_paper, self._page)
            self._bench.to_paper(make, f"day {self._page.day}.pdf", "The day's page is in")

    # -- the two questions ------------------------------------------------------------------------------

    def ask(self, text: str) -> None:
        """Trace what the text names, or show what it may mean."""
        self._bench.guarded(partial(self._ask, text))

    def _ask(self, text: str) -> None:
        try:
            self._trace = self._bench.ask("trace", text)
        except Refusal as refusal:
            self._offer(text, refusal)
        else:
            self._view.show_answer(self._trace)

    def suggest(self, text: str) -> None:
        """While somebody types: what it may be."""
        if len(text.strip()) < LEAST_LETTERS:
            return
        hits = self._bench.guarded(partial(self._bench.ask, "find", text)) or ()
        if hits:
            self._view.show_candidates("Which of these?", "Press one, or type on.", _choices(hits))

    def _offer(self, text: str, refusal: Refusal) -> None:
        hits = self._bench.ask("find", text)
        if hits:
            self._view.show_candidates(f"Which of these is “{text[:40]}”?", refusal.sentence, _choices(hits))
        else:
            self._view.show_candidates(refusal.sentence, refusal.what_to_do, ())

    def print_answer(self) -> None:
        if self._trace is not None:
            larder = self._bench.ask("larder")
            make = partial(_trace_paper, self._trace, larder, self._bench.now())
            word = "".join(c if c.isalnum() or c in "-_" else "-" for c in self._trace.code)[:60]
            self._bench.to_paper(make, f"trace {word}.pdf", "The trace is in")


def _choices(hits: Sequence[Any]) -> list[Choice]:
    return [Choice(hit.code, f"{hit.code}   {hit.words}") for hit in hits]


def _day_paper(page: DayPage) -> bytes:
    from gametrace.documents.day_paper import day_pdf

    return day_pdf(page)


def _trace_paper(trace: Trace, larder: Larder, printed_at: Any) -> bytes:
    from gametrace.documents.trace_sheet import trace_pdf

    return trace_pdf(trace, larder, printed_at)
