"""The cost of one dish on two years of an invented larder, printed: under a twentieth of a second."""

from __future__ import annotations

import statistics
import time
from pathlib import Path

import pytest

from gametrace.register import questions
from gametrace.register.opening import open_register
from gametrace.register.practice import practice_register


@pytest.mark.bench
def test_what_the_cost_of_one_dish_takes(tmp_path: Path) -> None:
    with open_register(practice_register(tmp_path)) as register:
        dishes = questions.dishes(register, limit=1_000)[::7]
        questions.dish_cost(register, dishes[0].code)  # imports and facts are read once
        took = []
        for dish in dishes:
            best = min(_seconds(register, dish.code) for _ in range(3))
            took.append(best)
    print(
        f"\ncost of one dish, {len(took)} dishes: median {statistics.median(took) * 1e3:.1f} ms, "
        f"slowest {max(took) * 1e3:.1f} ms"
    )
    assert took


def _seconds(register, code: str) -> float:
    begun = time.perf_counter()
    questions.dish_cost(register, code)
    return time.perf_counter() - begun
