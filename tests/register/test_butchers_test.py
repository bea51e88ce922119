"""Published yield tests played through the register: a pound stands as a kilo, its price as one a kilo."""

from __future__ import annotations

from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import pounds_text
from gametrace.register import acts, questions
from gametrace.register.acts import Out


def bought(house: House, grams: int, pence_per_kg: int, parts: dict[str, int], prices: dict[str, int]) -> str:
    for product, pence in prices.items():
        acts.set_policy(house.reg, by=house.tutor, name=f"price.{product}", value=str(pence), reason="test")
    code = house.dressed(grams=grams, pence_per_kg=pence_per_kg, species="red", age_class="hind")
    house.out(code, *(Out(*one) for one in parts.items()))
    if house.left(code):
        acts.close_lot(house.reg, by=house.tutor, code=code, reason="loss in cutting")
    return code


def test_the_lamb_loin(house: House) -> None:
    # 12 lb at 6.65 = 79.80; fat 3 lb, kidneys 1 lb at 6.10, flanks 1 lb 8 oz at 4.60, loss 8 oz, usable 6 lb:
    # 66.80, 11.13 a pound, factor 1.67. scribd.com/document/705737293 (exercise 6.3), seen.
    parts = {"fat": 3_000, "kidneys": 1_000, "flank": 1_500, "loin": 6_000}
    loin = bought(house, 12_000, 665, parts, {"kidneys": 610, "flank": 460})
    test = questions.butchers_test(house.reg, loin, "loin")
    assert test.bought_pence == 7_980
    assert test.usable_pence == 6_680
    assert test.grams_missing() == 500  # the loss in cutting stays in sight
    assert round(test.usable_per_kg, 1) == Fraction("1113.3")
    assert round(test.factor, 2) == Fraction("1.67")


def test_the_rib_of_beef_and_its_slip(house: House) -> None:
    # 38 lb 12 oz at 3.19 = 123.61; bones 4 lb 4 oz at 0.32, short ribs 3 lb 4 oz at 1.49, chopped 2 lb 8 oz
    # at 1.59, fat 6 lb 8 oz, loss 4 oz, oven-ready 22 lb: 5.156 a pound. solutioninn.com 9721802, seen. The
    # published answer took 22, the pounds, for the portion of 10 oz.
    parts = {"fat": 6_500, "stock-bones": 4_250, "riblets": 3_250, "trim": 2_500, "saddle": 22_000}
    prices = {"stock-bones": 32, "riblets": 149, "trim": 159}
    rib = bought(house, 38_750, 319, parts, prices)
    test = questions.butchers_test(house.reg, rib, "saddle")
    assert test.bought_pence == 12_361
    assert round(test.usable_per_kg, 1) == Fraction("515.6")
    dish = house.dish((_of(house, rib, "saddle"), None), portions=1_000)
    assert "portion-is-the-yield" in {one.code for one in questions.dish_cost(house.reg, dish).findings}


def _of(house: House, code: str, product: str) -> str:
    rows = questions.cost_picture(house.reg, code).rows
    return next(row.codes[0] for row in rows if row.product == product)


def test_the_forequarter_and_its_published_wrong_answers(house: House) -> None:
    # 81 lb at 4.50 = 364.50; ground 18 at 1.89, stew 13 at 2.25, fat 10 at 0.20, brisket 12 at 1.95, scrap 4:
    # 88.67 credited, rib 24 lb: 275.83, 11.493 a pound, factor 2.554. scribd.com/document/565962204, seen.
    # The sheet's own 11.19 a pound does not follow.
    parts = {
        "trim": 18_000,
        "dice": 13_000,
        "breast": 12_000,
        "belly": 10_000,
        "condemned": 4_000,
        "rack": 24_000,
    }
    prices = {"trim": 189, "dice": 225, "breast": 195, "belly": 20}
    test = questions.butchers_test(house.reg, bought(house, 81_000, 450, parts, prices), "rack")
    assert pounds_text(round(test.credits)) == "£88.67"
    assert pounds_text(round(test.usable_pence)) == "£275.83"
    assert round(test.usable_per_kg, 1) == Fraction("1149.3")
    assert round(test.usable_per_kg) != 1_119
    assert round(test.factor, 3) == Fraction("2.554")


def test_the_veal_legs_are_repriced_by_their_factor(house: House) -> None:
    # Ten legs of 247 lb 8 oz for 814.28 (3.29 a pound); fat 41 8 at 0.10, bone 56 8 at 0.38, shank 19 12 at
    # 1.49, trim 47 4 at 1.89, loss 2 8, usable 80 lb. transtutors.com 2575738, seen; the answers (144.35,
    # 669.93, factor 2.545) are our own sums.
    parts = {"belly": 41_500, "stock-bones": 56_500, "hind-shank": 19_750, "trim": 47_250, "topside": 80_000}
    prices = {"belly": 10, "stock-bones": 38, "hind-shank": 149, "trim": 189}
    test = questions.butchers_test(house.reg, bought(house, 247_500, 329, parts, prices), "topside")
    assert abs(test.bought_pence - 81_428) <= 1  # 3.29 a pound, as the price a kilo is whole pence
    assert round(test.credits) == 14_435
    assert round(test.usable_share * 10_000) == 3_232
    assert round(test.factor, 3) == Fraction("2.545")


def test_a_price_that_is_missing_is_named(house: House) -> None:
    code = bought(house, 12_000, 665, {"flank": 6_000, "loin": 6_000}, {})
    with pytest.raises(Refusal, match="No sales value is set for flank"):
        questions.butchers_test(house.reg, code, "loin")
    with pytest.raises(Refusal, match="Nothing was cut"):
        questions.butchers_test(house.reg, code, "neck")


def test_a_beast_without_a_price_has_no_test(house: House) -> None:
    code = house.dressed(pence_per_kg=None)
    house.out(code, Out("loin", 40_000))
    with pytest.raises(Refusal, match="No price is written down"):
        questions.butchers_test(house.reg, code, "loin")


def test_a_joint_cost_by_sales_value_against_weight(house: House) -> None:
    # A joint cost of 42,000 for 300 lb of one meat at 1.50 and 700 lb of another at 0.75 a pound: by weight
    # 12,600 and 29,400; by sales value 450 to 525, 19,384.62 and 22,615.38. The relation of any text on
    # joint costs; figures worked here.
    prices = {"loin": 1_500, "neck": 750}
    code = bought(house, 10_000, 420, {"loin": 3_000, "neck": 7_000}, prices)
    picture = questions.cost_picture(house.reg, code)
    rows = {row.product: row.pence for row in picture.rows}
    assert {cut: pence["weight"] for cut, pence in rows.items()} == {"loin": 1_260, "neck": 2_940}
    assert {cut: pence["sales value"] for cut, pence in rows.items()} == {"loin": 1_938, "neck": 2_262}
