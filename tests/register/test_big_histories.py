"""Lineage, sets and balances on random histories of 10,000 lots, against networkx and brute force."""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import networkx
import pytest
from big_history import BigHistory, fill
from larder_house import House

from gametrace.domain.codes import code_of
from gametrace.domain.lot_sets import How
from gametrace.register import questions
from gametrace.register.acts import Step

LOTS = 10_000


@pytest.fixture(scope="module", params=(7, 20))
def big(request, tmp_path_factory) -> Iterator[tuple[House, BigHistory, networkx.DiGraph]]:
    house = House(Path(tmp_path_factory.mktemp("big")) / "big.register")
    made = fill(house, LOTS, seed=request.param)
    graph = networkx.DiGraph()
    graph.add_nodes_from(made.lots)
    graph.add_weighted_edges_from(made.edges)
    yield house, made, graph
    house.close()


def _some(made: BigHistory, graph: networkx.DiGraph, kind: str, how_many: int) -> list[int]:
    lots = [lot for lot, row in made.lots.items() if row["kind"] == kind and (graph.degree(lot) > 1)]
    return random.Random(1).sample(lots, how_many)


def _in_proportion(made: BigHistory, graph: networkx.DiGraph, animal: int) -> dict[int, Fraction]:
    """Brute force, another way round than the program: for each lot below, what do its parents hold?"""
    below = networkx.descendants(graph, animal) | {animal}
    held = {animal: Fraction(made.lots[animal]["grams_in"])}
    for lot in networkx.topological_sort(graph.subgraph(below)):
        if lot != animal:
            held[lot] = sum(
                (
                    held[parent] * data["weight"] / made.lots[parent]["grams_in"]
                    for parent, _, data in graph.in_edges(lot, data=True)
                    if parent in held
                ),
                Fraction(0),
            )
    return held


def test_the_shares_of_a_dish_are_exact(big) -> None:
    house, made, graph = big
    for dish in _ends(made, "dish", 8):
        traced = questions.trace(house.reg, code_of(dish))
        shares = {one.code: one.share for one in traced.animals}
        above = networkx.ancestors(graph, dish)
        animals = [lot for lot in above if made.lots[lot]["kind"] == "carcass"]
        assert set(shares) == {code_of(lot) for lot in animals}
        assert sum(shares.values()) == 1
        assert sum(one.grams for one in traced.animals) == made.lots[dish]["grams_made"]
        for animal in animals:
            held = _in_proportion(made, graph, animal)[dish]
            assert shares[code_of(animal)] == held / made.lots[dish]["grams_in"]


def _ends(made: BigHistory, kind: str, how_many: int) -> list[int]:
    return random.Random(2).sample([lot for lot, row in made.lots.items() if row["kind"] == kind], how_many)


LINE_OF = {
    "dish": "served",
    "by-product": "by-products",
    "waste": "condemned and binned",
    "drying": "drying",
}


def test_an_animal_s_balance_adds_up_and_each_line_is_what_its_lots_hold(big) -> None:
    house, made, graph = big
    for animal in random.Random(3).sample(made.animals, 12):
        balance = questions.trace(house.reg, code_of(animal)).balance
        assert balance is not None
        assert balance.received_grams == made.lots[animal]["grams_in"]
        assert sum(row.grams for row in balance.rows) == balance.received_grams
        expected: dict[str, Fraction] = defaultdict(Fraction)
        codes: dict[str, set[str]] = defaultdict(set)
        for lot, held in _in_proportion(made, graph, animal).items():
            row = made.lots[lot]
            part = held / row["grams_in"]
            line = LINE_OF.get(row["kind"], "in stock")
            expected[line] += part * row["grams_left"]
            expected["unaccounted"] += part * row["unaccounted"]
            if row["grams_left"]:
                codes[line].add(code_of(lot))
            if row["unaccounted"]:
                codes["unaccounted"].add(code_of(lot))
        for line in balance.rows:
            assert abs(line.grams - expected[line.words]) < 1, line.words
            assert set(line.codes) == codes[line.words], line.words
        assert {line.words for line in balance.rows} >= {word for word, grams in expected.items() if grams}


def test_sets_are_what_networkx_says(big) -> None:
    house, made, graph = big
    picked = random.Random(4).sample(made.animals, 3)
    dishes = {lot for lot, row in made.lots.items() if row["kind"] == "dish"}
    early = {lot for lot in dishes if made.lots[lot]["made_at"][:10] <= "2026-09-03"}
    touched = set(picked).union(*(networkx.descendants(graph, lot) for lot in picked))
    asked = (
        Step("touched", tuple(code_of(lot) for lot in picked)),
        Step("cooked", ("", "2026-09-03"), How.LESS),
    )
    found = questions.gather(house.reg, asked)
    assert set(found.codes) == {code_of(lot) for lot in touched - early}
    both = questions.gather(house.reg, (asked[0], Step("cooked", ("", ""), How.BOTH)))
    assert set(both.codes) == {code_of(lot) for lot in touched & dishes}
    for lot in _some(made, graph, "mix", 6):
        above, below = networkx.ancestors(graph, lot), networkx.descendants(graph, lot)
        beside = set().union(*(networkx.ancestors(graph, one) for one in below)) if below else set()
        mixed = questions.gather(house.reg, (Step("mixed", (code_of(lot),)),))
        assert set(mixed.codes) == {code_of(one) for one in beside - above - below - {lot}}
        behind = questions.gather(house.reg, (Step("behind", (code_of(lot),)),))
        assert set(behind.codes) == {code_of(one) for one in above | {lot}}
