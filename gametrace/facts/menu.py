"""Words a menu may use of game and what in the records shows or contradicts each; the advice on lead.

Rows only; `gametrace.domain.menu_claims` judges them animal by animal.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows, one_of

CLAIMS = ("wild", "farmed", "park", "species", "place", "no-lead", "hung")


@dataclass(frozen=True, slots=True)
class ClaimWord:
    """One claim. `shown_by` and `contradicted_by` are recorded words; anything else shows nothing."""

    id: str
    name: str
    shown_by: tuple[str, ...]
    contradicted_by: tuple[str, ...]
    source: str
    status: str
    note: str


@cache
def claim_word(claim_id: str) -> ClaimWord:
    """The claim with this id."""
    for row in checked_rows("menu", "claim"):
        if row["id"] == claim_id:
            return ClaimWord(
                id=row["id"],
                name=row["name"],
                shown_by=tuple(row["shown_by"]),
                contradicted_by=tuple(row["contradicted_by"]),
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise one_of("claim on a menu", claim_id, CLAIMS)


@dataclass(frozen=True, slots=True)
class Advice:
    """What a food authority advises, in our words."""

    source: str
    status: str
    note: str


@cache
def lead_advice() -> Advice:
    """The advice on game shot with lead."""
    row = checked_rows("menu", "advice")[0]
    return Advice(row["source"], row["status"], row["note"])
