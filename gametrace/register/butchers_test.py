"""A butcher's test of one cut of a beast: all else is credited at its sales value, the cut bears the rest.

The kitchen's own sales values are the credits; by-products count for what they were sold for, or nothing.
"""

from __future__ import annotations

from fractions import Fraction

from gametrace.domain.costing import YieldPart, YieldTest
from gametrace.domain.errors import Refusal
from gametrace.register.costs import NOT_CUT, cost_picture
from gametrace.register.money_figures import pence_per_kg
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.register.yield_reading import part_name


def butchers_test(register: Register, code: str, product: str) -> YieldTest:
    """The test of a product cut from a beast or joint. Refuses where a price is missing, and says which."""
    picture = cost_picture(register, code)
    with register.store.reading() as connection:
        own = policies_of(connection)
    paid = picture.paid["weight"]
    if paid is None:
        raise Refusal(" ".join(picture.why_unknown["weight"]), "Write it on the delivery.", "pence_per_kg")
    usable = sum(row.grams for row in picture.rows if row.product == product)
    if not usable:
        raise Refusal(
            f"Nothing was cut from {picture.code} as {part_name(product)}.", "Choose a cut of it.", "product"
        )
    parts: list[YieldPart] = []
    for row in picture.rows:
        if row.product == product:
            continue
        price: Fraction | int | None = 0
        if row.product == NOT_CUT:
            raise Refusal(f"{picture.code} is not cut to its end.", "Weigh the rest out first.", "code")
        if row.is_meat:
            price, _ = pence_per_kg(own, row.product)
        elif row.pence["weight"] and row.grams:
            price = Fraction(row.pence["weight"] * 1_000, row.grams)  # sold, or good meat in the bin
        if price is None:
            raise Refusal(
                f"No sales value is set for {row.name}.", "Set it under Values, then look again.", "price"
            )
        parts.append(YieldPart(row.name, row.grams, price))
    return YieldTest(paid, picture.grams, tuple(parts), usable)
