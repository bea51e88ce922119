"""The fourteen substances that a guest must be told of, and words in a name that ask after them.

Game holds none of itself. A word never declares an allergen: it only asks whether one was forgotten.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows, one_of


@dataclass(frozen=True, slots=True)
class Allergen:
    """One of the fourteen."""

    id: str
    name: str
    words: tuple[str, ...]
    source: str
    status: str
    note: str


@cache
def allergens() -> tuple[Allergen, ...]:
    """All fourteen, in the order of the law."""
    return tuple(
        Allergen(row["id"], row["name"], tuple(row["words"]), row["source"], row["status"], row["note"])
        for row in checked_rows("allergens", "allergen")
    )


def allergen(allergen_id: str) -> Allergen:
    """The one with this id."""
    for one in allergens():
        if one.id == allergen_id:
            return one
    raise one_of("allergen", allergen_id, tuple(one.id for one in allergens()))
