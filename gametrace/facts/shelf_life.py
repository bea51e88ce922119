"""How many days meat is given in each state, counted from what, and on whose word.

The figures only; the dates are worked out in `gametrace.domain.dates`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of

STATES = ("chilled-loose", "vacuum", "modified-atmosphere", "frozen", "thawed", "mince")


@dataclass(frozen=True, slots=True)
class ShelfLife:
    """One rule. `kind` is 'use by' (safety) or 'best before' (quality)."""

    id: str
    name: str
    state: str
    days: int
    counted_from: str
    kind: str
    mince: bool
    source: str
    status: str
    note: str


@cache
def shelf_lives() -> tuple[ShelfLife, ...]:
    """Every rule, in file order."""
    held = tuple(
        ShelfLife(
            id=row["id"],
            name=row["name"],
            state=row["state"],
            days=row["days"],
            counted_from=row["counted_from"],
            kind=row["kind"],
            mince=row["mince"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("shelf_life", "rule")
    )
    for one in held:
        if one.state not in STATES or one.days < 0 or one.kind not in ("use by", "best before"):
            raise BadFact(f"shelf_life.toml: '{one.id}' has an unknown state, kind or a negative life.")
    return held


def shelf_life(rule_id: str) -> ShelfLife:
    """The rule with this id."""
    for held in shelf_lives():
        if held.id == rule_id:
            return held
    raise one_of("shelf-life rule", rule_id, tuple(one.id for one in shelf_lives()))


def shelf_life_for(state: str, is_mince: bool) -> ShelfLife:
    """The rule for a state. Chilled mince has one short life, packed or loose; so has thawed meat."""
    if state not in STATES:
        raise one_of("state of meat", state, STATES)
    if state == "frozen":
        return shelf_life("frozen-mince" if is_mince else "frozen")
    if is_mince and state != "thawed":
        return shelf_life("mince")
    return shelf_life(state)
