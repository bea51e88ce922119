"""What a weight in one dressing state may come to in another: an estimate with its range, never a weight.

It uses only factors measured on the same species, and gives none where none is held. An estimate is shown
beside a weight and thrown away; it is never recorded as one.
"""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.deliveries import Basis
from gametrace.domain.quantities import kg_text
from gametrace.facts.conversions import DRESSED, Factor, check_basis, factors
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called

_WHOLE = 10_000


@dataclass(frozen=True, slots=True)
class Estimate:
    """A range of grams in another dressing state; `words` say what it is and on whose figures."""

    low_grams: int
    mid_grams: int
    high_grams: int
    words: str
    source: str
    status: str


def basis_of(basis: Basis) -> str | None:
    """The dressing state a factor speaks of; None where no factor does (a pluck still in, say)."""
    if basis.pluck_in:
        return None
    if basis.in_skin and basis.head_on and basis.feet_on:
        return "gralloched"
    if basis.head_on or basis.feet_on:
        return None
    return "clean" if basis.in_skin else "skinned"


def estimate(*, species: str, sex: str, grams: int, from_basis: str, to_basis: str) -> Estimate | None:
    """The weight in the other state by every factor held, low to high; None where none is held.

    A factor is also read backwards, from the dressed weight to the fuller one.
    """
    if grams <= 0 or check_basis(from_basis) == check_basis(to_basis):
        return None
    kind = species_called(species)
    rows = factors(kind.id, sex, from_basis, to_basis)
    if rows:
        low, mid, high = _forwards(grams, rows)
    else:
        rows = factors(kind.id, sex, to_basis, from_basis)
        if not rows:
            return None
        low, mid, high = _backwards(grams, rows)
    words = (
        f"About {_tenths(_nearest(mid, 100))} {DRESSED[to_basis]} ({_range(low, high)}): an estimate from "
        f"{kg_text(grams)} {DRESSED[from_basis]}, {_whose(kind.name, rows)}. It is not a weight: weigh it."
    )
    sources = "; ".join(dict.fromkeys(citation(row.source) for row in rows))
    status = "; ".join(dict.fromkeys(row.status for row in rows))
    return Estimate(low, mid, high, words, sources, status)


def _forwards(grams: int, rows: tuple[Factor, ...]) -> tuple[int, int, int]:
    """Low rounded down and high up, so that the range never comes out too narrow."""
    middle = sum(row.mid for row in rows)
    return (
        grams * min(row.low for row in rows) // _WHOLE,
        _nearest(grams * middle, _WHOLE * len(rows)),
        _up(grams * max(row.high for row in rows), _WHOLE),
    )


def _backwards(grams: int, rows: tuple[Factor, ...]) -> tuple[int, int, int]:
    middle = sum(row.mid for row in rows)
    return (
        grams * _WHOLE // max(row.high for row in rows),
        _nearest(grams * _WHOLE * len(rows), middle),
        _up(grams * _WHOLE, min(row.low for row in rows)),
    )


def _nearest(top: int, bottom: int) -> int:
    return (2 * top + bottom) // (2 * bottom)


def _up(top: int, bottom: int) -> int:
    return -(-top // bottom)


def _range(low: int, high: int) -> str:
    if high - low <= 1:
        return "no spread is published"
    return f"{_tenths(low // 100)} to {_tenths(_up(high, 100))}"


def _tenths(hundreds_of_grams: int) -> str:
    """A figure no finer than an estimate deserves: 24.7 kg."""
    return f"{hundreds_of_grams // 10}.{hundreds_of_grams % 10} kg"


def _whose(species: str, rows: tuple[Factor, ...]) -> str:
    counted = sum(row.n for row in rows)
    least = "at least " if any(row.n == 0 for row in rows) else ""
    animals = f"{least}{counted} {species} counted"
    sources = len({row.source for row in rows})
    many = "one source" if sources == 1 else f"{sources} sources"
    return f"by {many}, {animals}" if counted else f"by {many} on {species}, animals not counted"
