"""How many days meat is given in each state, counted from what, and on whose word.

The figures only; the dates are worked out in `gametrace.domain.dates`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of

STATES = ("chilled-loose", "vacuum", "modified-atmosphere", "frozen", "thawed", "mince", "cooked")


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


@dataclass(frozen=True, slots=True)
class DateChange:
    """What is said of changing a date: packing again, freezing, thawing, mixing, a date by hand."""

    id: str
    name: str
    source: str
    status: str
    note: str


@cache
def date_change(change_id: str) -> DateChange:
    """The words with this id."""
    rows = checked_rows("shelf_life", "change")
    for row in rows:
        if row["id"] == change_id:
            return DateChange(row["id"], row["name"], row["source"], row["status"], row["note"])
    raise one_of("rule on changing a date", change_id, tuple(row["id"] for row in rows))


@dataclass(frozen=True, slots=True)
class ThawMethod:
    """One way of thawing."""

    id: str
    name: str
    must_be_cooked_at_once: bool
    source: str
    status: str
    note: str


@cache
def thaw_methods() -> dict[str, ThawMethod]:
    """Every way of thawing by id."""
    return {
        row["id"]: ThawMethod(
            id=row["id"],
            name=row["name"],
            must_be_cooked_at_once=row["must_be_cooked_at_once"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("shelf_life", "thawing")
    }


def thaw_method(method_id: str) -> ThawMethod:
    """The way of thawing with this id."""
    held = thaw_methods().get(method_id)
    if held is None:
        raise one_of("way of thawing", method_id, tuple(thaw_methods()))
    return held
