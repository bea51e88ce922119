"""Reads one store's temperatures off the GUI thread and lays limits, warm times and what was done on them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.curve_page import CurvePage
from gametrace.desktop.cold.plot import DAY, Done, Limit, Warm
from gametrace.desktop.cold.saying import span_text
from gametrace.desktop.cold.series import Series, series_of
from gametrace.domain.quantities import celsius_text
from gametrace.facts.temperatures import chill_limit

YEARS = 3  # as far back as a curve is drawn


class CurvePresenter(QObject):
    """One page, one bench."""

    def __init__(self, page: CurvePage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.store = ""
        self._errand = 0
        self._span: tuple[int, int] | None = None
        self._shown = ""
        page.store_wanted.connect(self.show_store)

    def refresh(self) -> None:
        stores = self._stores()
        if not stores:
            return
        if self.store not in {code for code, _, _ in stores}:
            self.store = stores[0][0]
        self.page.set_stores([(code, name) for code, name, _ in stores], self.store)
        self._read()

    def show_store(self, code: str) -> None:
        self.store = code
        self.refresh()

    def show_time(self, store: str, first: datetime, last: datetime) -> None:
        """That stretch, with as much again on both sides."""
        begin, end = int(first.timestamp()), int(last.timestamp())
        around = max(end - begin, 6 * 3600)
        self._span = (begin - around, end + around)
        self.show_store(store)

    def _stores(self) -> list[tuple[str, str, str]]:
        return [(p.code, p.name, p.sort) for p in self.bench.ask("places") if p.kind == "store"]

    def _read(self) -> None:
        """All of it once, in the worker: moving along and going closer only paint."""
        if self._errand:
            self.bench.errands.stop(self._errand)
        now = self.bench.now()
        first = now - timedelta(days=366 * YEARS)
        self.page.busy.show()
        self._errand = self.bench.errands.run(
            partial(
                _series,
                self.bench.questions.temperatures,
                self.bench.register,
                self.store,
                first,
                now,
                self.bench.ask("policies").reading_minutes * 90,
            ),
            done=partial(self._read_done, self.store),
            failed=self._failed,
        )

    def _read_done(self, store: str, series: Series) -> None:
        if store != self.store:
            return
        self._errand = 0
        self.page.busy.hide()
        plot, own = self.page.plot, self.bench.ask("policies")
        is_other = store != self._shown
        self._shown = store
        plot.set_readings(series, own.reading_minutes * 90)
        if self._span is not None:
            plot.show_span(*self._span)
            self._span = None
        elif is_other:
            self.page.show_last(7 * DAY)
        self._mark(series)

    def _failed(self, error: Exception) -> None:
        self.page.busy.hide()
        self.bench.errand_failed(error)

    def _mark(self, series: Series) -> None:
        """Limits always; warm times and answers of the year that ends with the readings."""
        sort = next(sort for code, _, sort in self._stores() if code == self.store)
        now = self.bench.now()
        found = self.bench.ask("episodes", now - timedelta(days=92), now)
        mine = [one for one in found if one.store == self.store]
        warm = [
            Warm(
                int(one.first_at.timestamp()),
                int(one.last_at.timestamp()),
                f"{span_text(int((one.last_at - one.first_at).total_seconds()))}, "
                f"to {celsius_text(one.highest_tenths_c or 0)}",
            )
            for one in mine
            if one.sort == "warm"
        ]
        done = [Done(int(one.last_at.timestamp()), one.action) for one in mine if one.action]
        self.page.plot.set_marks(self._limits(sort), warm, done)

    def _limits(self, sort: str) -> list[Limit]:
        own = self.bench.ask("policies").limit_of(sort)
        limits = [Limit(own, f"the kitchen's limit {celsius_text(own)}", "steel")]
        jurisdiction = self.bench.ask("larder").jurisdiction
        if sort != "freezer" and jurisdiction:
            law = chill_limit(jurisdiction).tenths_c
            if law is not None:
                limits.append(Limit(law, f"the law's limit {celsius_text(law)}", "plum"))
        return limits


def _series(
    ask: Callable[..., Any],
    register: Any,
    store: str,
    first: datetime,
    last: datetime,
    longest_gap: int,
    progress: Callable[[int, int], None],
) -> Series:
    progress(0, 1)
    made = series_of(ask(register, store, first, last))
    made.gaps(longest_gap)  # looked for here, in the worker
    return made
