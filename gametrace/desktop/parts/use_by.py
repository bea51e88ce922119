"""Meat as lists show it: its name, its weight, and its date with how near it is in words and colour.

It judges nothing: a day that has come near is not a word about the meat.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from gametrace.desktop.parts.days import day_text
from gametrace.domain.quantities import kg_figure

if TYPE_CHECKING:
    from gametrace.register.records import Lot

DUE_WITHIN_DAYS = 2  # the kitchen's own figure; common practice, no source


def due_role(use_by: date | None, today: date) -> str:
    """'plum' when past, 'amber' when due within two days, else ''."""
    if use_by is None:
        return ""
    left = (use_by - today).days
    return "plum" if left < 0 else "amber" if left <= DUE_WITHIN_DAYS else ""


def due_words(use_by: date | None, today: date) -> str:
    """'4 Dec 2026', '4 Dec 2026, today', '4 Dec 2026, 3 days past'; a dash where there is no date."""
    if use_by is None:
        return "–"
    left = (use_by - today).days
    near = {0: ", today", 1: ", tomorrow", 2: ", in 2 days", -1: ", 1 day past"}.get(left, "")
    if left < -1:
        near = f", {-left} days past"
    return day_text(use_by) + near


def meat_name(lot: Lot) -> str:
    """'haunch, left · fallow': what it is and of what; a carcass says so itself."""
    if lot.kind in ("part", "pack", "mix") and lot.species:
        return f"{lot.name} · {lot.species.replace('-', ' ')}"
    return lot.name


def kg_aligned(grams: int) -> str:
    """'61.50' or '61.505', both with the point at the same place when aligned right in tabular figures."""
    figure = kg_figure(grams)
    return figure if len(figure.partition(".")[2]) == 3 else figure + "\u2007"
