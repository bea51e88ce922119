"""How far what is unaccounted may go: green, amber or red by the kitchen's own tolerance.

No authority names a figure; practitioners quote 98 to 102 per cent and say: choose your own and explain the
gap. The least weight below which nothing is red is for small deer, where a drip and a scale's step count.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from gametrace.domain.quantities import kg_text

LEAST_RED_GRAMS = 500  # inference; see the module's docstring


class Standing(StrEnum):
    GREEN = "green"
    AMBER = "amber"
    RED = "red"


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Tenths of a per cent of what was received."""

    amber_tenths: int = 20
    red_tenths: int = 50


def standing_of(received_grams: int, unaccounted_grams: int, tolerance: Tolerance) -> Standing:
    """More than was received is as much out of balance as less."""
    off = abs(unaccounted_grams)
    if off * 1000 <= received_grams * tolerance.amber_tenths:
        return Standing.GREEN
    red_from = max(received_grams * tolerance.red_tenths, LEAST_RED_GRAMS * 1000)
    return Standing.AMBER if off * 1000 <= red_from else Standing.RED


def standing_words(received_grams: int, unaccounted_grams: int, tolerance: Tolerance) -> str:
    """'amber: 1.20 kg unaccounted, 3.1 % of what was received'."""
    standing = standing_of(received_grams, unaccounted_grams, tolerance)
    if not unaccounted_grams:
        return f"{standing}: every gram is accounted for"
    tenths = round(abs(unaccounted_grams) * 1000 / received_grams) if received_grams else 1000
    share = f"{tenths // 10}.{tenths % 10} % of what was received"
    said = f"{kg_text(abs(unaccounted_grams))} {'unaccounted' if unaccounted_grams > 0 else 'too much'}"
    limits = f"amber past {_percent(tolerance.amber_tenths)}, red past {_percent(tolerance.red_tenths)}"
    return f"{standing}: {said}, {share} ({limits})"


def _percent(tenths: int) -> str:
    return f"{tenths // 10}.{tenths % 10} %" if tenths % 10 else f"{tenths // 10} %"
