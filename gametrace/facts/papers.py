"""Which papers each route, origin and species group asks for, and what a declaration must hold.

The table only; what a given delivery lacks is said in `gametrace.domain.papers`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
from gametrace.facts.origins import ORIGINS, ROUTES, check_origin, check_route
from gametrace.facts.species import GROUPS

DEMANDS = ("must", "should", "not-expected")
PROOFS = ("declaration", "tag", "killed_on", "kill_time", "kill_place", "approval_number", "held")


@dataclass(frozen=True, slots=True)
class PaperRule:
    """One paper for one route, origin and group: how far it is asked for, and on whose word."""

    id: str
    paper: str
    name: str
    proof: str
    demand: str
    source: str
    status: str
    note: str
    images: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Image:
    """A picture worth keeping with a carcass."""

    id: str
    name: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class DeclarationItem:
    """One thing that a declaration must hold, and the field of the register that shows it."""

    id: str
    name: str
    field: str
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class NamedRule:
    """A rule without a figure, for a ruling to name: its source, its standing, its words."""

    id: str
    source: str
    status: str
    note: str


def _matches(listed: list[str], wanted: str) -> bool:
    return "any" in listed or wanted in listed


def _check(row: Row) -> Row:
    known = {"routes": tuple(ROUTES), "origins": tuple(ORIGINS), "groups": GROUPS}
    for field, words in known.items():
        for word in row[field]:
            if word != "any" and word not in words:
                raise BadFact(f"papers.toml: '{row['id']}' names the unknown {field} '{word}'.")
    for word in row["images"]:
        image(word)
    if row["demand"] not in DEMANDS or row["proof"] not in PROOFS:
        raise BadFact(f"papers.toml: '{row['id']}' has an unknown demand or proof.")
    return row


@cache
def papers_for(route: str, origin: str, group: str) -> tuple[PaperRule, ...]:
    """Every paper with a word said about it on this way to the door; one rule a paper."""
    check_route(route)
    check_origin(origin)
    if group not in GROUPS:
        raise one_of("species group", group, GROUPS)
    chosen: dict[str, PaperRule] = {}
    for row in map(_check, checked_rows("papers", "paper")):
        on_this_way = (
            _matches(row["routes"], route)
            and _matches(row["origins"], origin)
            and _matches(row["groups"], group)
        )
        if on_this_way and row["paper"] not in chosen:
            chosen[row["paper"]] = PaperRule(
                id=row["id"],
                paper=row["paper"],
                name=row["name"],
                proof=row["proof"],
                demand=row["demand"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
                images=tuple(row["images"]),
            )
    return tuple(chosen.values())


@cache
def all_images() -> tuple[Image, ...]:
    """Every kind of picture, in the order it is asked for."""
    return tuple(
        Image(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("papers", "image")
    )


def image(image_id: str) -> Image:
    """The kind of picture with this id."""
    for one in all_images():
        if one.id == image_id:
            return one
    raise one_of("image", image_id, tuple(one.id for one in all_images()))


def images_for(route: str, origin: str, group: str) -> tuple[Image, ...]:
    """The pictures worth keeping on this way to the door; none where no paper is expected."""
    wanted = {name for rule in papers_for(route, origin, group) for name in rule.images}
    return tuple(one for one in all_images() if one.id in wanted)


@cache
def declaration_items() -> tuple[DeclarationItem, ...]:
    """The seven items of a declaration for large wild game."""
    return tuple(
        DeclarationItem(
            id=row["id"],
            name=row["name"],
            field=row["field"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("papers", "declaration_item")
    )


def usual_origins(route: str) -> tuple[str, ...]:
    """The origins that belong to a route."""
    check_route(route)
    for row in checked_rows("papers", "pairing"):
        if row["route"] == route:
            return tuple(check_origin(one) for one in row["origins"])
    raise BadFact(f"papers.toml pairs no origin with the route '{route}'.")


def named_rule(rule_id: str) -> NamedRule:
    """A rule without a figure, by its id."""
    for row in checked_rows("papers", "rule"):
        if row["id"] == rule_id:
            return NamedRule(row["id"], row["source"], row["status"], row["note"])
    raise one_of("rule", rule_id, tuple(row["id"] for row in checked_rows("papers", "rule")))
