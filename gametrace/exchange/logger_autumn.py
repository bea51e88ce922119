"""The hour that comes twice in autumn: which readings belong to which, as far as the file can tell.

Readings of that hour are told apart by their order in the file, and only by what it shows:

* the clock falls back once within the hour: what comes after is the second time;
* it shows the same time twice and nothing else: an hourly logger;
* it runs through once without a break, and joins up with its neighbours, at the logger's own step, on one
  side only.

Where the rows around are not in order, or both sides fit alike (a logger that never changes its clock
gives just this), it cannot be told, and none of these readings is given an instant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

_LONGEST_RUN_SECONDS = 10_800
_LOOK_AROUND = 20  # rows before and after that must be in order


def tell_apart(instants: list[int], later_by: Mapping[int, int], newest_first: bool) -> set[int]:
    """Move readings to the second time where they belong there; gives the indices that cannot be told.

    `instants` are in file order, each doubtful one as if it were the first time; `later_by` says by index
    how much later the second time is.
    """
    untold: set[int] = set()
    for begin, stop in _runs(instants, sorted(later_by)):
        indices = range(begin, stop)
        before = instants[max(begin - _LOOK_AROUND, 0) : begin]
        after = instants[stop : stop + _LOOK_AROUND]
        run = instants[begin:stop]
        if newest_first:
            before, after = after[::-1], before[::-1]
            run, indices = run[::-1], indices[::-1]
        second_from = _second_time_from(before, run, after, later_by[begin])
        if second_from is None:
            untold.update(indices)
            continue
        for index in indices[second_from:]:
            instants[index] += later_by[index]
    return untold


def _runs(instants: Sequence[int], doubtful: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Neighbouring doubtful rows of one autumn, as index ranges."""
    begin = 0
    for at in range(1, len(doubtful) + 1):
        if at < len(doubtful):
            last, this = doubtful[at - 1], doubtful[at]
            if this == last + 1 and abs(instants[this] - instants[last]) < _LONGEST_RUN_SECONDS:
                continue
        if doubtful:
            yield doubtful[begin], doubtful[at - 1] + 1
        begin = at


def _second_time_from(
    before: Sequence[int], run: Sequence[int], after: Sequence[int], later_by: int
) -> int | None:
    """Where in the run the second time begins; its length if nowhere; None if that cannot be told."""
    if not (_in_order([*before, run[0]]) and _in_order([run[-1], *after])):
        return None
    falls = [at for at in range(1, len(run)) if run[at] < run[at - 1]]
    if falls:
        return falls[0] if len(falls) == 1 else None
    if len(run) == 2 and run[0] == run[1]:
        return 1
    return _by_neighbours(before, run, after, later_by)


def _by_neighbours(
    before: Sequence[int], run: Sequence[int], after: Sequence[int], later_by: int
) -> int | None:
    steps = [b - a for near in (before[-2:], run, after[:2]) for a, b in pairwise(near) if b > a]
    if not steps:
        return None
    step = min(steps)
    if any(4 * (b - a) > 5 * step for a, b in pairwise(run)):
        return None  # broken within: the two parts may belong to different times

    def joins(moved_by: int) -> int:
        left = [run[0] + moved_by - before[-1]] if before else []
        right = [after[0] - run[-1] - moved_by] if after else []
        return sum(4 * abs(gap - step) <= step for gap in left + right)

    first, second = joins(0), joins(later_by)
    if first == second:
        return None
    return len(run) if first > second else 0


def _in_order(instants: Sequence[int]) -> bool:
    return all(a <= b for a, b in pairwise(instants))
