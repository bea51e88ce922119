"""What a gram counts for: no food nothing, what leaves the house as it lies, a cut by its own value."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.lineage import Edge
from gametrace.register.cost_values import ways_valued
from gametrace.register.policies import Policies


@dataclass
class Row:
    id: int
    kind: str
    product: str


ROWS = {
    1: Row(1, "part", "saddle"),
    2: Row(2, "part", "loin"),
    3: Row(3, "part", "trim"),
    4: Row(4, "by-product", "bone"),
    5: Row(5, "dish", ""),
    6: Row(6, "waste", "binned"),
    7: Row(7, "waste", "condemned"),
    8: Row(8, "issued", "saddle"),
}
TAKEN = [Edge(1, 2, 100), Edge(1, 3, 300), *(Edge(1, lot, 50) for lot in (4, 5, 6, 7, 8))]


@pytest.mark.parametrize(
    ("lot", "points"),
    [
        (2, Fraction(4)),
        (3, Fraction(1)),
        (4, 0),  # bone
        (7, 0),  # condemned
        (5, Fraction(7, 4)),  # a dish takes it as it lies: (100 x 4 + 300 x 1) / 400
        (6, Fraction(7, 4)),  # good meat in the bin
        (8, Fraction(7, 4)),  # handed to somebody else
    ],
)
def test_what_a_gram_counts_for_by_points(house: House, lot: int, points: Fraction) -> None:
    with house.reg.store.reading() as connection:
        valued = ways_valued(connection, Policies(), TAKEN, ROWS)
    assert valued["points"].values[1, lot] == points
    assert valued["weight"].values[1, lot] == (0 if points == 0 else 1)


def test_a_product_that_nobody_gave_a_value_is_named_and_only_where_it_matters(house: House) -> None:
    with house.reg.store.reading() as connection:
        several = ways_valued(connection, Policies(prices={"loin": 4_000}), TAKEN, ROWS)
        alone = ways_valued(connection, Policies(prices={"loin": 4_000}), [Edge(1, 3, 300)], ROWS)
    assert several["sales value"].missing == {1: frozenset({"trim"})}
    assert alone["sales value"].missing == {}
