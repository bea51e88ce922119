"""Excursions and gaps: by hand at every edge, and against numpy on random series."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.excursions import Ending, Excursion, Gap, Reading, excursions, gaps

LIMIT = 70
FIVE = 300


def every_five_minutes(*tenths_c: int) -> list[Reading]:
    return [(index * FIVE, value) for index, value in enumerate(tenths_c)]


def found(
    series: Sequence[Reading], tolerance: int = 0, gap: int = 900, limit: int = LIMIT
) -> list[Excursion]:
    return list(
        excursions(series, limit_tenths_c=limit, tolerance_seconds=tolerance, longest_gap_seconds=gap)
    )


def test_no_readings_no_excursion_and_no_gap() -> None:
    assert found([]) == []
    assert gaps([], expected_seconds=FIVE) == ()
    assert gaps([(0, 50)], expected_seconds=FIVE) == ()


def test_the_limit_itself_is_within_and_a_tenth_more_is_above() -> None:
    assert found(every_five_minutes(70, 70, 70)) == []
    [one] = found(every_five_minutes(70, 71, 70))
    assert one == Excursion(300, 300, 71, 300, 1, Ending.COOLED)
    assert one.until == 600


def test_it_lasts_until_the_reading_that_shows_it_cooled() -> None:
    [one] = found(every_five_minutes(50, 80, 95, 81, 70, 60))
    assert one == Excursion(300, 900, 95, 900, 3, Ending.COOLED)
    assert one.until == 1200


def test_a_time_equal_to_the_tolerance_is_tolerated() -> None:
    series = every_five_minutes(50, 80, 80, 50)
    assert found(series, tolerance=600) == []
    assert len(found(series, tolerance=599)) == 1


def test_the_last_reading_holds_for_no_time_that_is_known() -> None:
    [one] = found(every_five_minutes(50, 80, 90))
    assert one == Excursion(300, 600, 90, 300, 2, Ending.LAST_READING)
    assert found(every_five_minutes(50, 80)) == []


def test_a_gap_ends_the_interval_at_its_last_reading_and_is_shown() -> None:
    series = [(0, 80), (300, 85), (1201, 90), (1501, 60)]
    assert found(series) == [
        Excursion(0, 300, 85, 300, 2, Ending.GAP),
        Excursion(1201, 1201, 90, 300, 1, Ending.COOLED),
    ]
    assert gaps(series, expected_seconds=FIVE) == (Gap(300, 1201, 2),)


def test_a_step_equal_to_the_longest_gap_is_none() -> None:
    [one] = found([(0, 80), (900, 80), (1800, 60)])
    assert (one.seconds_above, one.reading_count) == (1800, 2)


def test_a_lone_reading_between_two_gaps_lasts_no_time() -> None:
    assert found([(0, 50), (1000, 200), (2000, 50)]) == []


def test_a_short_rise_above_the_limit_between_two_long_ones_keeps_them_apart() -> None:
    series = every_five_minutes(80, 80, 80, 70, 80, 80, 80, 70)
    assert [(one.first_at, one.seconds_above) for one in found(series, tolerance=600)] == [
        (0, 900),
        (1200, 900),
    ]


# A freezer's limit lies below zero: -18 °C is common practice, no source here.
def test_a_freezer_is_judged_below_zero() -> None:
    [one] = found(every_five_minutes(-185, -179, -120, -180, -200), limit=-180)
    assert one == Excursion(300, 600, -120, 600, 2, Ending.COOLED)


def test_one_missing_reading_is_a_gap_and_a_late_one_is_not() -> None:
    series = [(0, 1), (300, 1), (749, 1), (1199, 1), (1799, 1), (3299, 1)]
    assert gaps(series, expected_seconds=FIVE) == (Gap(749, 1199, 1), Gap(1199, 1799, 1), Gap(1799, 3299, 4))
    assert gaps(series, expected_seconds=FIVE)[2].seconds == 1500


@pytest.mark.parametrize("series", [[(0, 1), (10, 1), (9, 1)], [(0, 1), (0, 1)], [(5, 90), (4, 90)]])
def test_readings_out_of_order_or_twice_at_an_instant_are_refused(series: list[Reading]) -> None:
    with pytest.raises(ValueError, match="order of time"):
        found(series)
    with pytest.raises(ValueError, match="order of time"):
        gaps(series, expected_seconds=FIVE)


def test_settings_without_meaning_are_refused() -> None:
    with pytest.raises(ValueError, match="tolerance"):
        found([], tolerance=-1)
    with pytest.raises(ValueError, match="longest gap"):
        found([], gap=0)
    with pytest.raises(ValueError, match="expected"):
        gaps([], expected_seconds=0)


# Steps near the gap and values near the limit, so that random series meet the edges often.
SERIES = st.lists(
    st.tuples(st.integers(1, 12) | st.integers(1, 2000), st.integers(-3, 3) | st.integers(-400, 450)),
    max_size=80,
).map(lambda steps: [(sum(step for step, _ in steps[: i + 1]), t) for i, (_, t) in enumerate(steps)])


@given(SERIES, st.integers(-2, 2), st.integers(0, 30), st.integers(1, 12))
def test_random_series_agree_with_numpy(series: list[Reading], limit: int, tolerance: int, gap: int) -> None:
    ours = [
        (e.first_at, e.last_at, e.highest_tenths_c, e.seconds_above, e.reading_count)
        for e in found(series, tolerance, gap, limit)
    ]
    assert ours == _by_numpy(series, limit, tolerance, gap)


@given(SERIES, st.integers(1, 600))
def test_gaps_agree_with_numpy(series: list[Reading], expected: int) -> None:
    at = np.array([instant for instant, _ in series], dtype=np.int64)
    wide = np.flatnonzero(2 * np.diff(at) >= 3 * expected)
    ours = gaps(series, expected_seconds=expected)
    assert [(g.last_before, g.first_after) for g in ours] == [(int(at[i]), int(at[i + 1])) for i in wide]
    assert all(g.missing_count >= 1 and g.seconds >= (g.missing_count + 0.5) * expected for g in ours)


@given(SERIES, st.integers(-2, 2), st.integers(1, 12))
def test_the_seconds_of_all_intervals_are_the_seconds_the_step_function_lies_above(
    series: list[Reading], limit: int, gap: int
) -> None:
    """Second by second, without intervals at all: the other way to count."""
    held = {
        second
        for (at, tenths_c), (after, _) in pairwise(series)
        if tenths_c > limit and after - at <= gap
        for second in range(at, after)
    }
    assert sum(one.seconds_above for one in found(series, 0, gap, limit)) == len(held)
    assert {s for one in found(series, 0, gap, limit) for s in range(one.first_at, one.until)} == held


def _by_numpy(
    series: list[Reading], limit: int, tolerance: int, gap: int
) -> list[tuple[int, int, int, int, int]]:
    """Runs labelled by where 'above' changes or a gap falls, then one pass of reductions over the runs."""
    if not series:
        return []
    at, tenths = np.array(series, dtype=np.int64).T
    above = tenths > limit
    after_gap = np.diff(at) > gap
    run = np.concatenate([[0], np.cumsum((above[1:] != above[:-1]) | after_gap)])
    held = np.concatenate([np.where(after_gap, 0, np.diff(at)), [0]])
    answer = []
    for label in np.unique(run[above]):
        mine = run == label
        seconds = int(held[mine].sum())
        if seconds > tolerance:
            answer.append(
                (int(at[mine].min()), int(at[mine].max()), int(tenths[mine].max()), seconds, int(mine.sum()))
            )
    return answer
