"""Reads what the larder shows beside its hooks: days shelved animals hung, plans, each store's last day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.saying import last_words
from gametrace.desktop.larder.store_line import StoreCold
from gametrace.desktop.parts.days import weekday_text
from gametrace.domain.hanging import HangingPlan
from gametrace.domain.lots import ANIMAL_KINDS
from gametrace.register.records import StoreView


def cold_of(bench: Bench, stores: Sequence[StoreView]) -> dict[str, StoreCold]:
    """The last day of each store's temperature, and its last reading in words."""
    now, today = bench.now(), bench.today()
    own, last = bench.ask("policies"), bench.ask("last_readings")
    begin = now - timedelta(days=1)
    longest_gap = own.reading_minutes * 90  # seconds: one and a half steps
    found = {}
    for store in stores:
        limit = own.limit_of(store.sort)
        reading = last.get(store.code)
        is_late = reading is None or (now - reading[0]).total_seconds() > longest_gap
        found[store.code] = StoreCold(
            words=last_words(reading, now, today, longest_gap),
            is_amber=is_late or (reading is not None and reading[1] > limit),
            readings=bench.ask("temperatures", store.code, begin, now),
            first_at=int(begin.timestamp()),
            last_at=int(now.timestamp()),
            limit_tenths_c=limit,
            longest_gap=longest_gap,
        )
    return found


def plans_of(bench: Bench, stores: Sequence[StoreView]) -> dict[str, HangingPlan]:
    """The hanging plan of everything on a hook."""
    hung = [
        hook.carcass.code for store in stores for rail in store.rails for hook in rail.hooks if hook.carcass
    ]
    return bench.ask("hanging_plans", hung)


def days_shelved(bench: Bench, stores: Sequence[StoreView]) -> dict[str, int | None]:
    """Days since the kill of the animals on shelves."""
    lots = [lot for store in stores for _, lots in store.shelves for lot in lots if lot.kind in ANIMAL_KINDS]
    return {lot.code: bench.ask("carcass", lot.code).days_hung for lot in lots}


def room_of(bench: Bench) -> tuple[str, bool]:
    """One line on the hooks for what is expected, and whether they will not do; '' while nothing is."""
    if not bench.ask("expected_deliveries"):
        return "", False
    days = bench.ask("hook_forecast")
    short = next((one for one in days if one.short), None)
    coming = [one for one in days if one.expected_in]
    one = short or (coming[-1] if coming else None)
    if one is None:
        return "Expected later than a week, or takes no hook.", False
    then = f"{one.short} hooks short" if one.short else f"{one.free_then} free then"
    return (
        f"{weekday_text(one.day)}: {one.due_out} due out, {one.expected_in} expected in, {then}",
        bool(one.short),
    )


def hook_space(free: int, hooks: int) -> str:
    """How much room is left, in words."""
    if not hooks:
        return ""
    if not free:
        return f"no hook free of {hooks}"
    if free == hooks:
        return f"all {hooks} hooks free"
    return f"{free} of {hooks} hooks free"
