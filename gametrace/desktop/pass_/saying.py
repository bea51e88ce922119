"""What may be said of a dish from the records: animals, species and origins with their exact shares.

It adds up what the traces of the packs show and claims nothing beyond that.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from gametrace.facts.origins import ORIGINS
from gametrace.facts.species import species as species_called


@dataclass(frozen=True, slots=True)
class Share:
    """One line: words, a second line, and its exact share of the dish."""

    words: str
    also: str
    share: Fraction

    @property
    def percent(self) -> str:
        return percent(self.share)


@dataclass(frozen=True, slots=True)
class Said:
    """The three lists, largest share first, and the share no record leads back to an animal."""

    animals: tuple[Share, ...] = ()
    species: tuple[Share, ...] = ()
    origins: tuple[Share, ...] = ()
    not_shown: Fraction = Fraction(0)


def percent(share: Fraction) -> str:
    """'62 %' where it is whole, else '62.5 %'; 'under 0.1 %' for a trace of it."""
    tenths = int(share * 1000 + Fraction(1, 2))
    if share > 0 and tenths == 0:
        return "under 0.1 %"
    whole, tenth = divmod(tenths, 10)
    return f"{whole}.{tenth} %" if tenth or share * 100 != whole else f"{whole} %"


def said_of(taken: Iterable[tuple[int, Any]]) -> Said:
    """From the grams taken of each lot and its trace."""
    pairs = [(grams, trace) for grams, trace in taken if grams > 0]
    total = sum(grams for grams, _ in pairs)
    if not total:
        return Said()
    animals: dict[str, list[Any]] = {}
    for grams, trace in pairs:
        for one in trace.animals:
            held = animals.setdefault(one.code, [one, Fraction(0)])
            held[1] += Fraction(grams, total) * one.share
    species: dict[str, Fraction] = {}
    origins: dict[str, Fraction] = {}
    for one, share in animals.values():
        species[one.species] = species.get(one.species, Fraction(0)) + share
        origins[one.origin_type] = origins.get(one.origin_type, Fraction(0)) + share
    lines = [Share(one.name, _about(one), share) for one, share in animals.values()]
    return Said(
        animals=_sorted(lines),
        species=_sorted(Share(species_called(key).name, "", share) for key, share in species.items()),
        origins=_sorted(Share(ORIGINS.get(key, key), "", share) for key, share in origins.items()),
        not_shown=1 - sum((share for _, share in animals.values()), Fraction(0)),
    )


def _about(one: Any) -> str:
    parts = [one.code, f"tag {one.tag}" if one.tag else "no tag"]
    if one.place:
        parts.append(one.place)
    return ", ".join(parts)


def _sorted(lines: Iterable[Share]) -> tuple[Share, ...]:
    return tuple(sorted(lines, key=lambda one: -one.share))
