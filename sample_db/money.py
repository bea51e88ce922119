"""What the invented kitchen thinks its cuts would fetch, and the prices of the last dishes on the card.

Every price is invented. Set near the end, so that two years of costs can be looked at all three ways.
"""

from __future__ import annotations

from gametrace.register import acts, questions
from sample_db.house import House

_PENCE_A_KILO = {
    "haunch": 1_500,
    "topside": 2_200,
    "silverside": 2_000,
    "thick-flank": 2_000,
    "rump": 2_200,
    "hind-shank": 900,
    "saddle": 1_900,
    "loin": 3_800,
    "fillet": 4_000,
    "shoulder": 900,
    "fore-shank": 850,
    "dice": 1_300,
    "neck": 700,
    "neck-fillet": 1_050,
    "breast": 450,
    "trim": 700,
    "mince": 800,
    "stock-bones": 120,
    "whole-oven-ready": 700,
    "bird-breast": 1_500,
    "bird-leg": 500,
    "ground-game-saddle": 1_300,
    "ground-game-hind-leg": 900,
    "ground-game-fore-leg": 500,
}
_PRICED = 24  # of the newest dishes
_PORTION_PENCE = (1_150, 1_250, 1_350, 1_450)


def prices_are_set(house: House) -> None:
    """Sales values by the tutor, then what the newest dishes were sold at; classes are charged at cost."""
    for product, pence in _PENCE_A_KILO.items():
        house.do(
            acts.set_policy,
            by="maud",
            name=f"price.{product}",
            value=str(pence),
            reason="What we would pay for it cut and trimmed",
        )
    for turn, dish in enumerate(questions.dishes(house.register, limit=_PRICED)):
        if questions.dish_cost(house.register, dish.code).occasion_kind == "class":
            house.do(acts.price_dish, by="maud", code=dish.code, heads=8 + turn % 5)
        else:
            price = _PORTION_PENCE[turn % len(_PORTION_PENCE)]
            other = dish.portions * (140 + 10 * (turn % 4))
            house.do(acts.price_dish, by="maud", code=dish.code, price_pence=price, other_pence=other)
