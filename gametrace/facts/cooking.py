"""Core temperatures with times as two published tables give them, and hot holding, cooling and reheating.

Rows only; `gametrace.domain.cooking` asks for the longer time and names both tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
from gametrace.facts.seasons import check_jurisdiction

TABLES = ("business", "committee")
MEATS = ("whole", "minced", "boar", "offal")


@dataclass(frozen=True, slots=True)
class CookTable:
    """One published table: its z value and its lines, coldest first, as (tenths of a degree, seconds)."""

    id: str
    name: str
    z_tenths: int
    lines: tuple[tuple[int, int], ...]
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class CookRule:
    """A figure beside cooking. `tenths_c` is None where no law names one; `minutes` 0 where none apply."""

    id: str
    tenths_c: int | None
    minutes: int
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class MeatRule:
    """What the sources say of serving a sort of meat pink."""

    id: str
    name: str
    may_be_pink: bool
    source: str
    status: str
    note: str


@cache
def cook_table(table_id: str) -> CookTable:
    """The table with this id: business or committee."""
    for row in checked_rows("cooking", "table"):
        if row["id"] == table_id:
            lines = sorted(
                (one["tenths_c"], one["seconds"])
                for one in checked_rows("cooking", "point")
                if one["table"] == table_id
            )
            return CookTable(
                id=row["id"],
                name=row["name"],
                z_tenths=row["z_tenths"],
                lines=tuple(lines),
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise one_of("table of cooking times", table_id, TABLES)


@cache
def z_values() -> dict[str, int]:
    """The z value of each table in tenths of a degree, with its own source in the file."""
    return {row["table"]: row["z_tenths"] for row in checked_rows("cooking", "z")}


@cache
def meat_rule(meat: str) -> MeatRule:
    """What is said of that sort of meat: whole, minced, boar or offal."""
    for row in checked_rows("cooking", "meat"):
        if row["id"] == meat:
            return MeatRule(
                row["id"], row["name"], row["may_be_pink"], row["source"], row["status"], row["note"]
            )
    raise one_of("sort of meat", meat, MEATS)


def hot_hold(jurisdiction: str) -> CookRule:
    """Keep hot at or above this; `minutes` is how long it may once be below."""
    return _by_jurisdiction("hot", jurisdiction)


def reheating(jurisdiction: str) -> CookRule:
    """Reheat to this; no figure where none is in law."""
    return _by_jurisdiction("reheat", jurisdiction)


@cache
def cooling() -> CookRule:
    """Cool to this within these minutes: practice; the law says as quickly as possible."""
    row = checked_rows("cooking", "cooling")[0]
    return CookRule(row["id"], row["to_tenths_c"], row["minutes"], row["source"], row["status"], row["note"])


def _by_jurisdiction(table: str, jurisdiction: str) -> CookRule:
    check_jurisdiction(jurisdiction)
    for row in checked_rows("cooking", table):
        if row["jurisdiction"] == jurisdiction:
            return _rule(row)
    raise BadFact(f"cooking.toml, {table}: nothing is held for {jurisdiction}.")


def _rule(row: Row) -> CookRule:
    return CookRule(
        id=row["id"],
        tenths_c=row.get("tenths_c"),
        minutes=row.get("minutes_below", 0),
        source=row["source"],
        status=row["status"],
        note=row["note"],
    )
