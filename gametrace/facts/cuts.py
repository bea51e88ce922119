"""What comes off an animal: sides, primals, cuts, trim, by-products and waste.

A starting list that a kitchen may add to. It holds no yields: those come from weighing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.by_products import by_product
from gametrace.facts.loading import BadFact, checked_rows, one_of
from gametrace.facts.species import GROUPS

LEVELS = ("side", "primal", "cut", "trim", "by-product", "waste")


@dataclass(frozen=True, slots=True)
class Product:
    """One thing that can be weighed off an animal. `category` is 0 for meat."""

    id: str
    name: str
    level: str
    parent: str
    groups: tuple[str, ...]
    states: tuple[str, ...]
    is_meat: bool
    by_product: str
    category: int
    source: str
    status: str
    note: str


@cache
def products(group: str | None = None) -> tuple[Product, ...]:
    """Every product, or those of one species group: large, boar or small."""
    if group is not None:
        if group not in GROUPS:
            raise one_of("species group", group, GROUPS)
        return tuple(one for one in products() if group in one.groups)
    held = tuple(
        Product(
            id=row["id"],
            name=row["name"],
            level=row["level"],
            parent=row["parent"],
            groups=tuple(row["groups"]),
            states=tuple(row["states"]),
            is_meat=row["is_meat"],
            by_product=row["by_product"],
            category=by_product(row["by_product"]).category if row["by_product"] else 0,
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("cuts", "product")
    )
    known = {one.id for one in held}
    for one in held:
        if one.level not in LEVELS or (one.parent and one.parent not in known):
            raise BadFact(f"cuts.toml: '{one.id}' has an unknown level or parent.")
        if one.is_meat == bool(one.by_product):
            raise BadFact(f"cuts.toml: '{one.id}' must be meat or a by-product, and not both.")
    return held


@cache
def product(product_id: str) -> Product:
    """The product with this id."""
    for held in products():
        if held.id == product_id:
            return held
    raise one_of("product", product_id, tuple(one.id for one in products()))
