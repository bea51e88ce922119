"""Costs spread over parts, against published worked examples. Some sources weigh in ounces."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.costing import (
    Costed,
    YieldPart,
    YieldTest,
    cost_factor,
    portion_cost,
    portion_findings,
    spread,
    spread_by_points,
    spread_by_sales_value,
    spread_by_weight,
    sums_to,
    unit_cost,
    whole_pence,
)
from gametrace.domain.findings import Severity
from gametrace.facts.costing import points_for, value_points


def lb(pounds: int, ounces: int = 0) -> int:
    return pounds * 16 + ounces


def a_pound(pence: str) -> Fraction:
    """Pence a pound as pence a thousand ounces, which is what 'a kilo' is when ounces stand for grams."""
    return Fraction(pence) * 1000 / 16


def per_lb(test: YieldTest) -> Fraction:
    return test.usable_per_kg * 16 / 1000 / 100


# Exercise 6.3 of a textbook on food cost control (student's answer, scribd.com 705737293): 12 lb at 6.65.
def test_the_lamb_loin_recomputes_without_an_error() -> None:
    parts = (
        YieldPart("fat", lb(3)),
        YieldPart("kidneys", lb(1), a_pound("610")),
        YieldPart("flanks", lb(1, 8), a_pound("460")),
        YieldPart("loss", lb(0, 8)),
    )
    loin = YieldTest(7980, lb(12), parts, lb(6))
    assert loin.grams_missing() == 0
    assert loin.credits == 1300
    assert loin.usable_pence == 6680
    assert loin.usable_share == Fraction(1, 2)
    assert round(per_lb(loin), 4) == Fraction("11.1333")
    assert round(loin.factor, 3) == Fraction("1.674")
    portion = portion_cost(loin.usable_pence, lb(6), 5)
    assert round(portion / 100, 3) == Fraction("3.479")
    assert round(portion / Fraction("665"), 3) == Fraction("0.523")


RIB = YieldTest(
    12361,
    lb(38, 12),
    (
        YieldPart("fat", lb(6, 8)),
        YieldPart("bones", lb(4, 4), a_pound("32")),
        YieldPart("short ribs", lb(3, 4), a_pound("149")),
        YieldPart("chopped", lb(2, 8), a_pound("159")),
        YieldPart("loss", lb(0, 4)),
    ),
    lb(22),
)


# solutioninn.com 9721802: rib of beef, 38 lb 12 oz at 3.19.
def test_the_rib_of_beef_costs_5_156_a_pound_and_10_oz_costs_3_223() -> None:
    assert RIB.grams_missing() == 0
    assert round(per_lb(RIB), 3) == Fraction("5.156")
    assert round(RIB.factor, 3) == Fraction("1.616")
    portion = portion_cost(RIB.usable_pence, RIB.usable_grams, 10)
    assert round(portion / 100, 3) == Fraction("3.223")
    assert round(portion / 319, 3) == Fraction("1.010")


# The same page's published answer typed the 22 pounds of the yield as 22 ounces of portion: 7.090.
def test_the_published_slip_of_22_for_10_is_caught() -> None:
    assert round(portion_cost(RIB.usable_pence, RIB.usable_grams, 22) / 100, 3) == Fraction("7.090")
    (found,) = portion_findings(22, RIB.usable_grams)
    assert (found.code, found.severity) == ("portion-is-the-yield", Severity.ASK)
    assert "ounces read for pounds" in found.sentence
    in_grams = portion_findings(round(22 * 28.3495), round(22 * 453.592))
    assert in_grams[0].code == "portion-is-the-yield"
    assert portion_findings(283, round(22 * 453.592)) == ()


def test_kilos_typed_as_grams_and_other_impossible_portions_are_caught() -> None:
    assert portion_findings(22, 22_000)[0].code == "portion-is-the-yield"
    assert portion_findings(900, 22_000)[0].code == "portion-unusual"
    assert portion_findings(0, 22_000)[0].severity == Severity.STOP
    assert portion_findings(500, 400)[0].severity == Severity.STOP
    assert portion_findings(160, 22_000) == ()


# A college's forequarter sheet (scribd.com 565962204): 81 lb at 4.50; answers at quesba.com 812575.
def test_the_forequarter_follows_and_its_published_wrong_answers_do_not() -> None:
    parts = (
        YieldPart("ground", lb(18), a_pound("189")),
        YieldPart("stew", lb(13), a_pound("225")),
        YieldPart("fat", lb(10), a_pound("20")),
        YieldPart("brisket", lb(12), a_pound("195")),
        YieldPart("scrap", lb(4)),
    )
    quarter = YieldTest(36450, lb(81), parts, lb(24))
    assert quarter.grams_missing() == 0
    assert quarter.credits == 8867
    assert quarter.usable_pence == 27583
    assert round(per_lb(quarter), 3) == Fraction("11.493")
    assert round(quarter.factor, 3) == Fraction("2.554")
    portion = portion_cost(quarter.usable_pence, lb(24), 7) / 100
    assert round(portion, 3) == Fraction("5.028")
    true_cost = (Fraction("5.03") + Fraction("1.40")) * Fraction("1.10")
    assert round(true_cost, 3) == Fraction("7.073")
    assert abs(Fraction("7.07") / Fraction("0.305") - Fraction("23.18")) < Fraction("0.005")
    for wrong in ("11.19", "4.80", "6.29"):
        assert Fraction(wrong) not in (round(per_lb(quarter), 2), round(portion, 2), round(true_cost, 2))
    ratios = {part.name: round(Fraction(part.grams, lb(81)) * 100, 2) for part in parts}
    assert ratios["stew"] == Fraction("16.05") != Fraction("16.04")
    assert ratios["fat"] == Fraction("12.35") != Fraction("12.34")
    assert ratios["scrap"] == Fraction("4.94") != Fraction("4.93")


# transtutors.com 2575738: ten legs of veal, 247 lb 8 oz for 814.28; the answers are our own sums.
def test_the_veal_legs_are_repriced_by_their_factor() -> None:
    parts = (
        YieldPart("fat", lb(41, 8), a_pound("10")),
        YieldPart("bone", lb(56, 8), a_pound("38")),
        YieldPart("shank", lb(19, 12), a_pound("149")),
        YieldPart("trim", lb(47, 4), a_pound("189")),
        YieldPart("loss", lb(2, 8)),
    )
    veal = YieldTest(81428, lb(247, 8), parts, lb(80))
    assert veal.grams_missing() == 0
    assert round(veal.credits / 100, 2) == Fraction("144.35")
    assert round(veal.usable_pence / 100, 2) == Fraction("669.93")
    assert round(veal.usable_share * 100, 2) == Fraction("32.32")
    assert round(per_lb(veal), 3) == Fraction("8.374")
    factor = veal.factor
    assert round(factor, 3) == Fraction("2.545")
    for price, ounces, cost in (("3.19", 5, "2.537"), ("3.89", 5, "3.094"), ("4.25", 9, "6.085")):
        assert abs(Fraction(price) * factor * ounces / 16 - Fraction(cost)) < Fraction("0.001")
    assert round(Fraction("2.65") / (Fraction("3.69") * factor) * 16, 2) == Fraction("4.51")


# A hunting school's roe buck, 16.00 kg for 80.00: 11.80 kg on the bone, 7.95 kg boneless (10.06 printed).
ROE = {
    "roe-buck-low": {"saddle": 2170, "haunch": 5040, "shoulder": 2130, "breast": 2450},
    "roe-buck-high": {"saddle": 1100, "haunch": 4060, "shoulder": 1400, "breast": 1390},
}


def test_the_roe_buck_costs_6_78_on_the_bone_and_10_06_boneless() -> None:
    assert round(unit_cost(8000, 11_800) / 100, 2) == Fraction("6.78")
    assert round(unit_cost(8000, 7950) / 100, 2) == Fraction("10.06")


# The same, spread by the indices its printed takings fit; the pence are our own sums (the boneless
# figures came to 80.01 when each was rounded by itself).
@pytest.mark.parametrize(
    ("table", "pence"),
    [
        ("roe-buck-low", {"saddle": 2276, "haunch": 3965, "shoulder": 1117, "breast": 642}),
        ("roe-buck-high", {"saddle": 1770, "haunch": 4357, "shoulder": 1127, "breast": 746}),
    ],
)
def test_the_roe_buck_by_points_sums_to_80_00(table: str, pence: dict[str, int]) -> None:
    points = value_points(table)
    lots = {cut: Costed(grams, points[cut].points) for cut, grams in ROE[table].items()}
    spread_out = spread_by_points(8000, lots)
    assert sums_to(8000, list(spread_out.values()))
    assert spread_out == pence


# Horngren, Cost Accounting, problem 16-16: joint cost 100.00, by what each product fetches and by weight.
POULTRY = {
    "breast": Costed(100, 110),
    "wings": Costed(20, 40),
    "thighs": Costed(40, 70),
    "bones": Costed(80, 20),
    "feathers": Costed(10, 10),
}


def test_a_joint_cost_is_rounded_last() -> None:
    by_value = spread_by_sales_value(10_000, POULTRY)
    assert by_value == {"breast": 6748, "wings": 491, "thighs": 1718, "bones": 982, "feathers": 61}
    assert sum(by_value.values()) == 10_000
    rounded_first = {"breast": 6750, "wings": 490, "thighs": 1720, "bones": 980, "feathers": 60}
    assert by_value != rounded_first
    by_weight = spread_by_weight(10_000, {name: lot.grams for name, lot in POULTRY.items()})
    assert by_weight == {"breast": 4000, "wings": 800, "thighs": 1600, "bones": 3200, "feathers": 400}


# Common practice, no source: a fallow doe of 24.0 kg at 3.00; loin 4, haunch 2, shoulder 1.2, mince 1.
def test_the_fallow_doe_of_72_00_by_points_and_by_weight() -> None:
    grams = {"haunch": 7000, "loin": 2000, "shoulder": 3000, "mince": 3000}
    points = {cut: points_for(cut) for cut in grams}
    lots = {cut: Costed(grams[cut], held.points) for cut, held in points.items() if held is not None}
    spread_out = spread_by_points(7200, lots)
    assert sum(spread_out.values()) == 7200
    whole = sum(lot.grams * Fraction(lot.value) for lot in lots.values())
    exact = {cut: 7200 * lot.grams * Fraction(lot.value) / whole for cut, lot in lots.items()}
    assert all(abs(spread_out[cut] - share) < 1 for cut, share in exact.items())
    a_kilo = {cut: round(unit_cost(share, grams[cut]) / 100, 2) for cut, share in exact.items()}
    assert a_kilo == {
        "haunch": Fraction("5.03"),
        "loin": Fraction("10.07"),
        "shoulder": Fraction("3.02"),
        "mince": Fraction("2.52"),
    }
    assert unit_cost(7200, 15_000) == 480
    assert cost_factor(unit_cost(7200, 15_000), 300) == Fraction(8, 5)


def test_a_cut_without_points_takes_those_of_its_joint() -> None:
    topside, noisettes = points_for("topside"), points_for("noisettes")
    assert topside is not None
    assert noisettes is not None
    assert (topside.points, noisettes.points) == (2, 4)
    assert points_for("skin") is None


AMOUNTS = st.dictionaries(st.integers(0, 50), st.integers(0, 500_000), min_size=1, max_size=12)


@given(total=st.integers(-(10**6), 10**7), grams=AMOUNTS)
def test_every_spread_sums_and_no_part_is_a_penny_off(total: int, grams: dict[int, int]) -> None:
    whole = sum(grams.values())
    if not whole:
        return
    for method in ("weight", "points", "sales value"):
        out = spread(method, total, {key: Costed(g, 3) for key, g in grams.items()})
        assert sum(out.values()) == total
        assert all(abs(out[key] - Fraction(total * g, whole)) < 1 for key, g in grams.items())
        assert all(out[key] == 0 for key, g in grams.items() if not g)


def test_where_nothing_counts_the_cost_lies_by_weight_and_nowhere_if_there_is_none() -> None:
    assert spread_by_points(100, {"a": Costed(1, 0), "b": Costed(3, 0)}) == {"a": 25, "b": 75}
    assert spread_by_weight(0, {}) == {}
    with pytest.raises(ValueError, match="nothing to carry"):
        spread_by_weight(1, {})
    with pytest.raises(ValueError, match="less than nothing"):
        spread_by_weight(1, {"a": -1, "b": 5})
    with pytest.raises(ValueError, match="no way of spreading"):
        spread("mood", 1, {"a": Costed(1)})
    with pytest.raises(ValueError):
        unit_cost(1, 0)
    with pytest.raises(ValueError):
        cost_factor(Fraction(1), 0)


def test_ties_go_to_the_first_named() -> None:
    third = Fraction(100, 3)
    assert whole_pence({"a": third, "b": third, "c": third}, 100) == {"a": 34, "b": 33, "c": 33}
