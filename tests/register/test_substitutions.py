"""Substitutions on the night: what went in too, what did not, to the gram and through every hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.records import Changes


@pytest.fixture
def packs(house: House) -> tuple[str, str]:
    return house.pack(house.dressed(), 1_000), house.pack(house.dressed(), 600)


def change(house: House, dish: str, **given) -> Changes:
    return acts.change_dish(house.reg, by=house.tutor, code=dish, reason="the night", **given)


def test_a_pack_swapped_on_the_night_moves_gram_for_gram(house: House, packs: tuple[str, str]) -> None:
    one, two = packs
    dish = house.dish((one, 900))
    change(house, dish, added=[(two, 500)], not_used=[(one, 300)])
    assert [house.left(code) for code in (one, two, dish)] == [400, 100, 1_100]
    file = questions.dish_file(house.reg, dish)
    assert [(one.lot.code, one.grams) for one in file.inputs] == [(packs[0], 600), (packs[1], 500)]
    shares = {one.share for one in questions.trace(house.reg, dish).animals}
    assert shares == {Fraction(6, 11), Fraction(5, 11)}
    (said,) = file.changes
    assert "0.500 kg" in said.sentence
    assert "the night" in said.sentence
    assert questions.check(house.reg) == ()


def test_what_was_used_up_and_not_used_is_in_stock_again(house: House, packs: tuple[str, str]) -> None:
    one, two = packs
    dish = house.dish((one, None), (two, None))
    assert house.state(two) == "spent"
    change(house, dish, not_used=[(two, None)])
    assert (house.state(two), house.left(two)) == ("ready", 600)
    assert house.dish((two, None), name="Second")


def test_a_hold_leaves_the_dish_with_the_pack_that_was_not_used(house: House, packs: tuple[str, str]) -> None:
    one, two = packs
    dish = house.dish((one, 500), (two, 500))
    left = acts.keep_left_over(house.reg, by=house.tutor, code=dish, portions=3, reason="cold room")
    house.hold(two, reason="bag has blown")
    assert house.state(dish) == house.state(left.code) == "on hold"
    change(house, dish, not_used=[(two, None)])
    assert (house.state(dish), house.state(left.code)) == ("served", "ready")
    assert house.state(two) == "on hold"
    assert questions.check(house.reg) == ()


def test_a_hold_on_the_dish_itself_stays(house: House, packs: tuple[str, str]) -> None:
    one, two = packs
    dish = house.dish((one, 500), (two, 500))
    house.hold(dish)
    change(house, dish, not_used=[(two, None)])
    assert house.state(dish) == "on hold"


def test_a_hold_that_both_packs_carry_stays(house: House) -> None:
    animal = house.dressed()
    one, two = house.pack(animal, 500), house.pack(animal, 600)
    dish = house.dish((one, None), (two, None))
    house.hold(animal)
    change(house, dish, not_used=[(two, None)])
    assert house.state(dish) == "on hold"


def test_what_may_not_go_to_a_plate_is_not_added_on_the_night_either(
    house: House, packs: tuple[str, str]
) -> None:
    one, two = packs
    dish = house.dish((one, 500))
    house.hold(two, reason="bag has blown")
    with pytest.raises(Refusal, match="bag has blown"):
        change(house, dish, added=[(two, None)])


def test_a_lot_younger_than_the_dish_cannot_have_gone_into_it(house: House, packs: tuple[str, str]) -> None:
    dish = house.dish((packs[0], 500))
    late = house.pack(house.dressed(), 400)
    with pytest.raises(Refusal, match="made after"):
        change(house, dish, added=[(late, None)])


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "Nothing is different"),
        ({"not_used": [("one", None)]}, "nothing is in the dish"),
        ({"not_used": [("two", None)]}, "did not go into"),
        ({"not_used": [("one", 901)]}, "went in"),
        ({"added": [("two", 601)]}, "left"),
        ({"portions": 0}, "portions have gone"),
    ],
)
def test_what_cannot_have_been_is_refused_and_changes_nothing(
    house: House, packs: tuple[str, str], given: dict, words: str
) -> None:
    codes = dict(zip(("one", "two"), packs, strict=True))
    dish = house.dish((packs[0], 900))
    for side in ("added", "not_used"):
        if side in given:
            given = {**given, side: [(codes[name], grams) for name, grams in given[side]]}
    with pytest.raises(Refusal, match=words):
        change(house, dish, **given)
    assert house.left(dish) == 900


def test_no_more_stays_out_of_a_dish_than_is_still_in_it(house: House, packs: tuple[str, str]) -> None:
    one, two = packs
    dish = house.dish((one, 500), (two, 100))
    acts.bin_left_over(house.reg, by=house.tutor, code=dish, portions=11, reason="burnt")
    with pytest.raises(Refusal, match="not left over or binned"):
        change(house, dish, not_used=[(one, 300)])


def test_the_number_of_portions_is_put_right_with_a_reason(house: House, packs: tuple[str, str]) -> None:
    dish = house.dish((packs[0], 500))
    acts.serve_dish(house.reg, by=house.tutor, code=dish, portions=12)
    with pytest.raises(Refusal, match="12 portions have gone"):
        change(house, dish, portions=11)
    change(house, dish, portions=14)
    assert questions.dish_file(house.reg, dish).here == 2
