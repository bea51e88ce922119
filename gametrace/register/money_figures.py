"""The kitchen's own figures about money: how they are called and said, and what holds where none was set.

Prices are only ever the kitchen's own. `policies` holds them and the act that sets one; the page of costs
shows them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from gametrace.domain.costing import METHODS
from gametrace.domain.quantities import pounds_text
from gametrace.facts.costing import ValuePoint, gross_profit_target, points_for, vat_rate
from gametrace.facts.cuts import product, products
from gametrace.facts.sources import citation
from gametrace.register.opening import Register
from gametrace.register.policies import OUR_WEIGHT, Policies, policies_of

MONEY = "Money"
METHOD_WORDS = dict(zip(METHODS, ("by weight", "by value points", "by sales value"), strict=True))
_TITLES = {
    "cost_spread": "How a cost is spread over cuts",
    "priced_on": "Which weight a price a kilo is paid on",
    "vat_hundredths": "Rate of VAT",
    "gross_profit_hundredths": "Gross profit aimed at",
}
_PRICE, _POINTS = "price.", "points."


def is_money(name: str) -> bool:
    """Whether a figure of that name is about money."""
    return name in _TITLES or name.startswith((_PRICE, _POINTS))


def money_title(name: str) -> str:
    """What people call it."""
    if name.startswith(_PRICE):
        return f"Sales value of {product(name.removeprefix(_PRICE)).name}"
    if name.startswith(_POINTS):
        return f"Value points of {product(name.removeprefix(_POINTS)).name}"
    return _TITLES[name]


def money_words(name: str, value: str) -> str:
    """A figure in words; for '' what the program starts with."""
    if name.startswith(_PRICE):
        return f"{pounds_text(int(value))} a kilo" if value else "no price"
    if name.startswith(_POINTS):
        if value:
            return points_words(Fraction(int(value), 10))
        held = points_for(name.removeprefix(_POINTS))
        return points_words(held.points) if held else "no points"
    if name == "cost_spread":
        return METHOD_WORDS[value or Policies().cost_spread]
    if name == "priced_on":
        return value or OUR_WEIGHT
    if name == "vat_hundredths":
        return rate_words(int(value) if value else vat_rate())
    if value:
        return rate_words(int(value))
    target = gross_profit_target()
    return f"{rate_words(target.low)} to {rate_words(target.high)}"


def points_words(points: Fraction) -> str:
    """'1.2 points'."""
    whole, tenths = divmod(int(points * 10), 10)
    figure = f"{whole}.{tenths}" if tenths else str(whole)
    return f"{figure} point" if points == 1 else f"{figure} points"


def rate_words(hundredths: int) -> str:
    """'20 %', '17.5 %'."""
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + " %"


@dataclass(frozen=True, slots=True)
class ProductValue:
    """What a kilo of one product counts for. None where nobody said."""

    product: str
    name: str
    level: str
    pence_per_kg: int | None  # the kitchen's own
    price_from: str  # the joint whose price it takes; '' where its own
    points: Fraction | None
    points_are_own: bool
    points_source: str
    points_status: str


def pence_per_kg(own: Policies, product_id: str) -> tuple[int | None, str]:
    """The kitchen's price of a product or of the joint it comes from, and whose it is."""
    prices = own.prices or {}
    at = product_id
    while at:
        if at in prices:
            return prices[at], at
        at = product(at).parent
    return None, ""


def points_of(own: Policies, product_id: str) -> Fraction | None:
    """The kitchen's points, else those the facts hold; its own for a joint reach its cuts too."""
    tenths = own.points or {}
    at = product_id
    held = points_for(product_id)
    listed_at = held.cut if held else ""
    while at:
        if at in tenths:
            return Fraction(tenths[at], 10)
        if at == listed_at:
            break
        at = product(at).parent
    return held.points if held else None


def product_values(register: Register) -> tuple[ProductValue, ...]:
    """Every kind of meat with its price and points, in the order of the facts."""
    with register.store.reading() as connection:
        own = policies_of(connection)
    return tuple(_value(own, one.id) for one in products() if one.is_meat)


def _value(own: Policies, product_id: str) -> ProductValue:
    one = product(product_id)
    pence, whose = pence_per_kg(own, product_id)
    points, held = points_of(own, product_id), points_for(product_id)
    is_own = bool(points is not None and (held is None or points != held.points))
    said: ValuePoint | None = None if is_own else held
    return ProductValue(
        product=product_id,
        name=one.name,
        level=one.level,
        pence_per_kg=pence,
        price_from="" if whose == product_id else whose,
        points=points,
        points_are_own=is_own,
        points_source=citation(said.source) if said else "",
        points_status=said.status if said else "",
    )
