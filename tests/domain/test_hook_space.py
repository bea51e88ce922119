"""Hooks day by day: counted by hand, and against a plain simulation of a rail."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.hook_space import hook_days

MONDAY = date(2026, 11, 23)


def days(free: int, outs: list[int], ins: list[tuple[int, int]], hooks: int = 10, ahead: int = 5):
    return hook_days(
        store="C1", store_name="Chill", hooks=hooks, free_now=free, first=MONDAY, days=ahead,
        due_out=[MONDAY + timedelta(days=n) for n in outs],
        expected_in=[(MONDAY + timedelta(days=n), count) for n, count in ins],
    )  # fmt: skip


def test_what_goes_out_frees_a_hook_and_what_comes_takes_one() -> None:
    found = days(3, [1, 1], [(2, 4)])
    assert [one.free_then for one in found] == [3, 5, 1, 1, 1]
    assert [one.due_out for one in found] == [0, 2, 0, 0, 0]
    assert [one.expected_in for one in found] == [0, 0, 4, 0, 0]


def test_too_few_hooks_are_counted_as_short() -> None:
    found = days(1, [3], [(0, 4)])
    assert [one.short for one in found] == [3, 3, 3, 2, 2]


def test_what_is_overdue_counts_on_the_first_day() -> None:
    found = days(0, [-4, -1], [(-2, 1)])
    assert (found[0].due_out, found[0].expected_in, found[0].free_then) == (2, 1, 1)


@given(
    st.integers(1, 20).flatmap(lambda hooks: st.tuples(st.just(hooks), st.integers(0, hooks))),
    st.lists(st.integers(-3, 9), max_size=20),
    st.lists(st.tuples(st.integers(-3, 9), st.integers(1, 8)), max_size=6),
)
def test_the_sum_is_that_of_a_rail_played_day_by_day(
    room: tuple[int, int], outs: list[int], ins: list[tuple[int, int]]
) -> None:
    hooks, free = room
    outs = outs[: hooks - free]  # no more can go out than hangs there
    found = days(free, outs, ins, hooks)
    hung = hooks - free
    for at, one in enumerate(found):
        is_of_day = (lambda n: n <= 0) if at == 0 else (lambda n, at=at: n == at)
        hung -= sum(is_of_day(n) for n in outs)
        hung += sum(count for n, count in ins if is_of_day(n))
        assert one.free_then == hooks - hung
