"""Readings of one store, made fit to be drawn: the lowest and highest of each pixel, and gaps left open.

Knows instants as seconds and temperatures as tenths of a degree; paints nothing and judges nothing.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

Reading = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Pixel:
    """One column of the drawing: where it lies, the lowest, the highest and the last reading in it."""

    x: int
    lowest: int
    highest: int
    last: int
    begins: bool  # nobody measured between the column before and this one


class Series:
    """Times and tenths of one store, in order. Its gaps are looked for once, not at every painting."""

    def __init__(self) -> None:
        self.times: array[int] = array("q")
        self.tenths: array[int] = array("h")
        self._gaps: dict[int, list[tuple[int, int]]] = {}

    def gaps(self, longest_gap: int) -> list[tuple[int, int]]:
        """Every step longer than that: the reading before and the one after."""
        if longest_gap not in self._gaps:
            self._gaps[longest_gap] = [
                (before, after) for before, after in pairwise(self.times) if after - before > longest_gap
            ]
        return self._gaps[longest_gap]

    def __len__(self) -> int:
        return len(self.times)

    @property
    def first_at(self) -> int:
        return self.times[0] if self.times else 0

    @property
    def last_at(self) -> int:
        return self.times[-1] if self.times else 0

    def span(self, first: int, last: int) -> tuple[int, int]:
        """Indices of the readings in a span, both ends included."""
        return bisect_left(self.times, first), bisect_right(self.times, last)

    def near(self, at: int) -> Reading | None:
        """The reading nearest to a time."""
        if not self.times:
            return None
        after = min(bisect_left(self.times, at), len(self.times) - 1)
        before = max(after - 1, 0)
        index = min((before, after), key=lambda one: abs(self.times[one] - at))
        return self.times[index], self.tenths[index]

    def ends(self, first: int, last: int) -> tuple[int, int] | None:
        """Lowest and highest in a span; None where nothing was read."""
        start, stop = self.span(first, last)
        if start >= stop:
            return None
        part = self.tenths[start:stop]
        return min(part), max(part)


def series_of(readings: Iterable[Reading]) -> Series:
    """Readings in order of time, as they come from the register."""
    made = Series()
    for at, tenths in readings:
        made.times.append(at)
        made.tenths.append(tenths)
    return made


def pixels(series: Series, first: int, last: int, width: int, longest_gap: int) -> list[Pixel]:
    """The columns with readings in them. A step longer than `longest_gap` seconds begins a new stroke."""
    if width <= 0 or last <= first or not len(series):
        return []
    start, stop = series.span(first, last)
    found: list[Pixel] = []
    before = series.times[start - 1] if start > 0 else None
    for x in range(width):
        edge = first + (last - first) * (x + 1) // width
        end = stop if x == width - 1 else min(bisect_left(series.times, edge, start), stop)
        if end <= start:
            continue
        part = series.tenths[start:end]
        begins = before is None or series.times[start] - before > longest_gap
        found.append(Pixel(x, min(part), max(part), part[-1], begins))
        before = series.times[end - 1]
        start = end
    return found


def gaps_in(series: Series, first: int, last: int, longest_gap: int) -> list[tuple[int, int]]:
    """Spans in which nobody measured, as far as they lie between two readings and touch this time."""
    return [gap for gap in series.gaps(longest_gap) if gap[0] < last and gap[1] > first]
