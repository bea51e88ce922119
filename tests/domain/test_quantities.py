"""Figures typed by people: read exactly or refused with a sentence, never guessed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import (
    celsius_text,
    kg_figure,
    kg_text,
    kg_to_the_gram,
    parse_grams,
    parse_pence,
    parse_tenths_c,
    pounds_text,
)


@pytest.mark.parametrize(
    ("typed", "grams"),
    [
        ("61.5", 61500),
        ("61,5", 61500),
        ("61.5kg", 61500),
        (" 61,50 KG ", 61500),
        ("61500 g", 61500),
        ("0.005", 5),
        ("61.", 61000),
        ("500", 500_000),
        ("4.6200", 4620),
        ("12 kilos", 12000),
        ("61\u00a0kg", 61000),
    ],
)
def test_a_weight_is_read_in_kilos_unless_grams_are_written(typed: str, grams: int) -> None:
    assert parse_grams(typed) == grams


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "   ",
        "600",
        "-3",
        "1e9",
        "nan",
        "inf",
        "0",
        "1,234.5",
        "61,500 g",
        "12.5 g",
        "0.0005",
        "٦١",
        "🦌",
        "6 1 x",
        "kg",
        "9" * 10_000,
        " " * 10_000,
        "=1+1",
        "\u202e61",
    ],
)
def test_a_doubtful_weight_is_refused_with_a_sentence_at_its_field(typed: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_grams(typed)
    assert caught.value.field == "grams"
    assert caught.value.sentence.endswith(".")
    assert len(str(caught.value)) < 200


def test_six_hundred_kilos_asks_whether_the_point_was_left_out() -> None:
    with pytest.raises(Refusal, match=r"60\.0 kg"):
        parse_grams("600")


@given(st.integers(min_value=1, max_value=500_000))
def test_every_weight_shown_reads_back_as_itself(grams: int) -> None:
    assert parse_grams(kg_text(grams)) == grams
    assert parse_grams(kg_figure(grams).replace(".", ",")) == grams


def test_kilos_show_two_places_and_a_third_only_where_it_speaks() -> None:
    assert [kg_figure(g) for g in (61500, 61505, 0, -300)] == ["61.50", "61.505", "0.00", "-0.30"]


@pytest.mark.parametrize(
    ("typed", "tenths"), [("5.2", 52), ("5,2", 52), ("-1", -10), ("−18.0 °C", -180), ("7c", 70), ("7.00", 70)]
)
def test_a_temperature_is_read_in_tenths(typed: str, tenths: int) -> None:
    assert parse_tenths_c(typed) == tenths


@pytest.mark.parametrize("typed", ["", "52", "5.25", "warm", "nan", "-41", "1e1"])
def test_a_doubtful_temperature_is_refused(typed: str) -> None:
    with pytest.raises(Refusal):
        parse_tenths_c(typed)


@given(st.integers(min_value=-400, max_value=450))
def test_every_temperature_shown_reads_back_as_itself(tenths: int) -> None:
    assert parse_tenths_c(celsius_text(tenths)) == tenths


@pytest.mark.parametrize(
    ("typed", "pence"), [("4.50", 450), ("4,5", 450), ("£4.50", 450), ("450p", 450), ("4", 400), ("0", 0)]
)
def test_a_price_is_read_in_pence(typed: str, pence: int) -> None:
    assert parse_pence(typed) == pence


@pytest.mark.parametrize("typed", ["", "-1", "4.505", "4.5p", "free", "2000", "nan"])
def test_a_doubtful_price_is_refused(typed: str) -> None:
    with pytest.raises(Refusal):
        parse_pence(typed)


@given(st.integers(min_value=0, max_value=100_000))
def test_every_price_shown_reads_back_as_itself(pence: int) -> None:
    assert parse_pence(pounds_text(pence)) == pence


@pytest.mark.parametrize(
    ("grams", "words"), [(0, "0.000 kg"), (10, "0.010 kg"), (61_500, "61.500 kg"), (-20, "-0.020 kg")]
)
def test_a_balance_shows_every_gram(grams: int, words: str) -> None:
    assert kg_to_the_gram(grams) == words
