"""What becomes of a date when meat is packed, frozen, thawed, mixed or dated by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.date_changes import (
    earliest,
    freeze_findings,
    frozen,
    override_findings,
    packed,
    repacked,
    thaw_findings,
    thawed,
)
from gametrace.domain.findings import Severity
from gametrace.facts import UnknownFact
from gametrace.facts.shelf_life import STATES, thaw_methods

MONDAY = date(2026, 11, 23)
DAYS = st.dates(date(2020, 1, 1), date(2040, 1, 1))


def after(days: int) -> date:
    return MONDAY + timedelta(days=days)


# FSA/FSS guidance on vacuum and MAP foods: ten days; the 2020 change frees beef, lamb and pork only.
@pytest.mark.parametrize("state", ["vacuum", "modified-atmosphere"])
def test_packed_game_has_ten_days_and_names_its_source(state: str) -> None:
    first = packed(state, MONDAY)
    assert first.last_day == after(10)
    assert "vacuum" in first.words
    assert "at most 10 days" in first.rule.note.lower()
    assert (
        "Venison, wild boar and game birds are not in the 2020 relaxation"
        in packed("vacuum", MONDAY).rule.note
    )


# The same: the days run from the first packing (from memory, held as such).
def test_packing_again_gains_no_day() -> None:
    first = packed("vacuum", MONDAY)
    again = repacked("vacuum", after(6), MONDAY, first.last_day)
    assert again.last_day == after(10)
    assert again.counted_from == MONDAY
    opened = repacked("chilled-loose", after(2), MONDAY, first.last_day)
    assert opened.last_day == after(5)
    kept = repacked("chilled-loose", after(9), MONDAY, first.last_day)
    assert kept.last_day == after(10)
    assert "gains none" in kept.words


@given(state=st.sampled_from(STATES), first=DAYS, later=st.integers(0, 400), mince=st.booleans())
def test_no_packing_again_ever_lengthens_a_date(state: str, first: date, later: int, mince: bool) -> None:
    had = packed(state, first, is_mince=mince).last_day
    again = repacked(state, first + timedelta(days=later), first, had, is_mince=mince)
    assert again.last_day <= had


# Common practice, no source: a mixed lot lasts no longer than the shortest-lived thing in it.
def test_a_mixed_lot_takes_the_earliest_of_its_parents_or_its_own_rule() -> None:
    assert packed("mince", MONDAY, is_mince=True, parents=[after(3), None]).last_day == after(1)
    short = packed("mince", MONDAY, is_mince=True, parents=[after(3), MONDAY])
    assert short.last_day == MONDAY
    assert "shortest-lived" in short.words
    assert earliest([None]) is None


# FSA: may be frozen up to the end of its use-by day.
def test_it_may_be_frozen_on_its_last_day_and_not_the_day_after() -> None:
    assert freeze_findings(after(10), after(10)) == ()
    (late,) = freeze_findings(after(11), after(10))
    assert (late.code, late.severity) == ("freeze-too-late", Severity.STOP)
    assert "FSA" in late.source
    assert freeze_findings(MONDAY, None)[0].code == "freeze-no-date"


# Common practice, no source: never frozen raw a second time.
def test_thawed_meat_is_not_frozen_raw_again_but_may_be_once_cooked() -> None:
    (again,) = freeze_findings(MONDAY, after(1), thawed_before=True)
    assert (again.code, again.severity) == ("freeze-second-time", Severity.STOP)
    assert again.source == "common practice, no source"
    assert freeze_findings(MONDAY, after(1), thawed_before=True, is_raw=False) == ()


# Regulation 1169/2011 Annex III(6), Annex X(3) (from memory): the first freezing date.
def test_the_first_freezing_date_is_kept_and_printed() -> None:
    first = frozen(MONDAY)
    assert first.label == "Frozen on 23 November 2026"
    again = frozen(after(40), first_frozen_on=MONDAY)
    assert again.first_frozen_on == MONDAY
    assert again.dated.last_day == first.dated.last_day
    assert frozen(MONDAY, is_mince=True).dated.last_day == after(90)


# Regulation 1169/2011 Annex VI A(2) and the November 2025 notice: first freezing date, thaw date, method.
def test_a_thawing_keeps_the_first_freezing_date_and_its_method() -> None:
    (whole,) = thaw_findings(after(30), MONDAY, "fridge")
    assert whole.code == "thaw-record"
    assert "23 November 2026" in whole.sentence
    assert "defrosted" in whole.sentence
    assert thaw_findings(after(30), None, "fridge")[0].code == "thaw-record-incomplete"
    assert thaw_findings(after(30), MONDAY, " ")[0].code == "thaw-record-incomplete"
    assert thaw_findings(MONDAY, after(1), "fridge")[0].severity == Severity.STOP


# Common practice, no source: one day; out of a microwave it is cooked at once.
def test_thawed_meat_has_a_new_short_date() -> None:
    assert thawed(MONDAY, "fridge").last_day == after(1)
    assert thawed(MONDAY, "microwave").last_day == MONDAY
    assert thawed(MONDAY, "cooked-from-frozen").last_day == MONDAY
    assert thawed(MONDAY, "fridge", present_last_day=MONDAY).last_day == MONDAY  # it gains no day
    ways = {"fridge", "thawing-cabinet", "cold-running-water", "microwave", "cooked-from-frozen"}
    assert set(thaw_methods()) == ways
    with pytest.raises(UnknownFact, match="way of thawing"):
        thawed(MONDAY, "on the radiator")


# Common practice, no source: a date by hand is a tutor's word with a reason.
@pytest.mark.parametrize(
    ("reason", "tutor", "missing"),
    [("", "AB", "a reason"), ("x", " ", "a tutor"), ("", "", "a reason and a tutor")],
)
def test_a_date_by_hand_needs_a_reason_and_a_tutor(reason: str, tutor: str, missing: str) -> None:
    (found,) = override_findings(packed("vacuum", MONDAY), after(12), reason, tutor)
    assert found.severity == Severity.STOP
    assert found.what_to_do == f"It needs {missing}."


def test_a_longer_date_by_hand_is_said_to_be_longer_with_the_rules_source() -> None:
    by_rule = packed("vacuum", MONDAY)
    (longer,) = override_findings(by_rule, after(12), "Salted to 4 %", "AB")
    assert (longer.code, longer.severity) == ("override-longer", Severity.ASK)
    assert "vacuum" in longer.source
    (shorter,) = override_findings(by_rule, after(5), "Bag leaked", "AB")
    assert shorter.severity == Severity.NOTE
    assert override_findings(by_rule, after(10), "", "") == ()
    assert override_findings(by_rule, after(-1), "x", "AB")[0].severity == Severity.STOP
