"""How far a long paper has come, told while its records are laid out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

Progress = Callable[[int, int], None]
Record = TypeVar("Record")
_TOLD_EVERY = 20  # records


class Way:
    """`step(done, total)` is told of records as they are taken; raising there ends the paper."""

    def __init__(self, step: Progress | None, total: int) -> None:
        self._step, self._total = step or _silent, total
        self._done = 0

    def over(self, records: Iterable[Record], weight: int = 1) -> Iterator[Record]:
        """The same records one by one; `weight` is how many lines of a list one is as much work as."""
        for number, one in enumerate(records):
            if number % _TOLD_EVERY == 0:
                self._step(self._done, self._total)
            yield one
            self._done += weight

    def end(self) -> None:
        self._step(self._total, self._total)


def _silent(_done: int, _total: int) -> None:
    return
