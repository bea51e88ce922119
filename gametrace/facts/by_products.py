"""What is not for food: categories, the usual category of each thing, and the paper with a load.

The category is a default with its standing. The kitchen settles it with its local authority.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows, one_of


@dataclass(frozen=True, slots=True)
class Category:
    """A category of animal by-product and what falls under it."""

    id: str
    category: int
    name: str
    meaning: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class ByProduct:
    """The usual category of one thing that is not for food."""

    id: str
    category: int
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class DocumentField:
    """One thing the commercial document must show."""

    id: str
    name: str
    source: str
    status: str
    note: str


@cache
def categories() -> tuple[Category, ...]:
    """The three categories."""
    return tuple(
        Category(
            id=row["id"],
            category=row["category"],
            name=row["name"],
            meaning=row["meaning"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("by_products", "category")
    )


@cache
def by_products() -> tuple[ByProduct, ...]:
    """The default category of everything held."""
    return tuple(
        ByProduct(row["id"], row["category"], row["source"], row["status"], row["note"])
        for row in checked_rows("by_products", "default")
    )


def by_product(by_product_id: str) -> ByProduct:
    """The default for one thing."""
    for held in by_products():
        if held.id == by_product_id:
            return held
    raise one_of("by-product", by_product_id, tuple(one.id for one in by_products()))


@cache
def document_fields() -> tuple[DocumentField, ...]:
    """What the commercial document must show, in its order."""
    return tuple(
        DocumentField(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("by_products", "document_field")
    )


@cache
def years_to_keep_papers() -> int:
    """How long by-product papers are kept, at least."""
    years: int = checked_rows("by_products", "retention")[0]["years"]
    return years
