"""What stays on the form from one body of a card to the next, and what belongs to each body alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from gametrace.desktop.delivery.paper_part import STATEMENTS

KEPT = (
    "supplier",
    "route",
    "origin",
    "has_declaration",
    "declaration_number",
    *(name for name, _ in STATEMENTS),
    "trained_person",
    "certificate_number",
    "approval_number",
    "dispatched_on",
    "probe",
)


def kept_for_next(values: Mapping[str, Any]) -> dict[str, Any]:
    """The values of the card; the day, time and place of killing are each body's own."""
    return {name: values[name] for name in KEPT if name in values}
