"""What goes into mince, sausage or a dish besides game: each with its lot and its allergens.

It tells what was declared and what may have been forgotten. It reads no packet: a person does.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from gametrace.domain.dates import day_words
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.allergens import Allergen, allergen, allergens
from gametrace.facts.sources import citation


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One ingredient. `allergens` is None while nobody has read the packet, and empty when it holds none."""

    name: str
    grams: int = 0
    lot: str = ""  # the maker's own words on the packet
    supplier: str = ""
    allergens: frozenset[str] | None = None
    last_day: date | None = None

    def __post_init__(self) -> None:
        if not self.name.strip() or self.grams < 0:
            raise ValueError("an ingredient has a name and weighs nothing or more")
        for one in self.allergens or ():
            allergen(one)


def allergens_in(ingredients: Iterable[Ingredient]) -> tuple[Allergen, ...]:
    """Every allergen declared in any of them, in the order of the law."""
    declared = {one for ingredient in ingredients for one in ingredient.allergens or ()}
    return tuple(one for one in allergens() if one.id in declared)


def allergens_text(ingredients: Iterable[Ingredient]) -> str:
    """What a label or a dish says: 'Contains: milk, mustard. Not known for: rusk.'"""
    held = tuple(ingredients)
    contains = ", ".join(one.name for one in allergens_in(held))
    unread = ", ".join(one.name for one in held if one.allergens is None)
    said = [f"Contains: {contains}." if contains else "", f"Not known for: {unread}." if unread else ""]
    return " ".join(filter(None, said)) or "No allergen declared."


def ingredient_findings(ingredient: Ingredient, on: date) -> tuple[Finding, ...]:
    """What is missing or doubtful about an ingredient on the day it is used."""
    found: list[Finding] = []
    if ingredient.last_day is not None and on > ingredient.last_day:
        sentence = f"{ingredient.name}: its last day was {day_words(ingredient.last_day)}."
        found.append(Finding("ingredient-past-date", Severity.STOP, sentence, "Take another packet."))
    if not ingredient.lot.strip():
        sentence = f"{ingredient.name} has no lot."
        ask = "Copy the lot from the packet; write 'none on the packet' if there is none."
        found.append(Finding("ingredient-no-lot", Severity.ASK, sentence, ask))
    found.extend(_allergen_findings(ingredient))
    return tuple(found)


def _allergen_findings(ingredient: Ingredient) -> Iterable[Finding]:
    suggested = [
        one for one in suggested_allergens(ingredient.name) if one.id not in (ingredient.allergens or ())
    ]
    names = ", ".join(one.name for one in suggested)
    law = allergens()[0]
    cited, status = citation(law.source), law.status
    if ingredient.allergens is None:
        hint = f" Its name suggests {names}." if names else ""
        sentence = f"Nobody has said which allergens are in {ingredient.name}.{hint}"
        yield Finding(
            "allergens-not-stated", Severity.ASK, sentence, "Read the packet and tick them.", cited, status
        )
    elif names:
        sentence = f"{ingredient.name} suggests {names}, which is not ticked."
        yield Finding("allergen-suggested", Severity.ASK, sentence, "Read the packet again.", cited, status)


def suggested_allergens(name: str) -> tuple[Allergen, ...]:
    """The allergens that words in a name ask after, plural or not."""
    plain = name.casefold()
    return tuple(
        one
        for one in allergens()
        if any(re.search(rf"\b{re.escape(word)}(?:s|es)?\b", plain) for word in one.words)
    )
