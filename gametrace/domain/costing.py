"""What each part of a beast cost: a sum of pence spread by weight, by value points or by what it would fetch.

Shares are exact and rounding comes last, by largest remainder, so that the parts always come to the sum.
It holds no price, and following a cost through mince and dishes is `gametrace.domain.cost_flow`'s.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.costing import usual_portion_grams
from gametrace.facts.sources import citation

Key = TypeVar("Key")
METHODS = ("weight", "points", "sales value")


@dataclass(frozen=True, slots=True)
class Costed:
    """One part to carry a share: its grams, and what a kilo of it counts for (points, or pence)."""

    grams: int
    value: Fraction | int = 1


def spread_by_weight(total_pence: int, grams: Mapping[Key, int]) -> dict[Key, int]:
    """Every gram alike. Flat, and it makes loin look cheap."""
    return whole_pence(_parts_of(total_pence, grams), total_pence)


def spread_by_points(total_pence: int, lots: Mapping[Key, Costed]) -> dict[Key, int]:
    """By grams times value points; what counts for nothing carries nothing."""
    return _spread_by_value(total_pence, lots)


def spread_by_sales_value(total_pence: int, lots: Mapping[Key, Costed]) -> dict[Key, int]:
    """By what each would fetch: grams times pence a kilo."""
    return _spread_by_value(total_pence, lots)


def _spread_by_value(total_pence: int, lots: Mapping[Key, Costed]) -> dict[Key, int]:
    """Where nothing counts for anything the cost still has to lie somewhere: it lies by weight."""
    weights = {key: lot.grams * Fraction(lot.value) for key, lot in lots.items()}
    if not any(weights.values()):
        return spread_by_weight(total_pence, {key: lot.grams for key, lot in lots.items()})
    return whole_pence(_parts_of(total_pence, weights), total_pence)


def _parts_of(total: int, weights: Mapping[Key, Fraction] | Mapping[Key, int]) -> dict[Key, Fraction]:
    whole = sum(weights.values(), Fraction(0))
    if any(weight < 0 for weight in weights.values()):
        raise ValueError("a part cannot weigh or count for less than nothing")
    if not whole:
        if total:
            raise ValueError("there is nothing to carry the cost")
        return dict.fromkeys(weights, Fraction(0))
    return {key: total * Fraction(weight) / whole for key, weight in weights.items()}


def whole_pence(parts: Mapping[Key, Fraction], total: int) -> dict[Key, int]:
    """`parts` in whole pence that come to `total` exactly, by largest remainder; ties to the first named.

    What is exactly nothing stays nothing. `total` may stand a little off the exact sum, as it does when it
    was itself rounded: the odd pennies then go round once more.
    """
    floors = {key: part.__floor__() for key, part in parts.items()}
    bearing = [key for key, part in parts.items() if part] or list(parts)
    missing = total - sum(floors.values())
    if not bearing:
        if missing:
            raise ValueError("there is nothing to carry the cost")
        return floors
    each, odd = divmod(missing, len(bearing))
    by_remainder = sorted(bearing, key=lambda key: floors[key] - parts[key])  # sorted keeps ties in order
    for place, key in enumerate(by_remainder):
        floors[key] += each + (1 if place < odd else 0)
    return floors


def unit_cost(pence: int | Fraction, grams: int) -> Fraction:
    """Pence a kilo, exactly."""
    if grams <= 0:
        raise ValueError("a cost a kilo needs a weight")
    return Fraction(pence) * 1000 / grams


def portion_cost(pence: int | Fraction, grams: int, portion_grams: int) -> Fraction:
    """What a portion of it costs in pence, exactly."""
    return unit_cost(pence, grams) * portion_grams / 1000


def cost_factor(cost_per_kg: Fraction, bought_per_kg: Fraction | int) -> Fraction:
    """How many times the price bought at the usable meat costs; multiply a new price by it to cost again."""
    if bought_per_kg <= 0:
        raise ValueError("a factor needs a price bought at")
    return cost_per_kg / Fraction(bought_per_kg)


@dataclass(frozen=True, slots=True)
class YieldPart:
    """One thing weighed off that is not the main cut, with what a kilo of it is credited at."""

    name: str
    grams: int
    pence_per_kg: Fraction | int = 0

    @property
    def credit(self) -> Fraction:
        """Its whole credit in pence, exactly."""
        return self.grams * Fraction(self.pence_per_kg) / 1000


@dataclass(frozen=True, slots=True)
class YieldTest:
    """A butcher's test: bought at, what came off and is credited, and what the usable rest then costs."""

    bought_pence: int
    bought_grams: int
    parts: tuple[YieldPart, ...]
    usable_grams: int

    @property
    def credits(self) -> Fraction:
        return sum((part.credit for part in self.parts), Fraction(0))

    @property
    def usable_pence(self) -> Fraction:
        return self.bought_pence - self.credits

    @property
    def usable_share(self) -> Fraction:
        return Fraction(self.usable_grams, self.bought_grams)

    @property
    def usable_per_kg(self) -> Fraction:
        return unit_cost(self.usable_pence, self.usable_grams)

    @property
    def factor(self) -> Fraction:
        return cost_factor(self.usable_per_kg, unit_cost(self.bought_pence, self.bought_grams))

    def grams_missing(self) -> int:
        """What the parts fall short of the weight bought; below nothing where they come to more."""
        return self.bought_grams - self.usable_grams - sum(part.grams for part in self.parts)


# A figure typed in the small unit that belongs to the large one: grams for kilos, ounces for pounds.
_UNIT_SLIPS = ((1000, "kilos", "grams"), (16, "pounds", "ounces"))


def portion_findings(portion_grams: int, usable_grams: int) -> tuple[Finding, ...]:
    """Whether a portion can be meant: not the whole weight in a smaller unit, nor far from any portion."""
    usual = usual_portion_grams()
    cited, status = citation(usual.source), usual.status
    if portion_grams <= 0 or portion_grams > usable_grams:
        sentence = f"A portion of {portion_grams} g cannot be cut from {usable_grams} g."
        return (Finding("portion-impossible", Severity.STOP, sentence, "Type the portion in grams."),)
    for times, large, small in _UNIT_SLIPS:
        if abs(portion_grams * times - usable_grams) <= times // 2 + 1:
            sentence = (
                f"The portion, {portion_grams} g, is the whole usable weight with {small} read for {large}."
            )
            ask = "Type the weight of one portion, not the weight of all of it."
            return (Finding("portion-is-the-yield", Severity.ASK, sentence, ask, cited, status),)
    if not usual.low <= portion_grams <= usual.high:
        sentence = f"{portion_grams} g is outside what one person is given: {usual.low} to {usual.high} g."
        return (Finding("portion-unusual", Severity.ASK, sentence, "Read the unit again.", cited, status),)
    return ()


def spread(method: str, total_pence: int, lots: Mapping[Key, Costed]) -> dict[Key, int]:
    """The sum spread by a method's name: 'weight', 'points' or 'sales value' (values as the method reads)."""
    if method not in METHODS:
        raise ValueError(f"there is no way of spreading called '{method}'")
    if method == "weight":
        return spread_by_weight(total_pence, {key: lot.grams for key, lot in lots.items()})
    return _spread_by_value(total_pence, lots)


def sums_to(total_pence: int, parts: Sequence[int]) -> bool:
    """Whether parts come to the sum; what every sheet of costs checks before it is drawn."""
    return sum(parts) == total_pence
