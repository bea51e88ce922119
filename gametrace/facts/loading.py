"""Reads the TOML files of facts and refuses an entry without a known source and standing.

It does not know any subject: each subject's own module turns the checked rows into its records.
"""

from __future__ import annotations

import tomllib
from datetime import date
from functools import cache
from importlib import resources
from typing import Any

# How well a fact is known, best first, and the words for whoever reads it.
STANDINGS = {
    "seen": "read there",
    "seen-2": "read where it is quoted",
    "part": "read in part",
    "memory": "from memory, not read",
    "common practice": "common practice",
    "inference": "our inference",
    "unresolved": "sources differ or were not found",
}

COMMON_PRACTICE = "common-practice"

Row = dict[str, Any]


class UnknownFact(LookupError):
    """Somebody asked for a species, route, product or rule that the facts do not hold."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class BadFact(ValueError):
    """An entry in a facts file is not fit to be used."""


def one_of(what: str, wanted: str, known: tuple[str, ...]) -> UnknownFact:
    """The error for a name that is not on a list, with the list in it."""
    shown = wanted if len(wanted) <= 40 else wanted[:40] + "..."
    return UnknownFact(f"There is no {what} called '{shown}'. Use one of: {', '.join(known)}.")


@cache
def read_subject(subject: str) -> Row:
    """The whole TOML file of a subject, as written."""
    path = resources.files("gametrace.facts").joinpath(f"{subject}.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


@cache
def source_ids() -> frozenset[str]:
    """The ids that an entry may name as its source."""
    return frozenset(str(row["id"]) for row in read_subject("sources")["source"])


def checked_rows(subject: str, table: str) -> tuple[Row, ...]:
    """The rows of one table, each with an id of its own, a known source and a known standing."""
    rows: list[Row] = read_subject(subject)[table]
    seen: set[str] = set()
    for row in rows:
        where = f"{subject}.toml, {table} '{row.get('id', '?')}'"
        check_row(row, where)
        if row["id"] in seen:
            raise BadFact(f"{where}: the id is used twice.")
        seen.add(row["id"])
    return tuple(rows)


def check_row(row: Row, where: str) -> None:
    """Refuse an entry that does not say where it comes from, or that holds a float."""
    if not row.get("id"):
        raise BadFact(f"{where}: the entry has no id.")
    if row.get("source") not in source_ids():
        raise BadFact(f"{where}: the source {row.get('source')!r} is not in sources.toml.")
    if row.get("status") not in STANDINGS:
        raise BadFact(f"{where}: the status {row.get('status')!r} is not a known standing.")
    for name, value in row.items():
        if isinstance(value, float):
            raise BadFact(f"{where}: '{name}' is a float; record whole grams, days or tenths.")
    valid_from, valid_to = row.get("valid_from"), row.get("valid_to")
    if isinstance(valid_from, date) and isinstance(valid_to, date) and valid_to < valid_from:
        raise BadFact(f"{where}: it ends before it begins.")
