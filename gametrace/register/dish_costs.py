"""What a dish cost and what it brings: food cost, gross profit on the price without VAT, cost by the head."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from gametrace.domain.codes import code_of
from gametrace.domain.costing import METHODS, portion_findings
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.pricing import (
    Margin,
    charged_each,
    cost_each,
    margin,
    price_findings,
    price_for_target,
    vat_in,
)
from gametrace.facts.costing import gross_profit_target, vat_rate
from gametrace.register.cost_values import MEAT
from gametrace.register.cost_walk import CostWalk
from gametrace.register.costs import FromAnimal, cost_findings, lot_cost
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.store import look_costs, look_lots


@dataclass(frozen=True, slots=True)
class WentIn:
    """One pack, part or mix in the pot, with the pence it brought along."""

    code: str
    name: str
    grams: int
    pence: dict[str, int | None]  # by method


@dataclass(frozen=True, slots=True)
class DishCost:
    """The money of one dish. None is 'not known' everywhere, and `why_unknown` says why."""

    code: str
    name: str
    occasion_kind: str  # service | class
    occasion: str
    on: date
    portions: int
    heads: int | None  # students of a class
    grams: int
    method: str
    meat_pence: dict[str, int | None]
    back_pence: dict[str, int | None]  # of it, gone back to stock as left over
    other_pence: int | None  # what else is on the plates; None where nobody said
    went_in: tuple[WentIn, ...]
    animals: tuple[FromAnimal, ...]
    why_unknown: tuple[str, ...]
    price_pence: int | None
    vat_hundredths: int
    target_hundredths: int
    findings: tuple[Finding, ...]

    @property
    def food_pence(self) -> int | None:
        """Meat by the kitchen's own way of spreading, and what else was said to be on the plates."""
        meat = self.meat_pence[self.method]
        return None if meat is None else meat + (self.other_pence or 0)

    @property
    def a_portion(self) -> Fraction | None:
        return None if self.food_pence is None else cost_each(self.food_pence, self.portions)

    @property
    def margin(self) -> Margin | None:
        """Of one portion. None where cost or price is not known."""
        if self.a_portion is None or self.price_pence is None or self.a_portion < 0:
            return None
        return margin(self.a_portion, self.price_pence, self.vat_hundredths)

    @property
    def net_and_vat(self) -> tuple[int, int] | None:
        return None if self.price_pence is None else vat_in(self.price_pence, self.vat_hundredths)

    @property
    def price_wanted(self) -> int | None:
        """The lowest price that reaches the profit aimed at."""
        if self.a_portion is None or self.a_portion < 0:
            return None
        return price_for_target(self.a_portion, self.target_hundredths, self.vat_hundredths)

    @property
    def charged(self) -> tuple[int, ...]:
        """Pence by student, a penny apart at most: a class pays the cost, less what went back to stock."""
        back = self.back_pence[self.method]
        if self.food_pence is None or back is None or self.occasion_kind != "class":
            return ()
        return charged_each(self.food_pence - back, self.heads or self.portions)


def dish_cost(register: Register, code: str) -> DishCost:
    """The whole money of a dish."""
    with register.store.reading() as connection:
        facts = lot_facts(connection, code, register.today())
        dish = look_lots.dish_details(connection, [facts.id]).get(facts.id)
        if dish is None:
            raise Refusal(f"{facts.code} is not a dish.", "Choose a dish that was made.", "code")
        walk = CostWalk(connection, [facts.id])
        price = look_costs.dish_price(connection, facts.id)
        own = walk.own
        start_rate = vat_rate() if own.vat_hundredths is None else own.vat_hundredths
        target = own.gross_profit_hundredths
        found = lot_cost(walk, facts.id)
        made = DishCost(
            code=facts.code,
            name=dish.name,
            occasion_kind=dish.occasion_kind,
            occasion=dish.occasion,
            on=date.fromisoformat(dish.on_day),
            portions=dish.portions,
            heads=price.heads if price else None,
            grams=facts.grams_made,
            method=found.method,
            meat_pence=found.by_method,
            back_pence={way: _back(walk, facts.id, way) for way in METHODS},
            other_pence=price.other_pence if price else None,
            went_in=_went_in(walk, facts.id),
            animals=found.animals,
            why_unknown=found.why_unknown,
            price_pence=price.price_pence if price else None,
            vat_hundredths=price.vat_hundredths if price else start_rate,
            target_hundredths=gross_profit_target().low if target is None else target,
            findings=(),
        )
        return _with_findings(made, cost_findings(walk, facts.id))


def _back(walk: CostWalk, lot: int, method: str) -> int | None:
    """What portions left over took back into stock; what of it was binned stays with the dish."""
    pence = 0
    for edge in walk.edges:
        if edge.parent == lot and walk.rows[edge.child].kind in MEAT:
            given = walk.handed(lot, edge.child, method)
            if given is None:
                return None
            pence += given
    return pence


def _went_in(walk: CostWalk, lot: int) -> tuple[WentIn, ...]:
    return tuple(
        WentIn(
            code=code_of(edge.parent),
            name=walk.rows[edge.parent].name,
            grams=edge.grams,
            pence={way: walk.handed(edge.parent, lot, way) for way in METHODS},
        )
        for edge in sorted(walk.above)
        if edge.child == lot
    )


def _with_findings(made: DishCost, found: tuple[Finding, ...]) -> DishCost:
    """The cost's own findings, whether a portion can be meant, and what the price comes to."""
    said = [*found, *portion_findings(made.grams // made.portions, made.grams)]
    if made.margin is not None and made.price_pence is not None and made.a_portion is not None:
        said += price_findings(made.a_portion, made.price_pence, made.vat_hundredths, made.target_hundredths)
    if made.other_pence is None:
        said.append(
            Finding(
                "cost-of-meat-only",
                Severity.NOTE,
                "Only the game is in this cost; what else is on the plate has not been reckoned.",
                "Give what the rest of the dish costs, if you know it.",
            )
        )
    return replace(made, findings=tuple(said))
