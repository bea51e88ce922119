"""Core temperatures and times, hot holding, cooling and reheating."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.cooking import (
    cook_demand,
    cook_findings,
    cooling_findings,
    hot_hold_findings,
    reheat_findings,
    seconds_by_z,
    seconds_needed,
    time_text,
)
from gametrace.domain.findings import Severity
from gametrace.facts.cooking import cook_table, z_values

JURISDICTIONS = ["england-wales", "scotland", "northern-ireland"]


# FSA core temperatures for businesses (scribd.com 673127800, gudangdomain.com): five lines.
@pytest.mark.parametrize(("tenths", "seconds"), [(600, 2700), (650, 600), (700, 120), (750, 30), (800, 6)])
def test_the_business_table_is_as_printed(tenths: int, seconds: int) -> None:
    assert seconds_needed(tenths, "business") == seconds


# ACMSF ad hoc group, March 2007: 93 min, 13.6 min (the line itself 13.63), 2 min, 18 s.
@pytest.mark.parametrize(
    ("tenths", "low", "high"), [(600, 5568, 5580), (650, 816, 818), (700, 120, 120), (750, 18, 18)]
)
def test_the_committee_table_is_as_printed_and_never_shorter_than_its_line(
    tenths: int, low: int, high: int
) -> None:
    assert low <= seconds_needed(tenths, "committee") <= high
    assert seconds_needed(tenths, "committee") >= seconds_by_z(tenths, 60)


# z = 7.5 (Irish review, core.ac.uk/works/61348858): 43.1 min, 9.28 min, 25.9 s, 5.6 s; z = 6: 92.8 min,
# 13.63 min, 17.6 s, 2.6 s; rounded up to the second.
@pytest.mark.parametrize(
    ("z", "tenths", "seconds"),
    [
        (75, 600, 2586),
        (75, 650, 558),
        (75, 750, 26),
        (75, 800, 6),
        (60, 600, 5570),
        (60, 650, 818),
        (60, 750, 18),
        (60, 800, 3),
    ],
)
def test_the_z_lines_recompute(z: int, tenths: int, seconds: int) -> None:
    assert abs(seconds_by_z(tenths, z) - seconds) <= 1
    assert set(z_values().values()) == {60, 75}


# The business table is the z = 7.5 line rounded up: no printed line is below it.
def test_the_business_table_is_its_line_rounded_up() -> None:
    for tenths, seconds in cook_table("business").lines:
        assert seconds >= seconds_by_z(tenths, 75)


def test_below_70_the_committee_asks_longer_and_above_it_the_business_table() -> None:
    assert cook_demand(650).from_table == "committee"
    assert cook_demand(700).from_table == "both"
    assert cook_demand(750).from_table == "business"
    assert (cook_demand(650).seconds, cook_demand(750).seconds, cook_demand(800).seconds) == (818, 30, 6)


@given(st.integers(600, 1299))
def test_hotter_is_never_longer(tenths: int) -> None:
    for table in ("business", "committee"):
        assert seconds_needed(tenths + 1, table) <= seconds_needed(tenths, table)
    assert cook_demand(tenths).seconds > 0


@given(
    tenths=st.integers(-100, 2000),
    seconds=st.integers(0, 10_000),
    meat=st.sampled_from(["whole", "minced", "boar", "offal"]),
)
def test_both_tables_are_named_and_nothing_is_ever_called_safe(tenths: int, seconds: int, meat: str) -> None:
    (found,) = cook_findings(tenths, seconds, meat=meat)
    assert "safe" not in found.sentence.replace("food safety plan", "")
    if found.code != "cook-not-a-core":
        assert "FSA cooking advice" in found.source
        assert "Advisory Committee" in found.source
    if 600 <= tenths <= 1300:
        assert (found.code == "cook-as-asked") == (seconds >= cook_demand(tenths).seconds)


# FSA: 70 C for 2 minutes. Ten minutes at 65 C meets one table and not the other.
def test_two_minutes_at_70_are_as_asked_and_ten_at_65_are_not() -> None:
    assert cook_findings(700, 120)[0].code == "cook-as-asked"
    assert cook_findings(700, 119)[0].severity == Severity.STOP
    short = cook_findings(650, 600)[0]
    assert short.severity == Severity.STOP
    assert "10 min" in short.sentence
    assert "13 min 38 s" in short.sentence


# ccfoodsafety.co.uk, after the FSA: pink whole cuts with the outside sealed; not rolled, minced or pork.
def test_a_whole_cut_may_be_pink_and_mince_and_boar_may_not() -> None:
    whole = cook_findings(570, 60, meat="whole")[0]
    assert (whole.code, whole.severity) == ("cook-pink-whole", Severity.ASK)
    assert "outside has been sealed" in whole.sentence
    for meat in ("minced", "boar", "offal"):
        assert cook_findings(570, 60, meat=meat)[0].severity == Severity.STOP


# SI 2013/2996 Sch.4, WSI 2006/31 Sch.4 paras 6-7; Scotland by hr-cl.com: 63 C, once below for under 2 h.
@pytest.mark.parametrize("jurisdiction", JURISDICTIONS)
def test_hot_food_is_kept_at_63_or_below_it_for_less_than_two_hours(jurisdiction: str) -> None:
    assert hot_hold_findings(630, 0, jurisdiction)[0].code == "hot-hold-kept"
    assert hot_hold_findings(629, 119, jurisdiction)[0].severity == Severity.ASK
    assert hot_hold_findings(629, 120, jurisdiction)[0].severity == Severity.STOP


# Regulation 852/2004 Annex II Ch. IX(6): as quickly as possible; 90 minutes to 8 C is practice.
def test_cooling_is_as_quickly_as_possible_and_90_minutes_in_practice() -> None:
    assert cooling_findings(90, 80)[0].code == "cooling-done"
    assert cooling_findings(60, 200)[0].code == "cooling-under-way"
    slow = cooling_findings(91, 80)[0]
    assert slow.code == "cooling-slow"
    assert "as quickly as possible" in slow.sentence


# Food Hygiene (Scotland) Regulations 2006 Sch.4: 82 C; no figure elsewhere.
def test_scotland_alone_names_82_for_reheating() -> None:
    assert reheat_findings(820, 0, "scotland")[0].code == "reheat-as-asked"
    assert reheat_findings(819, 600, "scotland")[0].code == "reheat-short"
    for other in ("england-wales", "northern-ireland"):
        assert reheat_findings(700, 120, other)[0].code == "cook-as-asked"
    assert reheat_findings(820, 60, "scotland", times_before=1)[0].code == "reheat-again"


def test_a_time_is_said_plainly() -> None:
    assert [time_text(n) for n in (0, 45, 120, 818)] == ["0 s", "45 s", "2 min", "13 min 38 s"]
    with pytest.raises(ValueError):
        seconds_needed(599, "business")
    with pytest.raises(ValueError):
        cook_findings(700, -1)
