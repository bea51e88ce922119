"""Dates by shelf-life rule."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.dates import day_words, rule, rule_for, use_by
from gametrace.facts import UnknownFact
from gametrace.facts.shelf_life import STATES, shelf_lives


# FSA/FSS guidance on vacuum packed chilled foods: 10 days; the 2020 change names beef, lamb and pork only.
@pytest.mark.parametrize("state", ["vacuum", "modified-atmosphere"])
def test_packed_venison_gets_ten_days_from_first_packing(state: str) -> None:
    ten = rule_for(state, is_mince=False)
    assert ten.days == 10
    assert ten.counted_from == "day first packed"
    assert "vacuum" in ten.source
    assert use_by(ten.id, date(2026, 12, 28)) == date(2027, 1, 7)


# Common practice, no source: cautious until the kitchen's own plan says otherwise.
@pytest.mark.parametrize(
    ("state", "mince", "days"),
    [("chilled-loose", False, 3), ("thawed", False, 1), ("thawed", True, 1), ("mince", True, 1)],
)
def test_what_nobody_publishes_is_short_and_says_whose_word_it_is(state: str, mince: bool, days: int) -> None:
    short = rule_for(state, mince)
    assert short.days == days
    assert short.source == "common practice, no source"
    assert "food safety plan" in short.note


# Michigan State University Extension 01600806: at -18 C joints 8-12 months, mince 2-3.
def test_frozen_life_is_of_quality_and_shorter_for_mince() -> None:
    assert rule_for("frozen", is_mince=False).days == 365
    assert rule_for("frozen", is_mince=True).days == 90
    assert "not safety" in rule_for("frozen", is_mince=True).note


@pytest.mark.parametrize("state", STATES)
def test_mince_never_lives_longer_than_the_whole_cut(state: str) -> None:
    assert rule_for(state, is_mince=True).days <= rule_for(state, is_mince=False).days


def test_a_date_crosses_the_leap_day() -> None:
    assert use_by("vacuum", date(2028, 2, 25)) == date(2028, 3, 6)
    assert use_by("vacuum", date(2027, 2, 25)) == date(2027, 3, 7)


@given(day=st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_the_last_day_is_the_rule_counted_from_the_day(day: date) -> None:
    for held in shelf_lives():
        assert (use_by(held.id, day) - day).days == held.days


@pytest.mark.parametrize("nonsense", ["", "warm", "VACUUM"])
def test_an_unknown_rule_or_state_is_a_sentence(nonsense: str) -> None:
    with pytest.raises(UnknownFact, match="Use one of"):
        rule_for(nonsense, is_mince=False)
    with pytest.raises(UnknownFact, match="Use one of"):
        rule(nonsense)


def test_a_day_is_said_in_english_whatever_the_machine_speaks() -> None:
    assert day_words(date(2026, 2, 1)) == "1 February 2026"
    assert day_words(date(2024, 12, 25)) == "25 December 2024"
