"""Which category a thing not for food goes in, whether the kitchen has settled it, and when papers may go.

Where sources differ it shows both readings and asks. The local authority and the collector decide.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.by_products import (
    Reading,
    by_product,
    category,
    document_fields,
    readings,
    years_to_keep_papers,
)
from gametrace.facts.sources import citation


@dataclass(frozen=True, slots=True)
class Confirmed:
    """What the kitchen settled once with its authority: the category, who said so and when."""

    category: int
    said_by: str
    on: date


def category_of(item: str, confirmed: Mapping[str, Confirmed] | None = None) -> int:
    """The category the kitchen confirmed, else the default of the facts."""
    settled = (confirmed or {}).get(item)
    return category(settled.category).category if settled else by_product(item).category


def category_findings(
    item: str, confirmed: Mapping[str, Confirmed] | None = None, *, disease_suspected: bool = False
) -> tuple[Finding, ...]:
    """A stop on suspicion, a question where readings differ and nothing is confirmed; else nothing."""
    held = by_product(item)
    if disease_suspected:
        return (_suspected(),)
    differing = readings(held.id)
    if held.id in (confirmed or {}) or len({one.category for one in differing}) < 2:
        return ()
    said = " ".join(f"Category {one.category}: {one.words} ({citation(one.source)})" for one in differing)
    return (
        Finding(
            "category-not-settled",
            Severity.ASK,
            f"The category of '{held.id}' is not settled here; it is put down as {held.category}. {said}",
            "Ask the local authority and the collector once, and confirm the category in the set-up.",
            "; ".join(dict.fromkeys(citation(one.source) for one in differing)),
            _standings(differing),
        ),
    )


def _suspected() -> Finding:
    first = category(1)
    return Finding(
        "by-product-suspected",
        Severity.STOP,
        "A disease that people or animals can catch is suspected: this would be category 1.",
        "Dispose of nothing. Keep it apart and ring the authority; they say what becomes of it.",
        citation(first.source),
        first.status,
    )


def _standings(differing: tuple[Reading, ...]) -> str:
    return "; ".join(dict.fromkeys(one.status for one in differing))


def missing_on_document(given: Mapping[str, str]) -> tuple[str, ...]:
    """The names of what the commercial document must show and does not, in its order."""
    return tuple(field.name for field in document_fields() if not given.get(field.id, "").strip())


def keep_papers_until(day: date) -> date:
    """The last day on which a by-product paper of that day must still be at hand."""
    year = min(day.year + years_to_keep_papers(), date.max.year)
    if (day.month, day.day) == (2, 29):
        return date(year, 3, 1)
    return day.replace(year=year)
