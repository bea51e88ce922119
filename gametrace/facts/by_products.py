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
    bin_label: str = ""


@dataclass(frozen=True, slots=True)
class ByProduct:
    """The usual category of one thing that is not for food."""

    id: str
    category: int
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Reading:
    """One source's category for a thing on which sources or circumstances differ."""

    id: str
    item: str
    category: int
    words: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class ByProductRule:
    """A rule of by-products in words."""

    id: str
    name: str
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
            bin_label=row["bin_label"],
        )
        for row in checked_rows("by_products", "category")
    )


def category(number: int) -> Category:
    """Category 1, 2 or 3."""
    for held in categories():
        if held.category == number:
            return held
    raise one_of("category", str(number), tuple(str(one.category) for one in categories()))


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
def _every_reading() -> tuple[Reading, ...]:
    return tuple(
        Reading(
            id=row["id"],
            item=by_product(row["item"]).id,
            category=category(row["category"]).category,
            words=row["words"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("by_products", "reading")
    )


def readings(by_product_id: str) -> tuple[Reading, ...]:
    """Every reading of a thing's category; empty where nobody differs."""
    wanted = by_product(by_product_id).id
    return tuple(one for one in _every_reading() if one.item == wanted)


@cache
def by_product_rules() -> tuple[ByProductRule, ...]:
    """What else the rules say."""
    return tuple(
        ByProductRule(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("by_products", "rule")
    )


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
