"""How many hooks will be free: what is free now, what is due out by its hanging plan, what is expected in.

A plan is a plan: a body may stay longer and a van may not come. It counts hooks and promises nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True, slots=True)
class HookDay:
    """One store at the end of one day. Due out and expected in are that day's own; free then adds up."""

    day: date
    store: str  # code; '' for all hooks together
    store_name: str
    hooks: int
    free_now: int
    due_out: int
    expected_in: int
    free_then: int

    @property
    def short(self) -> int:
        """Bodies that would find no hook."""
        return max(0, -self.free_then)


def hook_days(
    *,
    store: str,
    store_name: str,
    hooks: int,
    free_now: int,
    first: date,
    days: int,
    due_out: Iterable[date],
    expected_in: Iterable[tuple[date, int]],
) -> tuple[HookDay, ...]:
    """A line a day from `first` on. What was due or expected before counts on the first day.

    Never more hooks free than there are: what goes out late cannot be saved up for later.
    """
    outs, ins = [max(day, first) for day in due_out], [(max(day, first), n) for day, n in expected_in]
    found, free = [], free_now
    for ahead in range(days):
        day = first + timedelta(days=ahead)
        out_then = sum(one == day for one in outs)
        in_then = sum(count for one, count in ins if one == day)
        free = min(hooks, free + out_then - in_then)
        found.append(HookDay(day, store, store_name, hooks, free_now, out_then, in_then, free))
    return tuple(found)
