"""The harnesses in their short form, and that they notice when something is lost.

The long form is run by hand: packaging/faults, packaging/flips.
"""

from __future__ import annotations

import random
import sqlite3
import sys
from pathlib import Path

import pytest

HARNESS = Path(__file__).resolve().parents[2] / "packaging" / "harness"
sys.path.insert(0, str(HARNESS))

import faults  # noqa: E402 -- scripts, not part of the package
import flips  # noqa: E402
import random_acts  # noqa: E402


@pytest.mark.slow
def test_twenty_kills_and_every_other_fault_lose_nothing_acknowledged() -> None:
    outcomes = faults.run({"kill": 20, "full": 2, "error": 4, "rofs": 3, "clock": 1, "race": 2}, seed=11)
    assert [sentence for outcome in outcomes.values() for sentence in outcome.wrong] == []
    assert outcomes["kill"].faults == 20
    assert sum(outcome.acts for outcome in outcomes.values()) > 200
    assert outcomes["full"].told_of_trouble == 2, "a full disk is told in a sentence"


@pytest.mark.slow
def test_eighty_altered_copies_are_refused_found_or_harmless() -> None:
    counted, missed = flips.run(80, seed=5)
    assert missed == []
    assert counted["found"] > 20
    assert counted["refused"] > 5


@pytest.fixture
def larder(tmp_path: Path) -> Path:
    path = tmp_path / "one.register"
    random_acts.new_larder(path)
    return path


def test_an_acknowledged_act_that_is_gone_is_noticed(larder: Path) -> None:
    outcome = faults.Outcome()
    faults.judge(larder, {}, [faults.Said({"1-1": 99})], outcome, "made up")
    assert any("acknowledged as entry 99 and is gone" in sentence for sentence in outcome.wrong)


def test_an_entry_that_nobody_said_is_noticed(larder: Path) -> None:
    before = faults.written(larder)
    random_acts.go(larder, 3, 30, jumps=False)
    outcome = faults.Outcome()
    faults.judge(larder, before, [faults.Said({}, in_hand="3-1")], outcome, "made up")
    assert any("entries nobody wrote" in sentence for sentence in outcome.wrong)


def test_half_an_act_is_noticed(larder: Path) -> None:
    random_acts.go(larder, 3, 30, jumps=False)
    connection = sqlite3.connect(larder)
    connection.execute("UPDATE lot SET grams_left = grams_left + 1 WHERE id = (SELECT MIN(id) FROM lot)")
    connection.commit()
    connection.close()
    outcome = faults.Outcome()
    faults.judge(larder, {}, [], outcome, "made up")
    assert outcome.wrong


def test_every_page_torn_in_turn_is_refused_found_or_harmless(larder: Path) -> None:
    random_acts.go(larder, 3, 30, jumps=False)
    whole, right = larder.read_bytes(), flips.contents(larder)
    copy = larder.with_name("copy.register")
    answers = set()
    for at in range(0, len(whole), 4096):
        for left in larder.parent.glob("copy.register*"):
            left.unlink()
        copy.write_bytes(whole[: at + 512] + bytes(4096 - 512) + whole[at + 4096 :])
        answers.add(flips.judge(copy, right))
    assert answers <= {"refused", "found", "harmless"}


def test_a_changed_row_that_still_reads_right_through_its_index_is_found(larder: Path) -> None:
    """A flipped bit in a row's key, where the index still says the old one: SQLite answers from either."""
    random_acts.go(larder, 3, 60, jumps=False)
    whole = larder.read_bytes()
    right = flips.contents(larder)
    chance = random.Random(2)
    answers = set()
    for at in chance.sample(range(len(whole)), 40):
        copy = larder.with_name("copy.register")
        copy.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        answers.add(flips.judge(copy, right))
    assert "missed" not in answers
