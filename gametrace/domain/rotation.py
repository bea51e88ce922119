"""Which copies to keep: many of late, few of long ago. It knows days, not files."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

# The kitchen's own figures may differ; these are a common practice, no source.
DAYS, WEEKS, MONTHS = 7, 5, 12


def kept(times: Iterable[datetime]) -> set[datetime]:
    """The newest three, and the last of each of the newest 7 days, 5 weeks and 12 months that have one.

    The newest is always kept, so nothing is lost by a clock that was set wrong.
    """
    newest_first = sorted(set(times), reverse=True)
    chosen = set(newest_first[:3])
    for count, span in ((DAYS, _day), (WEEKS, _week), (MONTHS, _month)):
        seen: list[tuple[int, ...]] = []
        for at in newest_first:
            if span(at.date()) not in seen and len(seen) < count:
                seen.append(span(at.date()))
                chosen.add(at)
    return chosen


def _day(on: date) -> tuple[int, ...]:
    return (on.toordinal(),)


def _week(on: date) -> tuple[int, ...]:
    return tuple(on.isocalendar())[:2]


def _month(on: date) -> tuple[int, ...]:
    return (on.year, on.month)
