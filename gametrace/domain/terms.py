"""The terms of a college year, by which drills are counted. The usual months; a college's own may differ."""

from __future__ import annotations

from datetime import date


def term_of(day: date) -> str:
    """'autumn term 2026': September to December; spring to April; summer to August."""
    name = "autumn term" if day.month >= 9 else "spring term" if day.month < 5 else "summer term"
    return f"{name} {day.year}"
