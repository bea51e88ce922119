"""A long list that is never whole in memory: the rows in sight are asked of the register.

It reads like a tuple, so that a table need not know which it has. It does not notice what is written later:
a list is made anew when the register has changed.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Sequence
from typing import Any, overload

A_PAGE = 100  # rows: about two screens
PAGES_KEPT = 20


class Pages(Sequence[Any]):
    """`count` rows, of which `fetch(first, many)` gives some."""

    def __init__(self, count: int, fetch: Callable[[int, int], Sequence[Any]]) -> None:
        self._count, self._fetch = count, fetch
        self._kept: OrderedDict[int, Sequence[Any]] = OrderedDict()

    def __len__(self) -> int:
        return self._count

    @overload
    def __getitem__(self, at: int) -> Any: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Any]: ...
    def __getitem__(self, at: int | slice) -> Any:
        if isinstance(at, slice):
            return [self[one] for one in range(*at.indices(self._count))]
        if not -self._count <= at < self._count:
            raise IndexError(at)
        page, row = divmod(at % self._count, A_PAGE)
        return self._page(page)[row]

    def _page(self, page: int) -> Sequence[Any]:
        if page not in self._kept:
            self._kept[page] = self._fetch(page * A_PAGE, A_PAGE)
            if len(self._kept) > PAGES_KEPT:
                self._kept.popitem(last=False)
        self._kept.move_to_end(page)
        return self._kept[page]

    def seen(self) -> list[tuple[int, Any]]:
        """The rows that are in memory, with where they stand."""
        return [
            (page * A_PAGE + row, record)
            for page, records in self._kept.items()
            for row, record in enumerate(records)
        ]
