"""What cooks call things: 'fallow doe', 'roe kid', '12 pheasants', 'haunch, left'."""

from __future__ import annotations

from gametrace.domain.deliveries import Delivery
from gametrace.facts.cuts import product
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called


def animal_name(delivery: Delivery) -> str:
    """The species with its proper word of sex and age; a batch with its count."""
    kind = species_called(delivery.species)
    if delivery.count > 1 or kind.group == "small":
        return f"{kind.name} × {delivery.count}"
    for age in age_classes(kind.id, delivery.sex):
        if age.id == delivery.age_class:
            return _joined(kind.name, age.name)
    word = {"male": kind.males, "female": kind.females}.get(delivery.sex, "")
    return _joined(kind.name, word)


def _joined(name: str, word: str) -> str:
    return word if name in word else f"{name} {word}".strip()


def product_name(product_id: str, side: str = "") -> str:
    """'haunch, left'."""
    name = product(product_id).name
    return f"{name}, {side}" if side else name
