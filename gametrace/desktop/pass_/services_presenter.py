"""A day at the pass, read anew whenever something was written down; covers are counted here."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.pass_.services_page import ServicesPage


class ServicesPresenter:
    def __init__(self, page: ServicesPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self._key = uuid4().hex
        page.day_wanted.connect(self.show_day)
        page.covers_wanted.connect(self.count)

    def refresh(self) -> None:
        """The day in sight; first of all today, or the newest day that had a service."""
        days = self.bench.ask("service_days")
        today = self.bench.today()
        first = next((day for day in days if day <= today), today)
        self._show(self.page.shown or first, days)

    def show_day(self, day: date) -> None:
        self._show(day, self.bench.ask("service_days"))

    def _show(self, day: date, days: Any) -> None:
        occasions = self.bench.ask("services", day)
        self.page.show_day(day, occasions, days)
        named = self.page.covers.fields["occasion"].inner
        if not named.text() and occasions:
            named.setText(occasions[0].name)
            self.page.covers.kind.set_value(occasions[0].kind)

    def count(self) -> None:
        form = self.page.covers
        covers = self.bench.guarded(self._covers, on_refusal=form.refuse)
        if covers is None:
            return
        changes = self.bench.attempt(
            "note_covers",
            on_refusal=form.refuse,
            occasion_kind=form.kind.value(),
            occasion=form.value("occasion"),
            on=self.page.shown,
            covers=covers,
            note=form.value("note"),
            key=self._key,
        )
        if changes is not None:
            self._key = uuid4().hex
            self.page.loud.done(f"{covers} covers at {form.value('occasion')}.")
            form.clear()

    def _covers(self) -> int:
        return int(self.page.covers.needed("covers", "How many covers?"))
