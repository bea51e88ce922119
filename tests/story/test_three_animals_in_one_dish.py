"""Mince of three animals becomes a dish whose cost and shares are exact to the penny and the gram.

Three beasts at three prices are skinned and cut; their trim is minced together, a little is lost in the
mincer; the mince is packed; a dish takes some of the packs and a class the rest. Then a claim is credited
and a price put right, and every plate follows.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "register"))

from larder_house import House

from gametrace.register import acts, questions
from gametrace.register.acts import Out

BEASTS = ((31_600, 320, 2_417), (38_000, 295, 3_081), (16_010, 450, 1_003))  # grams, pence a kilo, trim


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    yield one
    one.close()


def test_mince_of_three_animals_is_exact_to_the_penny_and_the_gram(house: House) -> None:
    beasts, trims = [], []
    for grams, price, trim in BEASTS:
        code = house.receive(grams=grams, pence_per_kg=price)
        house.dress(code, skin=grams // 10)
        left = grams - grams // 10 - trim
        trims.append(
            house.out(
                code, Out("trim", trim), Out("haunch", left * 3 // 4), Out("bone", left - left * 3 // 4)
            )[0]
        )
        beasts.append(code)
    mince = house.mix(*((trim, None) for trim in trims), grams=6_441)  # 60 g stayed in the mincer
    packs = house.out(
        mince,
        Out("mince", 3_000, is_pack=True),
        Out("mince", 2_001, is_pack=True),
        Out("mince", 1_440, is_pack=True),
    )
    pie = house.dish((packs[0], None), (packs[1], 777), name="Cottage pie", portions=17)
    burgers = acts.make_dish(
        house.reg,
        by=house.tutor,
        name="Burgers",
        occasion_kind="class",
        occasion="Level 2",
        on=date(2026, 11, 13),
        portions=9,
        inputs=[(packs[1], None), (packs[2], None)],
    ).code

    trimmed = sum(trim for _, _, trim in BEASTS)
    for dish in (pie, burgers):
        found = questions.dish_cost(house.reg, dish)
        # every animal's share is its trim over all the trim, in the pie as in the burgers
        assert {one.code: one.share for one in found.animals} == {
            code: Fraction(trim, trimmed) for code, (_, _, trim) in zip(beasts, BEASTS, strict=True)
        }
        assert sum(one.pence or 0 for one in found.animals) == found.food_pence
        assert sum(one.pence["weight"] or 0 for one in found.went_in) == found.food_pence
        traced = questions.trace(house.reg, dish)
        assert sum(animal.grams for animal in traced.animals) == found.grams

    both = [questions.dish_cost(house.reg, dish).food_pence or 0 for dish in (pie, burgers)]
    assert sum(both) == questions.cost(house.reg, mince).pence
    by_hand = sum(_trim_pence(grams, price, trim) for grams, price, trim in BEASTS)
    assert abs(sum(both) - by_hand) < 3  # a rounding to whole pence for each beast, at most half a penny each

    acts.price_dish(house.reg, by=house.tutor, code=burgers, heads=9)
    assert sum(questions.dish_cost(house.reg, burgers).charged) == both[1]

    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=house.supplier, damage_rule="bought price", claim_days=30
    )
    claim = int(
        acts.raise_claim(house.reg, by=house.tutor, code=beasts[1], grams=5_000, reason="saddle shot").code
    )
    acts.settle_claim(house.reg, by=house.tutor, claim=claim, status="credited")
    acts.amend_carcass(
        house.reg, by=house.tutor, code=beasts[2], changes={"pence_per_kg": 500}, reason="invoice read again"
    )
    after = [questions.dish_cost(house.reg, dish).food_pence or 0 for dish in (pie, burgers)]
    assert sum(after) == questions.cost(house.reg, mince).pence
    assert after != both
    acts.rebuild(house.reg)
    assert [questions.dish_cost(house.reg, dish).food_pence for dish in (pie, burgers)] == after


def _trim_pence(grams: int, price: int, trim: int) -> Fraction:
    """What the trim bears by weight: the price of the beast over its meat, bone and skin carrying nothing."""
    left = grams - grams // 10 - trim
    return Fraction(grams * price, 1_000) * Fraction(trim, trim + left * 3 // 4)
