"""A cost followed down the lineage."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.cost_flow import CostFlow, flow
from gametrace.domain.lineage import Edge


def check(result: CostFlow, total: int) -> None:
    """At every lot what was handed on and kept is what it bore, and nothing is made or lost."""
    out: dict[int, int] = defaultdict(int)
    for (parent, _), pence in result.handed_on.items():
        out[parent] += pence
    for lot, pence in result.pence.items():
        assert out[lot] + result.kept[lot] == pence
    assert sum(result.kept.values()) == total


# Common practice, no source: the fallow doe for 72.00, mince of three animals into one dish.
def test_mince_of_three_animals_reaches_the_dish_exact_to_the_penny() -> None:
    edges = [Edge(n, n + 3, 1000) for n in (1, 2, 3)]  # a kilo of each carcass of 3 kg
    edges += [Edge(n + 3, 7, 1000) for n in (1, 2, 3)]  # into the mince
    edges += [Edge(7, 8, 1500), Edge(7, 9, 1500)]  # half into each of two dishes
    grams = {1: 3000, 2: 3000, 3: 3000, 4: 1000, 5: 1000, 6: 1000, 7: 3000, 8: 1500, 9: 1500}
    result = flow(edges, {1: 1000, 2: 2000, 3: 3000}, grams_in=grams)
    check(result, 6000)
    assert result.exact[8] == result.exact[9] == 1000
    assert result.pence[8] == result.pence[9] == 1000
    assert [result.kept[n] for n in (1, 2, 3)] == [667, 1333, 2000]
    assert result.handed_to(7) == {4: 333, 5: 667, 6: 1000}


def test_waste_bears_nothing_and_the_meat_bears_it_all() -> None:
    edges = [Edge(1, 2, 15_000), Edge(1, 3, 9_000)]
    result = flow(edges, {1: 7200}, grams_in={1: 24_000, 2: 15_000, 3: 9_000}, values={3: Fraction(0)})
    assert result.pence == {1: 7200, 2: 7200, 3: 0}
    assert result.kept == {1: 0, 2: 7200, 3: 0}


def test_the_skin_off_and_nothing_cut_yet_leaves_all_on_the_carcass() -> None:
    result = flow([Edge(1, 2, 5000)], {1: 7200}, grams_in={1: 24_000, 2: 5000}, values={2: Fraction(0)})
    assert result.kept == {1: 7200, 2: 0}


def test_a_beast_that_was_wholly_thrown_away_still_cost_what_it_cost() -> None:
    edges = [Edge(1, 2, 3000), Edge(1, 3, 1000)]
    result = flow(edges, {1: 400}, grams_in={1: 4000}, values={2: Fraction(0), 3: Fraction(0)})
    assert result.kept == {1: 0, 2: 300, 3: 100}


def test_value_points_make_the_loin_dear() -> None:
    edges = [Edge(1, 2, 7000), Edge(1, 3, 2000), Edge(1, 4, 3000), Edge(1, 5, 3000), Edge(1, 6, 9000)]
    points = {2: Fraction(2), 3: Fraction(4), 4: Fraction(6, 5), 5: Fraction(1), 6: Fraction(0)}
    result = flow(edges, {1: 7200}, grams_in={1: 24_000}, values=points)
    check(result, 7200)
    assert result.exact[3] == Fraction(7200 * 80, 286)
    assert [result.pence[n] for n in (2, 3, 4, 5, 6)] == [3525, 2014, 906, 755, 0]


def test_credits_come_off_first_and_a_by_product_keeps_its_own_price() -> None:
    edges = [Edge(1, 2, 6000), Edge(1, 3, 2000)]
    result = flow(edges, {1: 8000}, grams_in={1: 8000}, claims={1: 500}, credited={3: 120})
    check(result, 7500)
    assert (result.pence[2], result.pence[3]) == (7380, 120)


def test_bones_of_two_beasts_share_their_price_in_whole_pence() -> None:
    edges = [Edge(1, 3, 1000), Edge(2, 3, 2000), Edge(1, 4, 1000), Edge(2, 5, 1000)]
    result = flow(edges, {1: 1000, 2: 1000}, grams_in={1: 2000, 2: 3000}, credited={3: 100})
    check(result, 2000)
    assert result.handed_to(3) == {1: 33, 2: 67}
    assert result.pence[3] == 100


def test_onions_bought_for_the_mix_are_borne_by_it() -> None:
    result = flow([Edge(1, 2, 500)], {1: 1000, 2: 80}, grams_in={1: 1000, 2: 700})
    check(result, 1080)
    assert result.pence[2] == 580


def test_a_late_claim_flows_again_as_if_it_had_been_there_from_the_start() -> None:
    edges = [Edge(1, 2, 333), Edge(1, 3, 667), Edge(2, 4, 100), Edge(3, 4, 100)]
    grams = {1: 1000, 2: 333, 3: 667, 4: 200}
    late = flow(edges, {1: 1001}, grams_in=grams, claims={1: 101})
    assert late.pence == flow(edges, {1: 900}, grams_in=grams).pence
    check(late, 900)


def test_an_edge_that_goes_up_is_refused() -> None:
    with pytest.raises(ValueError, match="made after"):
        flow([Edge(2, 1, 5)], {1: 5}, grams_in={})


@st.composite
def histories(draw: st.DrawFn) -> tuple[list[Edge], dict[int, int], dict[int, int], dict[int, Fraction]]:
    """Carcasses cut, mixed and dished in any order, with waste and left-overs."""
    roots = draw(st.integers(1, 4))
    left = {n: draw(st.integers(1, 50_000)) for n in range(roots)}
    grams, edges = dict(left), []
    for lot in range(roots, roots + draw(st.integers(0, 14))):
        parents = draw(st.lists(st.sampled_from(sorted(left)), min_size=1, max_size=3, unique=True))
        taken = {parent: draw(st.integers(0, left[parent])) for parent in parents}
        edges += [Edge(parent, lot, amount) for parent, amount in taken.items()]
        for parent, amount in taken.items():
            left[parent] -= amount
        left[lot] = grams[lot] = sum(taken.values())
    start = {n: draw(st.integers(0, 100_000)) for n in range(roots)}
    values = {lot: Fraction(draw(st.integers(0, 40)), 10) for lot in grams if draw(st.booleans())}
    return edges, start, grams, values


@given(histories(), st.integers(0, 5000), st.integers(0, 500))
def test_no_history_makes_or_loses_a_penny(
    history: tuple[list[Edge], dict[int, int], dict[int, int], dict[int, Fraction]], claim: int, bones: int
) -> None:
    edges, start, grams, values = history
    credited = {max(grams): bones} if edges and max(grams) not in start else {}
    result = flow(edges, start, grams_in=grams, values=values, claims={0: claim}, credited=credited)
    check(result, sum(start.values()) - claim)
    assert sum(result.exact[n] for n in start) == sum(start.values()) - claim
    allowed = len(edges) + 1
    assert all(abs(result.pence[lot] - exact) < allowed for lot, exact in result.exact.items())
