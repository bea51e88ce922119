"""Shares of what went in, beside published rows and the larder's own."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.yields import (
    boneless_of_bone_in,
    closes,
    compare,
    few_count,
    hundredths,
    median_of,
    percent_text,
    published_closes,
    shares,
    weights_close,
)
from gametrace.facts.yields import published_yield, published_yields, spreads


# Massey University thesis 1985: neck 12.6, flank 15.4, shoulder 17.8, saddle 15.5, haunch 39.4.
def test_the_fallow_row_comes_to_100_7_and_warns_without_being_rescaled() -> None:
    row = published_yield("fallow-cuts")
    assert [part.low for part in row.parts] == [1260, 1540, 1780, 1550, 3940]
    found = published_closes(row)
    assert found is not None
    assert found.severity == Severity.ASK
    assert "100.70 %" in found.sentence
    assert "nothing was rescaled" in found.sentence
    assert "Massey" in found.source


# Kuzelov and Atanasova 2011: both rows close at 100.00. USDA Bulletin 300: 50 + 50.
@pytest.mark.parametrize(
    "row", ["rabbit-female-cuts", "rabbit-male-cuts", "lamb-halves", "roe-boneless-cuts"]
)
def test_the_rows_that_close_are_passed_in_silence(row: str) -> None:
    assert published_closes(published_yield(row)) is None


# A hunting school's roe buck: the printed shares on the bone come to 99.95.
def test_the_roe_row_on_the_bone_is_five_hundredths_short() -> None:
    found = published_closes(published_yield("roe-bone-in-cuts"))
    assert found is not None
    assert "99.95 %" in found.sentence


# USDA Bulletin 300: legs 33 + loins 17 = 50; racks 12 + chucks 23.5 + breasts 14.5 = 50.
def test_the_lamb_tree_closes_at_both_levels() -> None:
    halves = published_yield("lamb-halves")
    for half, below in (("hindsaddle", "lamb-hindsaddle"), ("foresaddle", "lamb-foresaddle")):
        held = halves.share(half)
        assert held is not None
        assert held.low == sum(part.low for part in published_yield(below).parts) == 5000


# Massey 1985 at 13, 17 and 25 months: what is neither muscle nor fat is 17.9, 19.1 and 17.6.
@pytest.mark.parametrize(("months", "rest"), [(13, 1790), (17, 1910), (25, 1760)])
def test_what_is_left_of_the_fallow_tissues_is_bone_and_waste(months: int, rest: int) -> None:
    row = published_yield(f"fallow-tissue-{months}")
    assert 10_000 - sum(part.low for part in row.parts) == rest


# Stanisz et al. 2015: meat and fat 77.9 to 78.5, bone 21.5 to 22.1.
def test_the_fallow_pair_closes_crosswise() -> None:
    meat, bone = published_yield("fallow-tissue-31").parts
    assert meat.low + bone.high == meat.high + bone.low == 10_000


# The roe buck: 16.00 = 3.19 + 1.00 + 11.80 (10 g short as printed); 11.80 = 7.95 + 3.48 + 0.37.
def test_the_roe_buck_closes_at_the_second_step_and_is_ten_grams_short_at_the_first() -> None:
    first = weights_close({"skin, head, feet": 3190, "trim": 1000, "bone-in": 11_800}, 16_000)
    assert first is not None
    assert "0.01 kg are not accounted for" in first.sentence
    assert weights_close({"boneless": 7950, "bone": 3480, "drying": 370}, 11_800) is None
    over = weights_close({"a": 16_001}, 16_000)
    assert over is not None
    assert "more came out than went in" in over.sentence


# The same: boneless of bone-in 50.7, 80.6, 65.7, 56.7 and 67.4 per cent.
@pytest.mark.parametrize(
    ("boneless", "bone_in", "part", "printed"),
    [
        (1100, 2170, "saddle", "50.7 %"),
        (4060, 5040, "haunch", "80.6 %"),
        (1400, 2130, "shoulder", "65.7 %"),
        (1390, 2450, "breast", "56.7 %"),
        (7950, 11_800, "boneless", "67.4 %"),
    ],
)
def test_boneless_of_bone_in_is_as_the_roe_buck_gives_it(
    boneless: int, bone_in: int, part: str, printed: str
) -> None:
    share = boneless_of_bone_in(boneless, bone_in)
    assert percent_text(share) == printed
    held = published_yield("roe-boneless-of-bone-in").share(part)
    assert held is not None
    assert held.low == hundredths(share)


# Ohio study of 115 white-tails: 6,001.8 of 12,370 lb is 48.52 per cent.
def test_the_ohio_share_recomputes() -> None:
    row = published_yield("deer-boneless-ohio")
    assert row.n == 115
    assert row.parts[0].low == hundredths(Fraction(60_018, 123_700))


def test_a_share_beside_a_source_says_how_far_off_it_is() -> None:
    rows = spreads("fallow", "female", "haunch", "cuts") + spreads("fallow", "unknown", "haunch", "cuts")
    assert [row.id for row in rows] == ["fallow-cuts"]
    (near,) = compare("haunch", Fraction(41, 100), rows)
    assert near.code == "yield-near-published"
    assert "39.4 %; 1.6 % above" in near.sentence
    (far,) = compare("haunch", Fraction(30, 100), rows)
    assert (far.code, far.severity) == ("yield-far-from-published", Severity.ASK)
    (same,) = compare("haunch", Fraction(394, 1000), rows)
    assert same.code == "yield-as-published"
    assert compare("loin", Fraction(1, 10), rows) == ()


def test_no_row_of_another_animal_is_taken_for_a_deer() -> None:
    assert spreads("red", "unknown", "haunch", "cuts") == ()
    assert all(row.animal for row in published_yields())


# Once there are five: common practice, no source.
def test_the_own_median_comes_with_the_fifth_animal_and_a_word_while_there_are_few() -> None:
    own = [Fraction(n, 100) for n in (38, 40, 39, 41)]
    assert median_of(own) is None
    held = median_of([*own, Fraction(37, 100)])
    assert held is not None
    assert (held.median, held.low, held.high, held.count) == (
        Fraction(39, 100),
        Fraction(37, 100),
        Fraction(41, 100),
        5,
    )
    assert held.caution is not None
    even = median_of([Fraction(n, 10) for n in range(1, 11)])
    assert even is not None
    assert even.median == Fraction(11, 20)
    assert even.caution is None
    one = few_count(1)
    assert one is not None
    assert "Only one animal" in one.sentence


@given(st.dictionaries(st.text(max_size=3), st.integers(0, 10**6), max_size=8), st.integers(1, 10**6))
def test_shares_are_exact_and_sum_to_what_was_weighed(parts: dict[str, int], weight_in: int) -> None:
    assert sum(shares(parts, weight_in).values()) == Fraction(sum(parts.values()), weight_in)


@given(st.lists(st.integers(0, 10_000), max_size=6))
def test_shares_close_only_at_ten_thousand(rows: list[int]) -> None:
    named = {str(n): row for n, row in enumerate(rows)}
    assert (closes(named) is None) == (sum(rows) == 10_000)


def test_a_share_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError):
        shares({"a": 1}, 0)
    with pytest.raises(ValueError):
        shares({"a": -1}, 10)


def test_a_percentage_is_rounded_half_up() -> None:
    assert percent_text(Fraction(25, 10_000)) == "0.3 %"
    assert percent_text(Fraction(1, 2), 0) == "50 %"
    assert percent_text(Fraction(-1, 100)) == "-1.0 %"
