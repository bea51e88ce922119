"""Writes announced deliveries down, settles them, and tells whether there are hooks for them."""

from __future__ import annotations

import uuid
from datetime import timedelta
from itertools import groupby
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.expected.coming_list import Coming
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal
from gametrace.domain.hook_space import HookDay
from gametrace.facts.species import all_species

_OFFERED = 3  # bodies offered for one expectation: the newest that came from there
_LOOK_BACK = timedelta(days=14)
_NEAR_DAYS = 2  # a van is a day or two early or late; what came before that was something else


class ExpectedPresenter(QObject):
    """One view, one bench."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._key = uuid.uuid4().hex
        view.form.wanted.connect(self.write_down)
        view.coming.ticked.connect(self.tick)
        view.coming.cancelled.connect(self.cancel)
        view.coming.taken.connect(self._take_in)

    def refresh(self) -> None:
        suppliers = self.bench.ask("suppliers")
        stores = [one for one in self.bench.ask("larder_view") if any(rail.hooks for rail in one.rails)]
        self.view.form.set_choices(
            [Choice(one.code, one.name, one.address) for one in suppliers],
            [Choice("", "Not said"), *(Choice(one.id, one.name) for one in all_species())],
            [("", "Not said"), *((one.code, one.name) for one in stores)],
        )
        self.view.coming.show_coming(self._coming())
        self.view.hooks.show_stores(hook_lines(self.bench.ask("hook_forecast")))

    def _coming(self) -> list[Coming]:
        from gametrace.register.clock import wall_day

        today = self.bench.today()
        expected = self.bench.ask("expected_deliveries", open_only=False)
        ticked = {code for one in expected for code in one.lots}
        recent = [
            one
            for one in self.bench.ask("deliveries", first=today - _LOOK_BACK, last=today)
            if one.code not in ticked
        ]
        lines = []
        for one in (one for one in expected if one.status == "expected"):
            fitting = [
                (body.code, f"{body.code} {body.title}")
                for body in recent
                if body.supplier.code == one.supplier
                and one.species in ("", body.species)
                and abs((wall_day(body.received_at) - one.on).days) <= _NEAR_DAYS
            ]
            lines.append(Coming(one.code, coming_words(one), one.on < today, tuple(fitting[:_OFFERED])))
        return lines

    def open(self, code: str) -> None:
        self.view.coming.focus_line(code)

    # -- acting -----------------------------------------------------------------------------------------

    def write_down(self) -> None:
        form = self.view.form
        form.clear_refusals()
        values = self.bench.guarded(form.values, on_refusal=form.refuse)
        if values is None:
            return
        done = self.bench.attempt(
            "expect_delivery", on_refusal=form.refuse, said="It is written down.", key=self._key, **values
        )
        if done is not None:
            self._key = uuid.uuid4().hex
            form.start_anew()

    def tick(self, expected: str, code: str) -> None:
        self.bench.attempt(
            "tick_expected", said=f"{code} is ticked off.", expected=expected, code=code,
            key=uuid.uuid4().hex,
        )  # fmt: skip

    def cancel(self, expected: str, reason: str) -> None:
        done = self.bench.attempt(
            "cancel_expected", on_refusal=self._refused, said=f"{expected} is cancelled.", expected=expected,
            reason=reason, key=uuid.uuid4().hex,
        )  # fmt: skip
        if done is not None:
            self.view.coming.put_away()

    def _refused(self, refusal: Refusal) -> None:
        self.view.coming.reason_field.refuse(str(refusal))

    def _take_in(self, code: str) -> None:
        self.bench.go("delivery")


def coming_words(one: Any) -> str:
    """'E002   Thu 26 Nov 2026, 14:30: 3 × fallow from Marlhanger; 1 came. the old van'"""
    at = f", {one.at}" if one.at else ""
    came = f"; {one.came} came, {one.left} to come" if one.came else ""
    note = f". Note: {one.note}" if one.note else ""
    return f"{one.code}   {weekday_text(one.on)}{at}: {one.words}{came}{note}"


def hook_lines(
    found: tuple[HookDay, ...],
) -> list[tuple[str, list[tuple[tuple[str, ...], bool]]]]:
    """The forecast by store, each day as the cells of its line."""
    return [
        (name, [(_cells(one), bool(one.short)) for one in days])
        for name, days in groupby(found, key=_store_name)
    ]


def _store_name(one: HookDay) -> str:
    return one.store_name


def _cells(one: HookDay) -> tuple[str, ...]:
    then = f"{one.short} short" if one.short else str(one.free_then)
    now = f"{one.free_now} of {one.hooks}"
    return weekday_text(one.day), now, str(one.due_out), str(one.expected_in), then
