"""Food cost, gross profit and prices."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.pricing import (
    charged_each,
    cost_each,
    margin,
    price_findings,
    price_for_target,
    price_without_vat,
    vat_in,
)


# Common practice, no source: 2.90 a plate at 14.50 with VAT at 20 %: 12.08 without, 24 % and 76 %.
def test_a_haunch_plate_at_14_50() -> None:
    plate = margin(290, 1450, 2000)
    assert round(plate.net_pence / 100, 2) == Fraction("12.08")
    assert plate.food_cost == Fraction(24, 100)
    assert plate.gross_profit == Fraction(76, 100)
    assert vat_in(1450, 2000) == (1208, 242)


# A consultancy's page on menus: 20 % VAT is taken off by dividing by 1.2; a rate of 0 takes nothing off.
def test_vat_is_taken_off_before_anything_else_and_may_be_nothing() -> None:
    assert price_without_vat(1200, 2000) == 1000
    assert price_without_vat(1200, 0) == 1200
    assert vat_in(1200, 0) == (1200, 0)


# A chef's page, May 2014: the common error is to add 65 % to the cost; cost should be 35 % of the price.
def test_adding_the_target_to_the_cost_is_told_from_reaching_it() -> None:
    assert price_for_target(350, 6500, 0) == 1000
    (found,) = price_findings(350, 578, 0)
    assert found.code == "price-markup-for-margin"
    assert "£10.00 would reach it" in found.what_to_do
    (low,) = price_findings(350, 700, 0)
    assert low.code == "price-below-target"
    assert "65 %" in low.sentence
    (loss,) = price_findings(350, 300, 0)
    assert loss.code == "price-below-cost"
    assert price_findings(350, 1000, 0) == ()
    assert price_findings(350, 700, 0, target_hundredths=5000) == ()
    assert "62.5 %" in price_findings(350, 700, 0, target_hundredths=6250)[0].sentence


@given(
    cost=st.integers(0, 100_000),
    target=st.integers(0, 9_900),
    vat=st.sampled_from([0, 500, 1250, 2000]),
    step=st.sampled_from([1, 5, 50]),
)
def test_the_price_reaches_its_target_and_a_step_less_does_not(
    cost: int, target: int, vat: int, step: int
) -> None:
    price = price_for_target(cost, target, vat, step)
    assert price % step == 0
    if price:
        assert margin(cost, price, vat).gross_profit >= Fraction(target, 10_000)
    if price > step:
        assert margin(cost, price - step, vat).gross_profit < Fraction(target, 10_000)


@given(price=st.integers(0, 10**6), vat=st.integers(0, 10_000))
def test_net_and_vat_come_to_the_price(price: int, vat: int) -> None:
    assert sum(vat_in(price, vat)) == price


@given(cost=st.integers(0, 10**6), heads=st.integers(1, 60))
def test_a_class_is_charged_the_whole_cost_a_penny_apart_at_most(cost: int, heads: int) -> None:
    charged = charged_each(cost, heads)
    assert sum(charged) == cost
    assert max(charged) - min(charged) <= 1
    assert cost_each(cost, heads) * heads == cost


def test_what_has_no_price_or_no_heads_is_refused() -> None:
    for wrong in (lambda: cost_each(1, 0), lambda: margin(1, 0, 0), lambda: price_for_target(1, 10_000, 0)):
        with pytest.raises(ValueError):
            wrong()
    with pytest.raises(ValueError):
        price_without_vat(1, -1)
