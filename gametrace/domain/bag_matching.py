"""Which lot a bag without a label may be: candidates with the reasons for and against each.

The points are a way of ranking (inference); they decide nothing. A person decides, or bins the bag.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from gametrace.domain.plain_words import plain_words
from gametrace.domain.quantities import kg_to_the_gram

SCALE_GRAMS = 20
_LIGHTER = "lighter than what is left of it: some may have been used"


@dataclass(frozen=True, slots=True)
class Bag:
    """What can be told of it. None and '' where nothing can."""

    grams: int | None = None
    on_day: date | None = None  # a day that can be read on it, or the day it is thought to have been packed
    look: str = ""
    store: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True)
class Known:
    """A lot that is here, as it is compared."""

    id: int
    words: frozenset[str]
    grams_left: int
    made_on: date
    use_by: date | None
    store: str
    place: str


@dataclass(frozen=True, slots=True)
class Likeness:
    id: int
    points: int
    for_it: tuple[str, ...]
    against: tuple[str, ...]


def ranked(bag: Bag, known: Iterable[Known], most: int = 12) -> tuple[Likeness, ...]:
    """The likeliest first; among equals the newest. What nothing speaks for is left out."""
    found = [one for lot in known if (one := likeness(bag, lot)).for_it and one.points > 0]
    return tuple(sorted(found, key=lambda one: (-one.points, -one.id))[:most])


def likeness(bag: Bag, lot: Known) -> Likeness:
    said = [*_by_weight(bag, lot), *_by_day(bag, lot), *_by_look(bag, lot), *_by_place(bag, lot)]
    return Likeness(
        lot.id,
        sum(points for points, _ in said),
        tuple(words for points, words in said if points > 0),
        tuple(words for points, words in said if points <= 0),
    )


def _by_weight(bag: Bag, lot: Known) -> list[tuple[int, str]]:
    if bag.grams is None:
        return []
    off = bag.grams - lot.grams_left
    if abs(off) <= SCALE_GRAMS:
        return [(40, "weighs what is left of it")]
    if abs(off) * 100 <= lot.grams_left * 5:
        return [(25, f"weighs within {kg_to_the_gram(abs(off))} of it")]
    if off > 0:
        return [(-30, f"heavier than it by {kg_to_the_gram(off)}")]
    return [(5, _LIGHTER)] if -off * 2 <= lot.grams_left else [(-10, f"lighter by {kg_to_the_gram(-off)}")]


def _by_day(bag: Bag, lot: Known) -> list[tuple[int, str]]:
    if bag.on_day is None:
        return []
    if bag.on_day == lot.made_on:
        return [(30, "packed on that day")]
    if lot.use_by and bag.on_day == lot.use_by:
        return [(30, "that is its use-by date")]
    apart = abs((bag.on_day - lot.made_on).days)
    if apart <= 2:
        return [(12, f"packed {apart} {'day' if apart == 1 else 'days'} from it")]
    return [(-10, f"packed {apart} days from it")]


def _by_look(bag: Bag, lot: Known) -> list[tuple[int, str]]:
    seen = [word for word in plain_words(bag.look) if len(word) > 2]
    found = [word for word in seen if any(one.startswith(word) for one in lot.words)]
    missed = [word for word in seen if word not in found]
    said = [(15 * len(found), f"it is {', '.join(found)}")] if found else []
    return said + ([(-5 * len(missed), f"nothing says {', '.join(missed)}")] if missed else [])


def _by_place(bag: Bag, lot: Known) -> list[tuple[int, str]]:
    if not bag.store:
        return []
    if bag.place and bag.place == lot.place:
        return [(25, "it should lie there")]
    return [(10, "it should lie in that store")] if bag.store == lot.store else [(-5, "it lies elsewhere")]
