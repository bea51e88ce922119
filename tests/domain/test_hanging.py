"""Hanging days: the sources conflict, and the plan offends none of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.hanging import hanging_findings, hanging_plan
from gametrace.facts.hanging import hanging_ranges
from gametrace.facts.species import all_species


def on_day(kind: str, days: int, age: str = "", own: tuple[int, int] | None = None) -> Finding:
    [finding] = hanging_findings(species=kind, age_class=age, days_hung=days, own_days=own)
    return finding


# (species, age, ready from, by, longest): worked by hand from the sources in the comment.
PLANS = [
    # Best practice 0-10, Ireland 0-10, Countryside Alliance to 14, in the skin 21-28, tradition 3-14.
    ("red", "stag", 3, 10, 28),
    # The same, and a stalker's 6-8; for an older male 6-10.
    ("fallow", "doe", 6, 8, 28),
    ("fallow", "great-buck", 6, 10, 28),
    # Countryside Alliance: three days for muntjac.
    ("muntjac", "buck", 3, 3, 14),
    # T. Maddams, Game, 2017: one or two days for Chinese water deer.
    ("chinese-water-deer", "doe", 1, 2, 14),
    # Countryside Alliance 5-7; tradition 3-14.
    ("pheasant", "old", 5, 7, 14),
    # Tradition: rabbit is not hung.
    ("rabbit", "grown", 0, 0, 0),
]


@pytest.mark.parametrize(("kind", "age", "ready", "by", "longest"), PLANS)
def test_the_plan_takes_days_that_no_source_forbids(
    kind: str, age: str, ready: int, by: int, longest: int
) -> None:
    plan = hanging_plan(kind, age)
    assert plan is not None
    assert (plan.ready_from_days, plan.by_days, plan.longest_days) == (ready, by, longest)
    for row in hanging_ranges(kind, age):
        assert f"{row.low_days} to {row.high_days}" in plan.words
    assert plan.source


# Shooting UK answers: older animals longer; no days of its own for a young one.
def test_a_young_one_may_be_cut_sooner() -> None:
    calf, stag = hanging_plan("red", "calf"), hanging_plan("red", "stag")
    assert calf is not None
    assert stag is not None
    assert calf.ready_from_days < stag.ready_from_days
    assert calf.by_days == stag.by_days
    assert "Older animals are hung longer" in calf.words


def test_the_kitchens_own_days_take_the_place_of_the_sources_but_the_spread_stays_in_sight() -> None:
    plan = hanging_plan("red", "stag", (7, 21))
    assert plan is not None
    assert (plan.ready_from_days, plan.by_days, plan.own) == (7, 21, True)
    assert "Countryside Alliance" in plan.words
    assert on_day("red", 21, own=(7, 21)).code == "hanging-ready"
    assert on_day("red", 22, own=(7, 21)).code == "hanging-over-run"


@pytest.mark.parametrize("own", [(5, 3), (-1, 3)])
def test_days_that_run_backwards_are_refused(own: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="earlier to the later"):
        hanging_plan("red", "", own)


def test_the_first_and_the_last_day_are_ready_and_the_next_asks_a_reason() -> None:
    assert on_day("fallow", 5, "doe").code == "hanging-not-yet"
    for day in (6, 8):
        finding = on_day("fallow", day, "doe")
        assert (finding.code, finding.severity) == ("hanging-ready", Severity.NOTE)
    over = on_day("fallow", 9, "doe")
    assert (over.code, over.severity) == ("hanging-over-run", Severity.ASK)
    assert "say why" in over.what_to_do
    assert "longer than any source" not in over.sentence
    assert "longer than any source" in on_day("fallow", 29, "doe").sentence


def test_where_no_source_is_held_the_kitchen_sets_its_own() -> None:
    assert hanging_plan("wild-boar") is None
    assert on_day("wild-boar", 4).code == "hanging-no-figure"
    assert on_day("wild-boar", 4, own=(2, 5)).code == "hanging-ready"


def test_a_day_before_the_kill_is_asked_about() -> None:
    assert on_day("red", -1).code == "hanging-before-kill"


@given(
    kind=st.sampled_from([one.id for one in all_species()]),
    days=st.integers(-5, 400),
    age=st.text(max_size=6) | st.sampled_from(["calf", "buck", "young"]),
)
def test_any_day_gets_one_finding_that_never_says_safe(kind: str, days: int, age: str) -> None:
    finding = on_day(kind, days, age)
    assert "safe" not in finding.sentence
    plan = hanging_plan(kind, age)
    if plan is not None:
        assert plan.shortest_days <= plan.ready_from_days <= plan.by_days <= plan.longest_days
