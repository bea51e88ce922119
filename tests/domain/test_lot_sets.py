"""Sets of lots against networkx and plain sets on random graphs; stays; near misses; days; plain words."""

from __future__ import annotations

import random
from datetime import date

import networkx
import pytest

from gametrace.domain.codes import code_of, near_misses, next_lot_id
from gametrace.domain.lineage import Edge
from gametrace.domain.lot_sets import How, combined, mixed_with, stays_of, stood_in
from gametrace.domain.plain_words import plain_text, plain_words
from gametrace.domain.spoken_days import read_day


def _random_edges(seed: int, lots: int) -> list[Edge]:
    pick = random.Random(seed)
    edges = {}
    for child in range(1, lots):
        for parent in pick.sample(range(child), k=min(child, pick.choice((0, 1, 1, 1, 2, 3)))):
            edges[parent, child] = pick.randint(1, 900)
    return [Edge(parent, child, grams) for (parent, child), grams in edges.items()]


@pytest.mark.parametrize("seed", range(30))
def test_what_is_mixed_with_a_lot_is_what_networkx_says(seed: int) -> None:
    """Second opinion: networkx, by its own definition: ancestors of descendants, less the lot's own line."""
    edges = _random_edges(seed, 60)
    graph = networkx.DiGraph()
    graph.add_nodes_from(range(60))
    graph.add_edges_from((edge.parent, edge.child) for edge in edges)
    for lot in range(0, 60, 7):
        made = networkx.descendants(graph, lot)
        beside = set().union(*(networkx.ancestors(graph, one) for one in made)) if made else set()
        expected = beside - made - {lot} - networkx.ancestors(graph, lot)
        below = [edge for edge in edges if edge.parent in made | {lot}]
        needed = made | beside | {lot} | networkx.ancestors(graph, lot)
        above = [edge for edge in edges if edge.child in needed]
        assert mixed_with([lot], below, above) == expected


def test_steps_are_put_together_from_the_first_to_the_last() -> None:
    three, cooked, shelf = frozenset({1, 2, 3}), frozenset({2, 9}), frozenset({3, 9})
    assert combined([(How.JOIN, three), (How.LESS, cooked)]) == {1, 3}
    assert combined([(How.LESS, three), (How.JOIN, cooked)]) == {1, 2, 3, 9}
    assert combined([(How.JOIN, three), (How.LESS, cooked), (How.BOTH, shelf)]) == {3}
    assert combined([]) == frozenset()


def test_a_lot_stood_where_it_was_moved_from_and_to() -> None:
    moves = [("2026-11-12T10:00:00Z", "C1.S1", "C1.S2"), ("2026-11-14T10:00:00Z", "C1.S2", "F1.S1")]
    stays = stays_of("2026-11-11T09:00:00Z", "2026-11-20T09:00:00Z", "F1.S1", moves)
    assert [stay.place for stay in stays] == ["C1.S1", "C1.S2", "F1.S1"]

    def is_chill(place: str) -> bool:
        return place.startswith("C1")

    assert stood_in(stays, is_chill, "2026-11-13T00:00:00Z", "2026-11-13T01:00:00Z")
    assert not stood_in(stays, is_chill, "2026-11-15T00:00:00Z", "2026-11-16T00:00:00Z")
    assert not stood_in(stays, is_chill, "2026-11-10T00:00:00Z", "2026-11-11T09:00:00Z")
    assert not stood_in(stays, lambda _place: True, "2026-11-21T00:00:00Z", "2026-11-22T00:00:00Z")


def _codes(how_many: int) -> list[int]:
    lot, found = 0, []
    for _ in range(how_many):
        lot = next_lot_id(lot, 2026)
        found.append(lot)
    return found


def test_every_single_slip_in_a_code_leads_back_to_it() -> None:
    for lot in _codes(300)[::23]:
        right = code_of(lot)
        digits = [at for at, letter in enumerate(right) if letter.isdigit() and at < 8]
        for at in digits:
            for new in "0123456789":
                wrong = right[:at] + new + right[at + 1 :]
                assert wrong == right or lot in near_misses(wrong), wrong
        swapped = right[:6] + right[7] + right[6] + right[8:]
        assert swapped == right or lot in near_misses(swapped)
        assert lot in near_misses(right[:-1] + ("A" if right[-1] != "A" else "B"))


def test_letters_read_for_figures_lead_back_and_a_right_code_has_no_near_miss() -> None:
    lot = _codes(10)[-1]
    right = code_of(lot)
    assert near_misses(right) == ()
    assert near_misses("venison") == ()
    assert near_misses(right.replace("0", "O", 2)) == () or lot in near_misses(right.replace("0", "O", 2))
    assert lot in near_misses(right[:3] + "O" + right[4:])


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("2026-11-12", date(2026, 11, 12)),
        ("12/11/2026", date(2026, 11, 12)),
        ("12.11.26", date(2026, 11, 12)),
        ("12 Nov 2026", date(2026, 11, 12)),
        ("3 december", date(2025, 12, 3)),
        ("12 nov", date(2026, 11, 12)),
        ("yesterday", date(2026, 11, 24)),
        ("31/02/2026", None),
        ("12 venison", None),
        ("haunch", None),
    ],
)
def test_a_day_is_read_as_people_type_it(typed: str, meant: date | None) -> None:
    assert read_day(typed, date(2026, 11, 25)) == meant


def test_plain_words_forget_marks_case_and_hyphens() -> None:
    assert plain_words("26-00417-E Café’s") == ("26", "00417", "e", "cafe", "s")
    assert plain_text("Long Wood", "long wood") == "long wood"
