"""Dates on meat: the last day by each shelf-life rule, and the plain words for a day.

A date comes from a rule with a source. It does not say that the meat is good on that day: the
kitchen's own food safety plan decides, and may only be shortened or overridden with a reason.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from gametrace.facts.shelf_life import ShelfLife, shelf_life, shelf_life_for
from gametrace.facts.sources import citation

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def day_words(day: date) -> str:
    """A day as people say it, whatever the machine's language: 1 November 2026."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


@dataclass(frozen=True, slots=True)
class DateRule:
    """How many days a state of meat is given, counted from what, and who says so."""

    id: str
    name: str
    state: str
    days: int
    counted_from: str
    source: str
    status: str
    note: str

    def last_day(self, from_day: date) -> date:
        """The last day, the day counted from being day nought."""
        return from_day + timedelta(days=self.days)


def _date_rule(held: ShelfLife) -> DateRule:
    return DateRule(
        id=held.id,
        name=held.name,
        state=held.state,
        days=held.days,
        counted_from=held.counted_from,
        source=citation(held.source),
        status=held.status,
        note=held.note,
    )


def rule(rule_id: str) -> DateRule:
    """The rule with this id, its source spelt out."""
    return _date_rule(shelf_life(rule_id))


def rule_for(state: str, is_mince: bool) -> DateRule:
    """The rule for meat in this state; minced meat takes the shorter life whatever it is packed in."""
    return _date_rule(shelf_life_for(state, is_mince))


def use_by(rule_id: str, from_day: date) -> date:
    """The last day by a rule, counted from a day."""
    return rule(rule_id).last_day(from_day)
