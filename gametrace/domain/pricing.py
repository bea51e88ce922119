"""What a dish costs and what it should be sold at: food cost and gross profit on the price without VAT.

Rates and shares are whole hundredths of a per cent (2000 is 20 %), money is pence, and nothing is a float.
It knows no price and gives no advice on tax.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from gametrace.domain.costing import whole_pence
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import pounds_text
from gametrace.facts.costing import gross_profit_target
from gametrace.facts.sources import citation

_WHOLE = 10_000  # hundredths of a per cent


def _rate(hundredths: int) -> Fraction:
    if not 0 <= hundredths < 100 * _WHOLE:
        raise ValueError("a rate of VAT is nothing or more")
    return Fraction(hundredths, _WHOLE)


def price_without_vat(price_pence: int, vat_hundredths: int) -> Fraction:
    """What the kitchen keeps of a price on the menu, exactly. A rate of 0 takes nothing off."""
    return Fraction(price_pence) / (1 + _rate(vat_hundredths))


def vat_in(price_pence: int, vat_hundredths: int) -> tuple[int, int]:
    """The price parted into whole pence without VAT and of VAT; the two always come to the price."""
    net = price_without_vat(price_pence, vat_hundredths)
    parts = whole_pence({"net": net, "vat": price_pence - net}, price_pence)
    return parts["net"], parts["vat"]


@dataclass(frozen=True, slots=True)
class Margin:
    """Food cost and gross profit of one portion. Shares are of the price without VAT."""

    cost_pence: Fraction
    net_pence: Fraction

    @property
    def food_cost(self) -> Fraction:
        return self.cost_pence / self.net_pence

    @property
    def gross_profit(self) -> Fraction:
        return 1 - self.food_cost

    @property
    def gross_profit_pence(self) -> Fraction:
        return self.net_pence - self.cost_pence


def margin(cost_pence: int | Fraction, price_pence: int, vat_hundredths: int) -> Margin:
    """Food cost and gross profit at a menu price."""
    if price_pence <= 0 or cost_pence < 0:
        raise ValueError("a margin needs a price above nothing and a cost not below it")
    return Margin(Fraction(cost_pence), price_without_vat(price_pence, vat_hundredths))


def price_for_target(
    cost_pence: int | Fraction, gross_profit_hundredths: int, vat_hundredths: int, step_pence: int = 1
) -> int:
    """The lowest menu price, VAT in it, that reaches a gross profit; a whole number of steps (5p, 50p)."""
    if not 0 <= gross_profit_hundredths < _WHOLE or step_pence < 1 or cost_pence < 0:
        raise ValueError("a gross profit is from nothing to below the whole price")
    net = Fraction(cost_pence) / (1 - Fraction(gross_profit_hundredths, _WHOLE))
    steps = net * (1 + _rate(vat_hundredths)) / step_pence
    return steps.__ceil__() * step_pence


def cost_each(cost_pence: int | Fraction, heads: int) -> Fraction:
    """What one portion, or one student of a class, costs; exactly."""
    if heads < 1:
        raise ValueError("a cost each needs at least one head")
    return Fraction(cost_pence) / heads


def charged_each(cost_pence: int, heads: int) -> tuple[int, ...]:
    """Whole pence for each head, a penny apart at most, that come to the cost."""
    each = cost_each(cost_pence, heads)
    return tuple(whole_pence(dict.fromkeys(range(heads), each), cost_pence).values())


def price_findings(
    cost_pence: int | Fraction, price_pence: int, vat_hundredths: int, target_hundredths: int | None = None
) -> tuple[Finding, ...]:
    """Below cost, below the target, or priced by adding the target to the cost. Without a target of the
    kitchen's own the low end of the trade's is used."""
    held = gross_profit_target()
    cited, status = citation(held.source), held.status
    target = held.low if target_hundredths is None else target_hundredths
    found = margin(cost_pence, price_pence, vat_hundredths)
    if found.gross_profit_pence < 0:
        sentence = f"At {pounds_text(price_pence)} a portion is sold below what went into it."
        return (Finding("price-below-cost", Severity.ASK, sentence, "Say why, or price it again."),)
    if found.gross_profit >= Fraction(target, _WHOLE):
        return ()
    wanted = pounds_text(price_for_target(cost_pence, target, vat_hundredths))
    if 0 <= found.net_pence - found.cost_pence * (1 + Fraction(target, _WHOLE)) < 1:
        sentence = "The target was added to the cost; gross profit is a share of the price, not of the cost."
        code = "price-markup-for-margin"
    else:
        sentence = (
            f"The gross profit of {pounds_text(price_pence)} is below the {_target_text(target)} aimed at."
        )
        code = "price-below-target"
    return (Finding(code, Severity.NOTE, sentence, f"{wanted} would reach it.", cited, status),)


def _target_text(hundredths: int) -> str:
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + " %"
