"""What a dish's name says of the animals in it."""

from fractions import Fraction

import pytest

from gametrace.domain.menu_claims import AnimalInPot
from gametrace.domain.menu_words import not_named, species_named
from gametrace.domain.portions import grams_of_portions


@pytest.mark.parametrize(
    ("name", "named"),
    [
        ("Roe saddle", {"roe"}),
        ("Cod roe on toast", set()),
        ("Red wine jus", set()),
        ("Red deer pie", {"red"}),
        ("RED VENISON", {"red", "venison"}),
        ("Sika and muntjac", {"sika", "muntjac"}),
        ("Roast partridges", {"grey-partridge", "red-legged-partridge"}),
        ("Wild boar ragù", {"wild-boar"}),
        ("Pigeon breast", {"woodpigeon"}),
        ("Game pie", set()),
        ("Harebell salad", set()),
    ],
)
def test_only_words_that_name_an_animal_count(name: str, named: set[str]) -> None:
    assert species_named(name) == named


def test_venison_covers_every_deer_until_the_name_says_which() -> None:
    pot = [AnimalInPot("a", Fraction(1, 2), "fallow"), AnimalInPot("b", Fraction(1, 2), "wild-boar")]
    assert [one.number for one in not_named("Venison pie", pot)] == ["b"]
    assert [one.number for one in not_named("Roe venison", pot)] == ["a", "b"]
    assert not_named("Game pie", pot) == ()


@pytest.mark.parametrize("portions", range(1, 13))
def test_portions_never_hold_more_than_went_in(portions: int) -> None:
    once = grams_of_portions(portions, of_portions=12, grams_in=1_001, grams_left=1_001)
    assert once * 12 <= 1_001 * portions < (once + 1) * 12
