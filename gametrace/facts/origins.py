"""Where an animal lived and died (origin) and by which way it reached the door (route).

Names and meanings only; which papers each asks for is in `gametrace.facts.papers`.
"""

from __future__ import annotations

from gametrace.facts.loading import checked_rows, one_of
from gametrace.facts.seasons import JURISDICTIONS, check_jurisdiction

_ORIGIN_ROWS = checked_rows("origins", "origin")

ORIGINS: dict[str, str] = {row["id"]: row["name"] for row in _ORIGIN_ROWS}
ORIGIN_MEANINGS: dict[str, str] = {row["id"]: row["meaning"] for row in _ORIGIN_ROWS}
FARMED_ORIGINS: frozenset[str] = frozenset(row["id"] for row in _ORIGIN_ROWS if row["farmed"])
ROUTES: dict[str, str] = {row["id"]: row["name"] for row in checked_rows("origins", "route")}

__all__ = [
    "FARMED_ORIGINS",
    "JURISDICTIONS",
    "ORIGINS",
    "ORIGIN_MEANINGS",
    "ROUTES",
    "check_jurisdiction",
    "check_origin",
    "check_route",
]


def check_origin(origin: str) -> str:
    """The origin, if the facts know it."""
    if origin not in ORIGINS:
        raise one_of("origin", origin, tuple(ORIGINS))
    return origin


def check_route(route: str) -> str:
    """The supply route, if the facts know it."""
    if route not in ROUTES:
        raise one_of("supply route", route, tuple(ROUTES))
    return route
