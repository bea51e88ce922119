"""What the strip and the day's page take together on two years of records. Prints; decides nothing.

Wanted: 60 ms.
"""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from gametrace.register import questions
from gametrace.register.opening import open_register
from gametrace.register.practice import practice_register


@pytest.mark.bench
def test_what_today_and_the_strip_take(tmp_path: Path) -> None:
    with open_register(practice_register(tmp_path)) as register:
        spent = []
        for _ in range(5):
            begun = time.perf_counter()
            duties = questions.today(register)
            questions.waiting(register)
            spent.append(time.perf_counter() - begun)
    print(f"\ntoday and what waits: {min(spent) * 1_000:.0f} ms")
    assert duties
