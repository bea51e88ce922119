"""Whether there will be hooks for what is expected: free now, due out by plan, expected in, a store each."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from gametrace.domain.hanging import HangingPlan
from gametrace.domain.hook_space import HookDay, hook_days
from gametrace.domain.lots import LotState
from gametrace.facts.species import species as species_called
from gametrace.register.clock import day_text
from gametrace.register.expecting import Expected, expected_deliveries
from gametrace.register.hanging import hanging_plans
from gametrace.register.lists import larder_view
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, Duty, StoreView

FORECAST_DAYS = 7


def hook_forecast(register: Register, days: int = FORECAST_DAYS) -> tuple[HookDay, ...]:
    """A line a day for each store with hooks, and for all of them where there are several.

    What is on hold, or has no plan, is not counted as going out. Small game lies on shelves. An expectation
    without a store counts where there is only one; otherwise only in the line for all.
    """
    stores = [store for store in larder_view(register) if any(rail.hooks for rail in store.rails)]
    hung = {store.code: [h.carcass for r in store.rails for h in r.hooks if h.carcass] for store in stores}
    plans = hanging_plans(register, [one.code for here in hung.values() for one in here])
    coming = [one for one in expected_deliveries(register) if _wants_a_hook(one)]
    found: list[HookDay] = []
    given: dict[str, Any] = {"first": register.today(), "days": days}
    outs = {
        code: [day for one in here if (day := _goes_out(one, plans)) is not None]
        for code, here in hung.items()
    }
    for store in stores:
        mine = [one for one in coming if one.store == store.code or (not one.store and len(stores) == 1)]
        hooks, free = _room(store)
        found += hook_days(
            store=store.code, store_name=store.name, hooks=hooks, free_now=free, due_out=outs[store.code],
            expected_in=[(one.on, one.left) for one in mine], **given,
        )  # fmt: skip
    if len(stores) > 1:
        rooms = [_room(store) for store in stores]
        found += hook_days(
            store="", store_name="All hooks", hooks=sum(h for h, _ in rooms),
            free_now=sum(f for _, f in rooms),
            due_out=[day for here in outs.values() for day in here],
            expected_in=[(one.on, one.left) for one in coming], **given,
        )  # fmt: skip
    return tuple(found)


def _room(store: StoreView) -> tuple[int, int]:
    """(hooks, free ones)"""
    hooks = [hook for rail in store.rails for hook in rail.hooks]
    return len(hooks), sum(hook.carcass is None and hook.lot is None for hook in hooks)


def _goes_out(one: Carcass, plans: dict[str, HangingPlan]) -> date | None:
    """The day by which the plan has it down; None for what is stopped or has no plan."""
    plan = plans.get(one.code)
    if plan is None or one.killed_on is None or one.lot.state != LotState.HANGING:
        return None
    return one.killed_on + timedelta(days=plan.by_days)


def _wants_a_hook(one: Expected) -> bool:
    return not one.species or species_called(one.species).group != "small"


def hook_duties(register: Register) -> tuple[Duty, ...]:
    """The forecast on the page of the day: only while something is expected, and only what matters of it.

    The first day a store is short of hooks; where none is, one quiet line for the next delivery's day.
    """
    if not any(_wants_a_hook(one) for one in expected_deliveries(register)):
        return ()
    lines = hook_forecast(register)
    short: dict[str, HookDay] = {}
    for one in lines:
        if one.short:
            short.setdefault(one.store, one)
    if short:
        found = [one for one in short.values() if one.store] or list(short.values())
        return tuple(
            Duty("today", f"{hook_words(one)} Move or cut something before.", "larder", "", "To the larder")
            for one in found
        )
    coming = next((one for one in reversed(lines) if one.expected_in), None)
    if coming is None:
        return ()
    return (Duty("this week", hook_words(coming), "expected", "", "What is expected"),)


def hook_words(one: HookDay) -> str:
    """'26 Nov 2026, Skin chill: 4 of 18 hooks free now, ...': one line of the forecast."""
    now = f"{one.free_now} of {one.hooks} hooks free now"
    due = f"{one.due_out} due out that day by plan, {one.expected_in} expected in"
    then = f"{one.short} short" if one.short else f"{one.free_then} free then"
    return f"{day_text(one.day)}, {one.store_name}: {now}, {due}, {then}."
