"""How long the machine takes for Trace: a plate's animals on the practice larder, and words at 100,000 lots.

Figures only; they decide nothing here. The design asks 100 ms for the plate.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import pytest

from gametrace.register import questions
from gametrace.register.opening import open_register
from gametrace.register.practice import practice_register

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from big_history import fill
from larder_house import House

pytestmark = pytest.mark.bench


def _best(call, times: int = 5) -> float:
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        call()
        spent.append((time.perf_counter() - start) * 1000)
    return min(spent)


def test_a_plate_s_animals_with_exact_shares(tmp_path: Path) -> None:
    with open_register(practice_register(tmp_path), create=False) as register:
        dishes = questions.dishes(register, limit=40)
        spent = {
            dish.code: _best(lambda code=dish.code: questions.trace(register, code), 2) for dish in dishes
        }
        for dish in dishes:
            assert sum(one.share for one in questions.trace(register, dish.code).animals) == 1
        worst = max(spent, key=spent.__getitem__)
        print(f"\na plate to its animals: worst of {len(spent)} dishes {spent[worst]:.1f} ms ({worst})")


def test_words_as_they_are_typed_at_a_hundred_thousand_lots(tmp_path: Path) -> None:
    house = House(tmp_path / "big.register")
    fill(house, 100_000, seed=5)
    print()
    for words in ("ha", "haun", "haunch", "haunch pack", "fallow doe", "26-0", "26-09999", "26 nov", "zzz"):
        spent = _best(lambda words=words: questions.find(house.reg, words), 3)
        print(
            f"find {words!r} in 100,000 lots: {spent:.1f} ms, {len(questions.find(house.reg, words))} found"
        )
    house.close()
