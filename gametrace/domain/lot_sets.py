"""Sets of lots joined and cut, and who stood where when. Keys in, keys out; nothing here reads a register."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from gametrace.domain.lineage import Edge


class How(StrEnum):
    """How a step is put to what was gathered before it."""

    JOIN = "and"
    LESS = "less"
    BOTH = "only what is also"


@dataclass(frozen=True, slots=True)
class Stay:
    """Where a lot stood from one moment (UTC text) to another; `until` is '' while it stands there."""

    place: str
    since: str
    until: str


def combined(steps: Sequence[tuple[How, frozenset[int]]]) -> frozenset[int]:
    """The steps put together from the first to the last; the first one begins, however it is marked."""
    result: frozenset[int] = frozenset()
    for at, (how, lots) in enumerate(steps):
        if at == 0 or how is How.JOIN:
            result |= lots
        elif how is How.LESS:
            result -= lots
        else:
            result &= lots
    return result


def stays_of(
    made_at: str, ended_at: str, place: str, moves: Sequence[tuple[str, str, str]]
) -> tuple[Stay, ...]:
    """Where a lot stood, from its making to its end. `moves` are (when, from, to); `place` is its last."""
    if not moves:
        return (Stay(place, made_at, ended_at),)
    stays, since = [], made_at
    for when, was, _to in moves:
        stays.append(Stay(was, since, when))
        since = when
    return (*stays, Stay(moves[-1][2], since, ended_at))


def stood_in(stays: Iterable[Stay], is_there: Callable[[str], bool], first: str, last: str) -> bool:
    """Whether any of it was in such a place at a moment of the span (`last` excluded)."""
    return any(
        is_there(stay.place) and stay.since < last and (not stay.until or stay.until >= first)
        for stay in stays
    )


def mixed_with(lots: Iterable[int], below: Iterable[Edge], above_those: Iterable[Edge]) -> frozenset[int]:
    """Everything whose meat came together with these lots' meat in something made of both.

    `below` holds every edge below the lots, `above_those` every edge above what was made of them. What lies
    on the way from the lots to the mix, and what the lots were made of, is not beside them but of them.
    """
    start = frozenset(lots)
    made = {edge.child for edge in below}
    into: dict[int, set[int]] = {}
    for edge in {*above_those, *below}:
        into.setdefault(edge.child, set()).add(edge.parent)
    beside = _reached(made, into) - made - start
    return frozenset(beside - _reached(start, into))


def _reached(start: Iterable[int], into: dict[int, set[int]]) -> set[int]:
    """Everything above these lots."""
    found: set[int] = set()
    waiting = list(start)
    while waiting:
        for parent in into.get(waiting.pop(), ()):
            if parent not in found:
                found.add(parent)
                waiting.append(parent)
    return found
