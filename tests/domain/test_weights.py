"""Weights: the trade's figures and the published ones, both held with their basis; never a stop."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.weights import weight_findings
from gametrace.facts.species import age_classes, all_species
from gametrace.facts.weights import weight_ranges


def weigh(
    kind: str,
    sex: str,
    grams: int,
    age_class: str | None = None,
    *,
    in_skin: bool = True,
    head_on: bool = True,
    feet_on: bool = False,
    pluck_in: bool = False,
    count: int = 1,
) -> Finding:
    [finding] = weight_findings(
        species=kind,
        sex=sex,
        age_class=age_class,
        grams=grams,
        in_skin=in_skin,
        head_on=head_on,
        feet_on=feet_on,
        pluck_in=pluck_in,
        count=count,
    )
    return finding


# Common practice, no source: carcasses with the head on and the feet off, in kilograms.
TRADE = [
    ("fallow", "male", 46, 94),
    ("fallow", "female", 35, 56),
    ("red", "male", 60, 90),  # 65-90, Highland 60-80
    ("red", "female", 60, 90),
    ("roe", "male", 10, 20),
    ("roe", "female", 10, 20),
    ("muntjac", "male", 10, 18),
    ("sika", "male", 40, 70),
    ("sika", "female", 30, 45),
    ("chinese-water-deer", "female", 11, 13),
]


@pytest.mark.parametrize(("kind", "sex", "low_kg", "high_kg"), TRADE)
def test_the_trade_range_is_usual_to_its_ends_and_asked_about_beyond(
    kind: str, sex: str, low_kg: int, high_kg: int
) -> None:
    for grams in (low_kg * 1000, high_kg * 1000):
        finding = weigh(kind, sex, grams)
        assert (finding.code, finding.severity) == ("weight-usual", Severity.NOTE)
        assert finding.source == "common practice, no source"
        assert "head on and feet off" in finding.sentence
    for grams in (low_kg * 1000 - 1, high_kg * 1000 + 1):
        finding = weigh(kind, sex, grams)
        assert (finding.code, finding.severity) == ("weight-unusual", Severity.ASK)
        assert finding.what_to_do


# Common practice, no source: an exceptional lowland stag reaches 160 kg.
def test_a_stag_of_a_hundred_and_fifty_kilos_is_asked_about_and_the_exception_named() -> None:
    finding = weigh("red", "male", 150_000)
    assert finding.severity is Severity.ASK
    assert "exceptional lowland stag" in finding.sentence
    assert "160 kg" in finding.sentence


# British Deer Society figures quoted at southwestfarmer.co.uk: the same numbers as LIVE weights.
@pytest.mark.parametrize(
    ("kind", "sex", "low_kg", "high_kg"),
    [
        ("fallow", "male", 46, 94),
        ("fallow", "female", 35, 56),
        ("red", "male", 90, 190),
        ("red", "female", 63, 120),
        ("roe", "male", 10, 25),
    ],
)
def test_published_live_weights_are_held_beside_the_trade_figures(
    kind: str, sex: str, low_kg: int, high_kg: int
) -> None:
    live = [row for row in weight_ranges(kind, sex) if row.basis == "live"]
    assert [(row.low_grams, row.high_grams) for row in live] == [(low_kg * 1000, high_kg * 1000)]
    assert {row.source for row in live} == {"bds-live-weights"}
    assert any(row.basis == "head-on-feet-off" for row in weight_ranges(kind, sex))


# hcsdeerservices.co.uk species pages: muntjac buck 10-18, doe 9-16 live.
def test_muntjac_live_weights_differ_by_sex() -> None:
    live = {row.sex: (row.low_grams, row.high_grams) for row in weight_ranges("muntjac", "unknown")}
    assert live["male"] == (10_000, 18_000)
    assert live["female"] == (9_000, 16_000)


# Know Your Venison leaflet: fallow doe 20-25 kg (to 30) dressed; a supplier's page: large doe 33 kg.
def test_a_beast_dressed_further_is_measured_by_every_carcass_range_and_its_state_is_said() -> None:
    finding = weigh("fallow", "female", 28_000, head_on=False)
    assert (finding.code, finding.severity) == ("weight-usual", Severity.NOTE)
    assert "dressing state not given" in finding.sentence
    assert "in the skin, head off, feet off, pluck out" in finding.sentence
    assert weigh("fallow", "female", 12_000, head_on=False).severity is Severity.ASK


@pytest.mark.parametrize("age_class", ["fawn", "pricket", "sorel"])
@pytest.mark.parametrize("grams", [1_000, 38_000, 500_000])
def test_a_young_animal_gets_a_note_that_the_range_is_of_grown_ones(age_class: str, grams: int) -> None:
    finding = weigh("fallow", "male", grams, age_class)
    assert (finding.code, finding.severity) == ("weight-young", Severity.NOTE)
    assert "of grown animals" in finding.sentence


def test_an_age_not_given_is_measured_as_grown() -> None:
    assert weigh("fallow", "male", 20_000).severity is Severity.ASK
    assert weigh("fallow", "male", 20_000, "").severity is Severity.ASK


def test_an_unknown_sex_is_usual_within_the_range_of_either() -> None:
    assert weigh("fallow", "unknown", 40_000).severity is Severity.NOTE
    assert weigh("fallow", "unknown", 90_000).severity is Severity.NOTE
    assert weigh("fallow", "unknown", 30_000).severity is Severity.ASK


def test_a_batch_is_judged_by_its_average() -> None:
    finding = weigh("pheasant", "male", 24_000, count=20)
    assert finding.code == "weight-usual"
    assert "each on average" in finding.sentence


def test_where_only_a_live_range_is_held_a_lighter_carcass_is_no_question() -> None:
    assert weigh("wild-boar", "male", 92_380).severity is Severity.NOTE
    assert weigh("wild-boar", "male", 250_000).severity is Severity.ASK


def test_where_nothing_is_held_it_says_so() -> None:
    assert weigh("woodcock", "unknown", 300).code == "weight-no-range"


@given(data=st.data(), grams=st.integers(1, 2_000_000), flags=st.tuples(*[st.booleans()] * 4))
def test_no_weight_ever_stops_a_delivery(
    data: st.DataObject, grams: int, flags: tuple[bool, bool, bool, bool]
) -> None:
    kind = data.draw(st.sampled_from([one.id for one in all_species()]))
    sex = data.draw(st.sampled_from(["male", "female", "unknown"]))
    ages: list[str | None] = [None, "", *(one.id for one in age_classes(kind, sex))]
    age_class = data.draw(st.sampled_from(ages))
    in_skin, head_on, feet_on, pluck_in = flags
    finding = weigh(
        kind,
        sex,
        grams,
        age_class,
        in_skin=in_skin,
        head_on=head_on,
        feet_on=feet_on,
        pluck_in=pluck_in,
    )
    assert finding.severity is not Severity.STOP
