"""Walking the graph of meat with exact arithmetic: shares, amounts and balances.

A step takes grams from parents and gives them to a child. Keys grow as lots are made, so a parent's key is
always below its child's and ascending order is an order in which every parent comes first.
Everything is Fraction or int: nothing here rounds, except `whole_grams`, which rounds last and keeps the sum.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import prod
from operator import itemgetter
from typing import NamedTuple


class Edge(NamedTuple):
    """`grams` of `parent` went into `child`."""

    parent: int
    child: int
    grams: int


_CHILD = itemgetter(1)


def shares_of(edges: Iterable[Edge], target: int) -> dict[int, Fraction]:
    """What share each first ancestor (a lot nothing went into) has in `target`. The shares sum to 1.

    `edges` must hold every edge above the target. A target with no parents is all itself. Walking down
    from the target, each lot hands its share on to its parents in proportion to what they gave.
    """
    known = sorted(edges, key=_CHILD, reverse=True)
    totals: dict[int, int] = defaultdict(int)
    for _, child, grams in known:
        totals[child] += grams
    mixes = {child for _, child, grams in known if grams != totals[child]}
    # Whole numbers all the way, for speed: in units of one part in the product of all mixes, each mix
    # divides without a rest, since no way down meets it twice.
    whole = prod(totals[lot] for lot in mixes)
    share: dict[int, int] = defaultdict(int, {target: whole})
    for parent, child, grams in known:
        part = share[child]
        share[parent] += part // totals[child] * grams if child in mixes else part
    return {lot: Fraction(part, whole) for lot, part in share.items() if part and lot not in totals}


def amounts_from(
    source: Mapping[int, Fraction], edges: Iterable[Edge], grams_in: Mapping[int, int]
) -> dict[int, Fraction]:
    """How many grams of the source went into each lot below it (the source lots included).

    `source` gives the grams held by each starting lot. `edges` must hold every edge below the sources, and
    `grams_in` each lot's total input, so that a mixed lot's other parents dilute it rightly.
    """
    amount: dict[int, Fraction] = dict(source)
    a_gram: dict[int, Fraction] = {}  # of a lot: how much of the source is in one gram of it
    for edge in sorted(edges, key=lambda e: (e.parent, e.child)):
        if amount.get(edge.parent):
            if edge.parent not in a_gram:
                a_gram[edge.parent] = amount[edge.parent] / grams_in[edge.parent]
            part = a_gram[edge.parent] * edge.grams
            amount[edge.child] = amount[edge.child] + part if edge.child in amount else part
    return {lot: grams for lot, grams in amount.items() if grams}


def whole_grams(parts: Mapping[int, Fraction], total: int) -> dict[int, int]:
    """`parts` rounded to whole grams that sum to `total` exactly, by largest remainder (ties: lower key).

    The parts must sum to `total` within less than one gram a part.
    """
    floors = {key: part.numerator // part.denominator for key, part in parts.items()}
    missing = total - sum(floors.values())
    if not 0 <= missing <= len(parts):
        raise ValueError("the parts do not sum to the total")
    by_remainder = sorted(parts, key=lambda key: (floors[key] - parts[key], key))
    for key in by_remainder[:missing]:
        floors[key] += 1
    return floors
