"""Shares and amounts, against networkx, against a sum over every path, and as conservation."""

from collections import defaultdict
from fractions import Fraction

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.lineage import Edge, amounts_from, shares_of, whole_grams


@st.composite
def histories(draw: st.DrawFn) -> tuple[list[Edge], dict[int, int], int]:
    """(edges, grams in of each lot, number of animals): every lot is made of what earlier lots still hold."""
    animals = draw(st.integers(1, 4))
    left = {lot: draw(st.integers(2, 5_000)) for lot in range(1, animals + 1)}
    grams_in = dict(left)
    edges: list[Edge] = []
    for lot in range(animals + 1, animals + 1 + draw(st.integers(0, 9))):
        givers = [one for one, grams in left.items() if grams > 0]
        if not givers:
            break
        parents = draw(st.lists(st.sampled_from(givers), min_size=1, max_size=3, unique=True))
        taken = {parent: draw(st.integers(1, left[parent])) for parent in parents}
        for parent, grams in taken.items():
            edges.append(Edge(parent, lot, grams))
            left[parent] -= grams
        grams_in[lot] = left[lot] = sum(taken.values())
    return draw(st.permutations(edges)), grams_in, animals


def share_over_every_path(edges: list[Edge], grams_in: dict[int, int], animal: int, target: int) -> Fraction:
    """Brute force: the product of (grams given / grams in) along each path, summed over all paths."""
    if animal == target:
        return Fraction(1)
    graph = nx.DiGraph()
    graph.add_nodes_from(grams_in)
    for edge in edges:
        graph.add_edge(edge.parent, edge.child, part=Fraction(edge.grams, grams_in[edge.child]))
    total = Fraction(0)
    for path in nx.all_simple_edge_paths(graph, animal, target):
        product = Fraction(1)
        for parent, child in path:
            product *= graph.edges[parent, child]["part"]
        total += product
    return total


@given(histories())
def test_shares_are_the_sum_over_every_path_that_networkx_finds(
    history: tuple[list[Edge], dict[int, int], int],
) -> None:
    edges, grams_in, animals = history
    for target in grams_in:
        shares = shares_of([e for e in edges if e.child <= target], target)
        for animal in range(1, animals + 1):
            assert shares.get(animal, Fraction(0)) == share_over_every_path(edges, grams_in, animal, target)


@given(histories())
def test_shares_sum_to_one_and_name_only_first_ancestors(
    history: tuple[list[Edge], dict[int, int], int],
) -> None:
    edges, grams_in, animals = history
    graph = nx.DiGraph((e.parent, e.child) for e in edges)
    graph.add_nodes_from(grams_in)
    for target in grams_in:
        shares = shares_of(edges, target)
        assert sum(shares.values()) == 1
        above = nx.ancestors(graph, target) | {target}
        assert set(shares) == {lot for lot in above if lot <= animals}


@given(histories())
def test_an_animal_s_grams_are_all_somewhere(history: tuple[list[Edge], dict[int, int], int]) -> None:
    """What rests in each lot, in the animal's part, adds up to the animal: nothing lost, nothing doubled."""
    edges, grams_in, animals = history
    given_on: dict[int, int] = defaultdict(int)
    for edge in edges:
        given_on[edge.parent] += edge.grams
    for animal in range(1, animals + 1):
        amounts = amounts_from({animal: Fraction(grams_in[animal])}, edges, grams_in)
        resting = sum(
            amount * Fraction(grams_in[lot] - given_on[lot], grams_in[lot]) for lot, amount in amounts.items()
        )
        assert resting == grams_in[animal]


@given(histories())
def test_forward_amounts_and_backward_shares_are_the_same_fact_seen_from_both_ends(
    history: tuple[list[Edge], dict[int, int], int],
) -> None:
    edges, grams_in, animals = history
    for animal in range(1, animals + 1):
        amounts = amounts_from({animal: Fraction(grams_in[animal])}, edges, grams_in)
        for lot in grams_in:
            back = shares_of(edges, lot).get(animal, Fraction(0)) * grams_in[lot]
            assert amounts.get(lot, Fraction(0)) == back


@given(histories())
def test_all_animals_together_fill_every_lot_exactly(history: tuple[list[Edge], dict[int, int], int]) -> None:
    edges, grams_in, animals = history
    sources = {animal: Fraction(grams_in[animal]) for animal in range(1, animals + 1)}
    assert amounts_from(sources, edges, grams_in) == {lot: Fraction(grams) for lot, grams in grams_in.items()}


def test_mince_of_three_animals_has_their_exact_shares() -> None:
    """1.2 kg, 0.9 kg and 0.7 kg: 3/7, 9/28, 1/4."""
    edges = [Edge(1, 10, 1200), Edge(2, 10, 900), Edge(3, 10, 700)]
    assert shares_of(edges, 10) == {1: Fraction(3, 7), 2: Fraction(9, 28), 3: Fraction(1, 4)}


def test_a_mix_of_mixes_is_followed_through() -> None:
    edges = [Edge(1, 10, 100), Edge(2, 10, 300), Edge(10, 11, 200), Edge(3, 11, 200), Edge(11, 12, 50)]
    assert shares_of(edges, 12) == {1: Fraction(1, 8), 2: Fraction(3, 8), 3: Fraction(1, 2)}


def test_a_lot_nothing_went_into_is_all_itself() -> None:
    assert shares_of([], 7) == {7: Fraction(1)}


parts_and_total = st.lists(st.fractions(-50, 5_000, max_denominator=97), min_size=1, max_size=12).map(
    lambda parts: [*parts, -sum(parts) % 1]
)


@given(parts_and_total)
def test_whole_grams_keep_the_sum_and_stay_within_a_gram(parts: list[Fraction]) -> None:
    named = dict(enumerate(parts))
    total = sum(parts)
    whole = whole_grams(named, int(total))
    assert sum(whole.values()) == total
    assert all(abs(whole[key] - named[key]) < 1 for key in named)


def test_whole_grams_refuses_parts_of_another_sum() -> None:
    with pytest.raises(ValueError, match="do not sum"):
        whole_grams({1: Fraction(10), 2: Fraction(5)}, 99)
