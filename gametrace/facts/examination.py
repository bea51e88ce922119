"""What is looked at on a carcass in the order of the body, lymph nodes by name, and notifiable signs.

Words and places only; what an answer means is said in `gametrace.domain.examination`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
from gametrace.facts.seasons import JURISDICTIONS, check_jurisdiction
from gametrace.facts.species import GROUPS

NEEDS = ("none", "skin-on", "head", "pluck", "gut")
NODE_GROUPS = ("large", "boar")


@dataclass(frozen=True, slots=True)
class Point:
    """One thing to look at. `kind` is point, node or sign; `needs` is what must be there to be looked at."""

    id: str
    kind: str
    name: str
    where: str
    as_it_should_be: str
    not_so: str
    needs: str
    groups: tuple[str, ...]
    if_not_so: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Contact:
    """Whom to ring about a notifiable disease; the number may be left for the kitchen to write in."""

    id: str
    jurisdiction: str
    name: str
    telephone: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do on suspicion."""

    id: str
    name: str
    source: str
    status: str
    note: str


@cache
def never_cut() -> Step:
    """The words that stand over the lymph nodes."""
    row = checked_rows("examination", "node_look")[0]
    return Step(row["id"], row["words"], row["source"], row["status"], row["note"])


def _body_point(row: Row) -> Point:
    return Point(
        id=row["id"],
        kind="point",
        name=row["name"],
        where=row["where"],
        as_it_should_be=row["as_it_should_be"],
        not_so=row["not_so"],
        needs=row["needs"],
        groups=tuple(row["groups"]),
        if_not_so=row["if_not_so"],
        source=row["source"],
        status=row["status"],
        note=row["note"],
    )


def _node(row: Row) -> Point:
    look = checked_rows("examination", "node_look")[0]
    return Point(
        id=row["id"],
        kind="node",
        name=row["name"],
        where=row["where"],
        as_it_should_be=look["as_it_should_be"],
        not_so=look["not_so"],
        needs=row["needs"],
        groups=NODE_GROUPS,
        if_not_so="stop",
        source=row["source"],
        status=row["status"],
        note=row["note"],
    )


def _sign(row: Row) -> Point:
    return Point(
        id=row["id"],
        kind="sign",
        name=row["name"],
        where="the whole body",
        as_it_should_be="no such sign",
        not_so=row["seen_as"],
        needs=row["needs"],
        groups=tuple(row["groups"]),
        if_not_so="stop",
        source=row["source"],
        status=row["status"],
        note=row["note"],
    )


@cache
def all_points() -> tuple[Point, ...]:
    """Everything looked at: the body, then the nodes, then the signs."""
    held = (
        *(_body_point(row) for row in checked_rows("examination", "point")),
        *(_node(row) for row in checked_rows("examination", "node")),
        *(_sign(row) for row in checked_rows("examination", "sign")),
    )
    known: set[str] = set()
    for one in held:
        if one.needs not in NEEDS or one.if_not_so not in ("ask", "stop") or one.id in known:
            raise BadFact(f"examination.toml: '{one.id}' has an unknown need or severity, or is there twice.")
        if not set(one.groups) <= set(GROUPS):
            raise BadFact(f"examination.toml: '{one.id}' is for an unknown group.")
        known.add(one.id)
    return held


def points_for(group: str) -> tuple[Point, ...]:
    """What is looked at on one group of species, in order."""
    if group not in GROUPS:
        raise one_of("species group", group, GROUPS)
    return tuple(one for one in all_points() if group in one.groups)


def point(point_id: str) -> Point:
    """The point, node or sign with this id."""
    for one in all_points():
        if one.id == point_id:
            return one
    raise one_of("point", point_id, tuple(one.id for one in all_points()))


@cache
def contact_for(jurisdiction: str) -> Contact:
    """Whom to ring there."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("examination", "contact"):
        if row["jurisdiction"] == jurisdiction:
            return Contact(
                id=row["id"],
                jurisdiction=jurisdiction,
                name=row["name"],
                telephone=row["telephone"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise BadFact(f"examination.toml names nobody to ring in {JURISDICTIONS[jurisdiction]}.")


@cache
def steps_on_suspicion() -> tuple[Step, ...]:
    """What to do, in order, when a notifiable disease is suspected."""
    return tuple(
        Step(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("examination", "on_suspicion")
    )
