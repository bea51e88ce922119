"""What cooks call things: 'fallow doe', 'roe kid', '12 pheasants', 'haunch, left'."""

from __future__ import annotations

from functools import cache

from gametrace.domain.deliveries import Delivery
from gametrace.facts.cut_tree import state as state_called
from gametrace.facts.cuts import product
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called


def animal_name(delivery: Delivery) -> str:
    """The species with its proper word of sex and age; a batch with its count."""
    kind = species_called(delivery.species)
    if delivery.count > 1 or kind.group == "small":
        return f"{kind.name} × {delivery.count}"
    if age := age_name(kind.id, delivery.sex, delivery.age_class):
        return _joined(kind.name, age)
    word = {"male": kind.males, "female": kind.females}.get(delivery.sex, "")
    return _joined(kind.name, word)


@cache
def age_name(species: str, sex: str, age_class: str) -> str:
    """The proper name of an age, 'pricket'; '' where none was given. Remembered: every list asks for it."""
    return next((age.name for age in age_classes(species, sex) if age.id == age_class), "")


def _joined(name: str, word: str) -> str:
    """'roe buck'; 'wild boar, male', where the male's word is in the species' name already."""
    if word and word in name.split():
        return f"{name}, male"
    return word if name in word else f"{name} {word}".strip()


def product_name(product_id: str, side: str = "", state: str = "", *, called: str = "") -> str:
    """'haunch, left, boneless'; `called` is the kitchen's own name for the cut."""
    name = called or product(product_id).name
    return ", ".join(word for word in (name, side, state_called(state).name if state else "") if word)
