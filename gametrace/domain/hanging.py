"""How long a carcass may hang by what the sources say, and whether it has hung too short or too long.

Sources conflict, so the plan shows their spread and takes days that offend none of them; a kitchen sets
its own. It counts days from the kill and says nothing of warmth, air or what the meat is like.
"""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.findings import Finding, Severity
from gametrace.facts.hanging import HangingRange, hanging_ranges, young_rule
from gametrace.facts.sources import citation
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called

THE_KITCHENS_OWN = "the kitchen's own days"


@dataclass(frozen=True, slots=True)
class HangingPlan:
    """Days from the kill: ready from, by, and the shortest and longest that any source names."""

    ready_from_days: int
    by_days: int
    shortest_days: int
    longest_days: int
    words: str
    source: str
    status: str
    own: bool = False


def hanging_plan(
    species: str, age_class: str = "", own_days: tuple[int, int] | None = None
) -> HangingPlan | None:
    """The plan for a kind and age; None where no source and no figure of the kitchen's own is held.

    By: the shortest of the sources' longest days. Ready from: the longest of their shortest days that
    still comes before it; for a young animal, the shortest of them.
    """
    kind = species_called(species)
    rows = hanging_ranges(kind.id, age_class)
    if own_days is not None:
        return _own_plan(own_days, rows)
    if not rows:
        return None
    by_days = min(row.high_days for row in rows)
    fitting = [row.low_days for row in rows if row.low_days <= by_days]
    young = _is_young(kind.id, age_class)
    ready = min(fitting) if young else max(fitting)
    words = f"Ready from day {ready}, by day {by_days} from the kill. {_spread(rows)}"
    if young:
        words = f"{words} {young_rule().note}"
    sources = "; ".join(dict.fromkeys(citation(row.source) for row in rows))
    status = "; ".join(dict.fromkeys(row.status for row in rows))
    return HangingPlan(ready, by_days, *_ends(rows), words, sources, status)


def _own_plan(own_days: tuple[int, int], rows: tuple[HangingRange, ...]) -> HangingPlan:
    ready, by_days = own_days
    if not 0 <= ready <= by_days:
        raise ValueError("The kitchen's own days run from the earlier to the later.")
    shortest, longest = _ends(rows) if rows else own_days
    words = f"Ready from day {ready}, by day {by_days} from the kill, by the kitchen's own days."
    if rows:
        words = f"{words} {_spread(rows)}"
    return HangingPlan(ready, by_days, shortest, longest, words, THE_KITCHENS_OWN, "own", own=True)


def _is_young(species_id: str, age_class: str) -> bool:
    return any(not one.adult for one in age_classes(species_id, "unknown") if one.id == age_class)


def _ends(rows: tuple[HangingRange, ...]) -> tuple[int, int]:
    return min(row.low_days for row in rows), max(row.high_days for row in rows)


def _spread(rows: tuple[HangingRange, ...]) -> str:
    """Every source's own days: '0 to 10 (chilled, good air; Scottish best-practice guide)'."""
    said = (
        f"{row.low_days} to {row.high_days} ({'; '.join(filter(None, (row.how, citation(row.source))))})"
        for row in rows
    )
    return f"Sources say: {', '.join(said)}."


def hanging_findings(
    *,
    species: str,
    age_class: str = "",
    days_hung: int,
    own_days: tuple[int, int] | None = None,
) -> tuple[Finding, ...]:
    """One finding for the day: too soon, ready, over-run (asks a reason), or no figure held."""
    kind = species_called(species)
    plan = hanging_plan(kind.id, age_class, own_days)
    hung = f"{kind.name.capitalize()}, {_days(days_hung)} from the kill"
    if days_hung < 0:
        return (
            Finding(
                "hanging-before-kill",
                Severity.ASK,
                f"{kind.name.capitalize()}: the day asked about lies before the kill.",
                "Read the day of killing on the card again.",
                "the calendar",
            ),
        )
    if plan is None:
        sentence = f"{hung}. No source on hanging is held for it; the kitchen sets its own days."
        return (Finding("hanging-no-figure", Severity.NOTE, sentence),)
    if days_hung < plan.ready_from_days:
        code, severity, said, ask = "hanging-not-yet", Severity.NOTE, "not ready yet", ""
    elif days_hung <= plan.by_days:
        code, severity, said, ask = "hanging-ready", Severity.NOTE, "ready", ""
    else:
        beyond = " and longer than any source names" if days_hung > plan.longest_days else ""
        code, severity, said = "hanging-over-run", Severity.ASK, f"past the day it was to come down{beyond}"
        ask = "Look at it and smell it; cut it, or say why it hangs on."
    return (Finding(code, severity, f"{hung}: {said}. {plan.words}", ask, plan.source, plan.status),)


def _days(count: int) -> str:
    return "a day" if count == 1 else f"{count} days"
