"""Wild boar: what is held until the Trichinella result, and what to do when it is positive."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import checked_rows


@dataclass(frozen=True, slots=True)
class BoarLine:
    """One thing held, one step to take, or how one route asks for the test."""

    id: str
    name: str
    source: str
    status: str
    note: str


def _lines(table: str) -> tuple[BoarLine, ...]:
    return tuple(
        BoarLine(row["id"], row["name"], row["source"], row["status"], row["note"])
        for row in checked_rows("boar", table)
    )


@cache
def held_until_result() -> tuple[BoarLine, ...]:
    """Everything of the animal that waits."""
    return _lines("held")


@cache
def positive_steps() -> tuple[BoarLine, ...]:
    """What to do, in order, when the result is positive."""
    return _lines("positive_step")


@cache
def ways_of_testing() -> tuple[BoarLine, ...]:
    """How strongly each route asks for the test."""
    return _lines("test")
