"""Builds the sample register: two invented years, day by day, through the public acts.

    python -m sample_db.build OUT [--last-day 2026-11-24] [--seed 417]

The same seed and last day give the same entries, apart from the salted digests of name cards.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from datetime import date, timedelta
from pathlib import Path
from random import Random

from gametrace.register import acts
from gametrace.register.opening import open_register
from sample_db import (
    LAST_DAY,
    SEED,
    afterwards,
    arrivals,
    cast,
    cold,
    door,
    ending,
    evening,
    kitchen,
    larder_round,
    looks,
    money,
    papers,
    stories,
)
from sample_db.clock import SteppedClock
from sample_db.house import House
from sample_db.terms import Terms

_DAYS = 723  # a little under two years: 1 December to 24 November


def build(out: Path, *, last_day: date = LAST_DAY, seed: int = SEED) -> dict[str, str]:
    """Write the sample to `out`, one plain file without a journal beside it. Returns the marked lot codes."""
    with tempfile.TemporaryDirectory(prefix="fenmoor-") as folder:
        clock = SteppedClock(last_day - timedelta(days=_DAYS))
        with open_register(Path(folder) / "growing.register", clock=clock) as register:
            terms = Terms(clock.day, last_day)
            house = House(register, clock, Random(seed), terms)
            _live_through(house)
            acts.back_up(register, out)
    return house.marks


def _live_through(house: House) -> None:
    cast.set_up(house)
    terms = house.terms
    coming = sorted(
        (*arrivals.ordinary(house.rng, terms), *stories.told(terms), *ending.last_fortnight(terms)),
        key=lambda one: one.day,
    )
    house.later(terms.newest(7, 10, 1), lambda: afterwards.a_student_leaves(house))
    house.later(terms.newest(2, 24), lambda: afterwards.packs_that_leak(house))
    house.later(terms.last_day - timedelta(days=1), lambda: ending.dress_some(house))
    house.later(terms.last_day - timedelta(days=1), lambda: money.prices_are_set(house))
    house.later(terms.last_day - timedelta(days=9), lambda: kitchen.forget_one(house))
    cold.plan(house)
    papers.plan(house)
    day = terms.first_day
    while day <= terms.last_day:
        today = [one for one in coming if one.day + timedelta(days=one.typed_late_hours // 24) == day]
        if terms.is_open(day) or today:
            _live_day(house, day, today)
        day += timedelta(days=1)
    evening.hand_out(house)
    cold.last_evening(house)


def _live_day(house: House, day: date, today: list[arrivals.Arrival]) -> None:
    house.clock.go_to(day, 8)
    kitchen.bin_what_is_past(house)
    for arrival in today:
        door.receive(house, arrival)
    if not house.terms.is_open(day):
        return
    house.run_due()
    house.clock.go_to(day, 10, 30)
    cold.go_round(house)
    looks.go_round(house)
    larder_round.go_round(house)
    kitchen.mince(house)
    house.clock.go_to(day, 16)
    kitchen.cook(house)
    evening.go_round(house)


def main() -> int:
    parser = argparse.ArgumentParser(description="Build the sample register of an invented larder.")
    parser.add_argument("out", type=Path)
    parser.add_argument("--last-day", type=date.fromisoformat, default=LAST_DAY)
    parser.add_argument("--seed", type=int, default=SEED)
    given = parser.parse_args()
    marks = build(given.out, last_day=given.last_day, seed=given.seed)
    print(f"{given.out}: {given.out.stat().st_size // 1024} KiB, ending on {given.last_day}")
    for name, code in sorted(marks.items()):
        print(f"  {name}: {code}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
