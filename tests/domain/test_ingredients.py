"""Other ingredients, their lots and allergens."""

from __future__ import annotations

from datetime import date

import pytest

from gametrace.domain.findings import Severity
from gametrace.domain.ingredients import (
    Ingredient,
    allergens_in,
    allergens_text,
    ingredient_findings,
    suggested_allergens,
)
from gametrace.facts import UnknownFact
from gametrace.facts.allergens import allergens

TODAY = date(2026, 11, 25)
RUSK = Ingredient("rusk", 200, "L1", allergens=frozenset({"gluten"}))
SALT = Ingredient("salt", 20, "L2", allergens=frozenset())


# Regulation 1169/2011 Annex II (from memory): fourteen, in this order.
def test_there_are_fourteen_in_the_order_of_the_law() -> None:
    assert [one.id for one in allergens()] == [
        "gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk",
        "nuts", "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs",
    ]  # fmt: skip


def test_allergens_are_gathered_once_each_in_order() -> None:
    mustard = Ingredient("mustard", 5, "L3", allergens=frozenset({"mustard", "gluten"}))
    assert [one.id for one in allergens_in([mustard, SALT, RUSK])] == ["gluten", "mustard"]
    assert allergens_text([RUSK, Ingredient("stock")]) == (
        "Contains: cereals containing gluten. Not known for: stock."
    )
    assert allergens_text([SALT]) == "No allergen declared."


@pytest.mark.parametrize(
    ("name", "asked"),
    [
        ("plain flour", ["gluten"]),
        ("Red Wine", ["sulphites"]),
        ("pale ale", ["gluten"]),
        ("eggs", ["eggs"]),
        ("eggplant", []),
        ("celeriac", ["celery"]),
        ("soy sauce", ["soybeans"]),
        ("juniper", []),
        ("codeine", []),
    ],
)
def test_a_name_asks_after_what_may_be_forgotten(name: str, asked: list[str]) -> None:
    assert [one.id for one in suggested_allergens(name)] == asked


def test_what_is_missing_of_an_ingredient_is_asked_for() -> None:
    assert ingredient_findings(RUSK, TODAY) == ()
    codes = [one.code for one in ingredient_findings(Ingredient("butter"), TODAY)]
    assert codes == ["ingredient-no-lot", "allergens-not-stated"]
    (forgotten,) = ingredient_findings(Ingredient("butter", lot="L4", allergens=frozenset()), TODAY)
    assert "suggests milk" in forgotten.sentence
    old = Ingredient("salt", lot="L5", allergens=frozenset(), last_day=date(2026, 11, 24))
    assert ingredient_findings(old, TODAY)[0].severity == Severity.STOP


def test_an_ingredient_without_a_name_or_with_an_unknown_allergen_is_refused() -> None:
    with pytest.raises(ValueError):
        Ingredient(" ")
    with pytest.raises(UnknownFact, match="no allergen called"):
        Ingredient("x", allergens=frozenset({"garlic"}))
