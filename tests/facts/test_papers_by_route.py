"""Route by origin by group: the papers asked for, written out by hand from the sources named.

What a paper is worth where no law asks for it is common practice, no source.
"""

from __future__ import annotations

from itertools import product

import pytest

from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.facts.papers import papers_for
from gametrace.facts.species import GROUPS

MUST, SHOULD, NOT = "must", "should", "not-expected"
DAY = {"kill-day": MUST}  # without it no season is ruled; inference
FIELD = {"kill-time": SHOULD, "kill-place": SHOULD, "tag": SHOULD}  # common practice, no source
# Regulation (EC) 853/2004 Art.5: the mark with its number; Regulation 178/2002 Art.18: who it came from.
FIRM = {"approval-number": MUST, "invoice": MUST}
# Reg. 853/2004 Annex III Sec. IV Ch. II(4)(a), as substituted by Reg. (EU) 150/2011; direct supply lies
# outside it (Art.1(3)(e)), so the card is asked for and its absence told.
CARD = {"declaration": SHOULD}
# The same, Ch. III: none is prescribed for small game. Farmed game: Sec. III.
NO_CARD = {"declaration": NOT}
# Ch. II(4)(a): of what may carry Trichinella the head and the diaphragm travel with the body.
HEAD = {"head-and-diaphragm": SHOULD}
EAR_TAG = {"tag": SHOULD}  # deer keepers' tagging, as read
KEEPER = {"keeper-statement": SHOULD}  # Sec. III(3)(i), (j), (3a), Reg. (EU) 150/2011
CULL = {"park-cull-line": SHOULD}  # inference
WILD_FIRM = {**DAY, **FIRM, **CARD, "tag": SHOULD}

TABLE = [
    ("wild-direct", "wild-shot", "large", {**DAY, **FIELD, **CARD}),
    ("wild-direct", "wild-shot", "boar", {**DAY, **FIELD, **CARD, **HEAD}),
    ("wild-direct", "wild-shot", "small", {**DAY, **NO_CARD}),
    ("wild-approved", "wild-shot", "large", WILD_FIRM),
    ("wild-approved", "wild-shot", "boar", {**WILD_FIRM, **HEAD}),
    ("wild-approved", "wild-shot", "small", {**DAY, **FIRM, **NO_CARD}),
    ("wild-approved", "park", "large", WILD_FIRM),
    ("park-as-wild", "park", "large", {**DAY, **FIELD, **CARD, **CULL}),
    ("park-as-wild", "park", "boar", {**DAY, **FIELD, **CARD, **CULL, **HEAD}),
    ("farmed-slaughterhouse", "field-farmed", "large", {**DAY, **FIRM, **NO_CARD, **EAR_TAG}),
    ("farmed-slaughterhouse", "indoor-farmed", "large", {**DAY, **FIRM, **NO_CARD, **EAR_TAG}),
    ("farmed-slaughterhouse", "field-farmed", "boar", {**DAY, **FIRM, **NO_CARD, **EAR_TAG}),
    ("farmed-on-farm", "field-farmed", "large", {**DAY, **FIRM, **NO_CARD, **EAR_TAG, **KEEPER}),
    ("farmed-on-farm", "indoor-farmed", "boar", {**DAY, **FIRM, **NO_CARD, **EAR_TAG, **KEEPER}),
    # A gift, a road casualty, a beast of unknown origin: never for service, so nothing else is asked.
    ("gift-unknown", "unknown", "large", DAY),
    ("gift-unknown", "unknown", "boar", DAY),
    ("gift-unknown", "unknown", "small", {**DAY, **NO_CARD}),
]


@pytest.mark.parametrize(
    ("route", "origin", "group", "papers"), TABLE, ids=["-".join(row[:3]) for row in TABLE]
)
def test_each_way_to_the_door_asks_for_its_papers(
    route: str, origin: str, group: str, papers: dict[str, str]
) -> None:
    assert {one.paper: one.demand for one in papers_for(route, origin, group)} == papers


def test_every_route_is_in_the_table() -> None:
    assert {row[0] for row in TABLE} == set(ROUTES)
    assert {row[1] for row in TABLE} == set(ORIGINS)
    assert {row[2] for row in TABLE} == set(GROUPS)


@pytest.mark.parametrize(("route", "origin", "group"), list(product(ROUTES, ORIGINS, GROUPS)))
def test_no_paper_is_a_must_that_the_route_cannot_have(route: str, origin: str, group: str) -> None:
    demands = {one.paper: one.demand for one in papers_for(route, origin, group)}
    assert demands.get("declaration") != MUST, "no law makes it one for a kitchen"
    through_a_firm = route in ("wild-approved", "farmed-slaughterhouse", "farmed-on-farm")
    assert (demands.get("approval-number") == MUST) == through_a_firm
    for one in papers_for(route, origin, group):
        assert one.source
        assert one.status
