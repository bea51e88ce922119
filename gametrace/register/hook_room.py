"""Whether there will be hooks for what is expected: free now, due out by plan, expected in, a store each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, timedelta

from gametrace.domain.hanging import HangingPlan
from gametrace.domain.hook_space import HookDay, hook_days
from gametrace.domain.lots import LotState
from gametrace.facts.species import species as species_called
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text
from gametrace.register.expected_list import Expected, expected_in
from gametrace.register.hanging import plans_in
from gametrace.register.opening import Register
from gametrace.register.places import store_of, stores_of
from gametrace.register.records import Carcass, Duty
from gametrace.store import look_carcasses, look_expected, look_setup
from gametrace.store.engine import Connection

FORECAST_DAYS = 7


def hook_forecast(register: Register, days: int = FORECAST_DAYS) -> tuple[HookDay, ...]:
    """A line a day for each store with hooks, and for all of them where there are several.

    What is on hold, or has no plan, is not counted as going out. Small game lies on shelves. An expectation
    without a store counts where there is only one; otherwise only in the line for all.
    """
    with register.store.reading() as connection:
        today = register.today()
        here = Assembler(connection, today).carcasses(look_carcasses.hanging(connection))
        return _forecast(connection, today, here, days)


def _forecast(connection: Connection, today: date, here: Sequence[Carcass], days: int) -> tuple[HookDay, ...]:
    hooks: dict[str, list[str]] = defaultdict(list)
    for row in look_setup.place_rows(connection):
        if row.kind == "hook":
            hooks[row.store].append(row.code)
    taken, names = look_expected.taken_hooks(connection), stores_of(connection)
    plans = plans_in(connection, [one.code for one in here if one.lot.place])
    outs: dict[str, list[date]] = defaultdict(list)
    for one in here:
        place = one.lot.place
        if place in taken and (day := _goes_out(one, plans)) is not None:
            outs[store_of(place)].append(day)
    coming = [one for one in expected_in(connection) if _wants_a_hook(one)]
    found: list[HookDay] = []
    for store, codes in hooks.items():
        mine = [one for one in coming if one.store == store or (not one.store and len(hooks) == 1)]
        free = sum(code not in taken for code in codes)
        found += _days((store, names[store][0]), (len(codes), free), outs[store], mine, today, days)
    if len(hooks) > 1:
        every = [code for codes in hooks.values() for code in codes]
        free = sum(code not in taken for code in every)
        out = [day for some in outs.values() for day in some]
        found += _days(("", "All hooks"), (len(every), free), out, coming, today, days)
    return tuple(found)


def _days(
    store: tuple[str, str],
    room: tuple[int, int],
    outs: Sequence[date],
    coming: Sequence[Expected],
    today: date,
    days: int,
) -> tuple[HookDay, ...]:
    return hook_days(
        store=store[0],
        store_name=store[1],
        hooks=room[0],
        free_now=room[1],
        first=today,
        days=days,
        due_out=outs,
        expected_in=[(one.on, one.left) for one in coming],
    )


def _goes_out(one: Carcass, plans: dict[str, HangingPlan]) -> date | None:
    """The day by which the plan has it down; None for what is stopped or has no plan."""
    plan = plans.get(one.code)
    if plan is None or one.killed_on is None or one.lot.state != LotState.HANGING:
        return None
    return one.killed_on + timedelta(days=plan.by_days)


def _wants_a_hook(one: Expected) -> bool:
    return not one.species or species_called(one.species).group != "small"


def hook_duties(connection: Connection, today: date, here: Sequence[Carcass]) -> tuple[Duty, ...]:
    """The forecast on the page of the day: only while something is expected, and only what matters of it.

    The first day a store is short of hooks; where none is, one quiet line for the next delivery's day.
    """
    if not any(_wants_a_hook(one) for one in expected_in(connection)):
        return ()
    lines = _forecast(connection, today, here, FORECAST_DAYS)
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
