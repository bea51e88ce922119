"""What the larder's own records and the supplier's papers say, in sentences. Knows values, paints nothing."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from gametrace.desktop.parts.days import day_text
from gametrace.domain.quantities import kg_text

FEW = 5  # deliveries below which a score says little; inference
AHEAD = timedelta(days=31)

_PAPERS = (
    ("certificate_until", "The trained person's certificate", "lapsed", "lapses"),
    ("insured_until", "The insurance", "lapsed", "lapses"),
    ("review_on", "The yearly review", "was due", "is due"),
)


def lapse_lines(approval: Any, today: date) -> tuple[str, ...]:
    """What has lapsed or lapses within a month. `approval` is the supplier book's Approval."""
    said = []
    for column, paper, gone, going in _PAPERS:
        until = getattr(approval, column)
        if until is not None and until <= today + AHEAD:
            said.append(f"{paper} {gone if until < today else going} on {day_text(until)}.")
    return tuple(said)


def score_lines(score: Any) -> tuple[str, ...]:
    """The scorecard in sentences; `score` is the supplier book's Score, or None for one that brought nothing.

    A count is always told of how many, and few deliveries are called few.
    """
    if score is None or score.animals == 0:
        return ("Nothing has come from this supplier yet.",)
    of = score.animals
    lines = [f"{_counted(of, 'delivery', 'deliveries')}, {kg_text(score.grams)} in all."]
    if of < FEW:
        lines.append(f"Too few to judge by: a score says something from {FEW} deliveries on.")
    lines += [
        f"Refused: {_of(score.refused, of)}.",
        f"Too warm at the door: {_of(score.warm, of)}.",
        f"Papers incomplete: {_of(score.paper_gaps, of)}.",
    ]
    per_mille = (score.damaged_grams * 1000 + score.grams // 2) // score.grams if score.grams else 0
    share = f", {per_mille // 10}.{per_mille % 10} % of the weight" if score.damaged_grams else ""
    lines.append(
        f"Shot damage weighed off: {kg_text(score.damaged_grams) if score.damaged_grams else 'none'}{share}."
    )
    return tuple(lines)


def _of(count: int, of: int) -> str:
    return f"{count or 'none'} of {of}"


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"
