"""How what was filled in is parted into entries: each addition its own, save what only makes sense as one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from gametrace.desktop.delivery.paper_part import STATEMENTS

# Written by acts of their own, or never again.
NOT_AMENDED = frozenset({"grams", "place", "basis", "count"})

TOGETHER = (
    ("supplier", "route", "origin", "approval_number"),
    ("has_declaration", "declaration_number", *(name for name, _ in STATEMENTS)),
    ("trained_person", "certificate_number"),
    ("species", "sex", "age_class"),
    ("killed_on", "kill_time", "dispatched_on"),  # their order is judged together
    ("exception_type", "exception_number"),
    ("latitude_millionths", "longitude_millionths"),
    ("readings", "probe"),
)


def parted(changed: Sequence[str], values: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The changes in the order of the form, what belongs together in one."""
    left = [name for name in changed if name not in NOT_AMENDED]
    entries = []
    while left:
        group = next((names for names in TOGETHER if left[0] in names), (left[0],))
        entries.append({name: values[name] for name in left if name in group})
        left = [name for name in left if name not in group]
    return entries
