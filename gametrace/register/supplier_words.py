"""What the supplier's papers and the larder's own records say, in sentences: for the window and on paper.

A count is always told of how many, a share only where there are enough of them to mean something.
"""

from __future__ import annotations

from datetime import date, timedelta

from gametrace.domain.quantities import kg_text
from gametrace.register.clock import day_text
from gametrace.register.supplier_book import Approval, Score

FEW = 5  # deliveries below which a score says little; inference
AHEAD = timedelta(days=31)

_LEAD = {"yes": "stated, in writing", "no": "the supplier says no", "not stated": "not stated"}
_PAPERS = (
    ("certificate_until", "The trained person's certificate", "lapsed", "lapses"),
    ("lead_free_until", "The lead-free statement", "lapsed", "lapses"),
    ("insured_until", "The insurance", "lapsed", "lapses"),
    ("review_on", "The yearly review", "was due", "is due"),
)


def lapse_lines(approval: Approval, today: date) -> tuple[str, ...]:
    """What has lapsed or lapses within a month."""
    said = []
    for column, paper, gone, going in _PAPERS:
        until: date | None = getattr(approval, column)
        if until is not None and until <= today + AHEAD:
            said.append(f"{paper} {gone if until < today else going} on {day_text(until)}.")
    return tuple(said)


def paper_lines(approval: Approval) -> tuple[str, ...]:
    """The approval file in lines: each paper, and until when it holds. A blank is told as one."""
    who = ", ".join(filter(None, (approval.trained_hunter, approval.certificate_number)))
    return (
        f"Registration or approval: {approval.approval_number or 'not stated'}",
        f"Trained hunter: {who or 'not stated'}{_until(approval.certificate_until)}",
        f"Lead-free: {_LEAD[approval.lead_free]}{_until(approval.lead_free_until)}",
        f"Insured: {_until(approval.insured_until).removeprefix(', ') or 'not stated'}",
        f"Next review: {day_text(approval.review_on) if approval.review_on else 'not stated'}",
        f"Price basis: {approval.price_basis or 'not stated'}",
    )


def _until(day: date | None) -> str:
    return f", until {day_text(day)}" if day else ""


def score_lines(score: Score | None) -> tuple[str, ...]:
    """The scorecard in sentences; None for a supplier that brought nothing."""
    if score is None or score.animals == 0:
        return ("Nothing has come from this supplier yet.",)
    of = score.animals
    lines = [f"{of} {'delivery' if of == 1 else 'deliveries'}, {kg_text(score.grams)} in all."]
    if of < FEW:
        lines.append(f"Too few to judge by: a score says something from {FEW} deliveries on.")
    lines += [
        f"Refused: {_of(score.refused, of)}.",
        f"Too warm at the door: {_of(score.warm, of)}.",
        f"Papers incomplete: {_of(score.paper_gaps, of)}.",
    ]
    if score.damaged_grams:
        share = f", {_share(score.damaged_grams, score.grams)} of the weight" if score.grams else ""
        lines.append(f"Shot damage: {_of(score.damaged, of)}; {kg_text(score.damaged_grams)} off{share}.")
    else:
        lines.append("Shot damage weighed off: none.")
    return tuple(lines)


def _of(count: int, of: int) -> str:
    """'3 of 12, 25.0 %'; of few, the count alone."""
    if not count:
        return f"none of {of}"
    return f"{count} of {of}" + (f", {_share(count, of)}" if of >= FEW else "")


def _share(part: int, whole: int) -> str:
    per_mille = (part * 2_000 + whole) // (2 * whole)
    return f"{per_mille // 10}.{per_mille % 10} %"
