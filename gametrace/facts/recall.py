"""The steps of a withdrawal or recall, each with its source. Guidance for a kitchen, not law in full."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows


@dataclass(frozen=True, slots=True)
class RecallStep:
    id: str
    name: str
    source: str
    status: str
    note: str


@cache
def recall_steps() -> tuple[RecallStep, ...]:
    """In the order they are taken."""
    return tuple(
        RecallStep(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("recall", "step")
    )
