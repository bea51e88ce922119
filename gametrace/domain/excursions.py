"""Where a store was above a limit for longer than a tolerance, and where nobody knows.

The series is a step function: a reading holds until the next one. It never holds across more than
`longest_gap_seconds`; there, and after the last reading, nothing is known, so nothing is counted. An
interval begins at the first reading above the limit. It ends

* at the next reading at or below the limit, which is not part of it: the time up to it counts;
* at its own last reading, if a gap or the end of the series follows: the time after that does not count.

A reading at the limit is within it, a time equal to the tolerance is within that, and a step equal to the
longest gap is no gap. So a lone reading between two gaps lasts no time and is no excursion: who must know
of it judges the reading itself. What is found says nothing about the meat; it says where to look.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

Reading = tuple[int, int]  # epoch seconds UTC, tenths of a degree Celsius


class Ending(StrEnum):
    """What ended an interval above the limit."""

    COOLED = "cooled"  # a reading at or below the limit
    GAP = "gap"  # no reading for longer than one may hold
    LAST_READING = "last reading"  # as far as is known it is still above


@dataclass(frozen=True, slots=True)
class Excursion:
    """An interval in which every reading lies above the limit. `last_at` is the last of these readings."""

    first_at: int
    last_at: int
    highest_tenths_c: int
    seconds_above: int
    reading_count: int
    ended_by: Ending

    @property
    def until(self) -> int:
        """Where the counted time ends: `last_at`, or the reading that showed it had cooled."""
        return self.first_at + self.seconds_above


@dataclass(frozen=True, slots=True)
class Gap:
    """Two neighbouring readings with at least one expected reading missing between them."""

    last_before: int
    first_after: int
    missing_count: int

    @property
    def seconds(self) -> int:
        return self.first_after - self.last_before


def gaps(series: Sequence[Reading], *, expected_seconds: int) -> tuple[Gap, ...]:
    """Every place where a reading is missing from a series that should have one each `expected_seconds`.

    Clocks drift and people are late: a step counts as the nearest whole number of expected steps, so a
    gap is a step of one and a half of them or more. Time before the first and after the last reading is
    the caller's, who knows when the store was in use.
    """
    if expected_seconds <= 0:
        raise ValueError("the expected time between readings must be above nothing")
    _refuse_unsorted(series)
    found = []
    for (before, _), (after, _) in pairwise(series):
        steps = (2 * (after - before) + expected_seconds) // (2 * expected_seconds)
        if steps > 1:
            found.append(Gap(before, after, steps - 1))
    return tuple(found)


def excursions(
    series: Sequence[Reading], *, limit_tenths_c: int, tolerance_seconds: int, longest_gap_seconds: int
) -> tuple[Excursion, ...]:
    """Every interval above the limit that lasted longer than the tolerance, in the order of time.

    Ends are counted as the head of this module says. With a longest gap of at least one and a half
    expected steps, every gap that ends an interval is also among `gaps`.
    """
    if tolerance_seconds < 0:
        raise ValueError("a tolerance cannot be below nothing")
    if longest_gap_seconds <= 0:
        raise ValueError("the longest gap must be above nothing")
    _refuse_unsorted(series)
    intervals = _intervals_above(series, limit_tenths_c, longest_gap_seconds)
    return tuple(one for one in intervals if one.seconds_above > tolerance_seconds)


def _intervals_above(series: Sequence[Reading], limit: int, longest_gap: int) -> Iterator[Excursion]:
    begin: int | None = None  # index of the first reading of the interval now open
    for index, (at, tenths_c) in enumerate(series):
        if begin is not None:
            last = series[index - 1][0]
            if at - last > longest_gap:
                yield _interval(series, begin, index, last, Ending.GAP)
                begin = None
            elif tenths_c <= limit:
                yield _interval(series, begin, index, at, Ending.COOLED)
                begin = None
        if begin is None and tenths_c > limit:
            begin = index
    if begin is not None:
        yield _interval(series, begin, len(series), series[-1][0], Ending.LAST_READING)


def _interval(series: Sequence[Reading], begin: int, stop: int, until: int, ended_by: Ending) -> Excursion:
    readings = series[begin:stop]
    first_at = readings[0][0]
    highest = max(tenths_c for _, tenths_c in readings)
    return Excursion(first_at, readings[-1][0], highest, until - first_at, len(readings), ended_by)


def _refuse_unsorted(series: Sequence[Reading]) -> None:
    """A series out of order, or with one instant twice, has no step function: the caller sorts it first."""
    for (before, _), (after, _) in pairwise(series):
        if after <= before:
            raise ValueError(f"readings must be in order of time, one an instant: {after} follows {before}")
