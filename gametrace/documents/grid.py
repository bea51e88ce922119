"""Rows of cells under each other: measured once, broken between rows, drawn as one text with its rules.

ReportLab's own tables measure every cell again for each page they are broken over, and save and restore the
whole state of the drawing around each one; a year's pack has a million cells. This does nothing else than our
papers need: columns of set widths, words at the top of their cell, rules below the rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Flowable

from gametrace.documents import brand
from gametrace.documents.lines import Lines, Setting

_NO_END = 0xFFFF  # points
_CLOSE = 1e-6  # points: what sums of fractions may differ by


@dataclass(frozen=True, slots=True)
class Room:
    """Points left free around what stands in a cell; nothing on its left."""

    right: float
    last_right: float  # of the last column
    top: float
    bottom: float
    first_top: float | None = None  # of the first column, where it is another one


@dataclass(slots=True)
class _Row:
    cells: Sequence[Any]
    heights: list[float]
    height: float


class Grid(Flowable):
    """`rows` hold flowables, '' in a cell that stays empty; the first `heads` come again on every page."""

    def __init__(
        self,
        rows: Sequence[Sequence[Any]],
        widths: Sequence[float],
        room: Room,
        *,
        heads: int = 0,
        is_ruled: bool = False,
    ) -> None:
        super().__init__()
        self._given, self._widths, self._room = rows, widths, room
        self._heads, self._is_ruled = heads, is_ruled
        self._rows: list[_Row] | None = None  # once measured

    def wrap(self, _available_width: float, _available_height: float) -> tuple[float, float]:
        if self._rows is None:
            self._rows = [self._measured(cells) for cells in self._given]
        self.width = sum(self._widths)
        self.height = sum(row.height for row in self._rows)
        return self.width, self.height

    def _measured(self, cells: Sequence[Any]) -> _Row:
        room, last = self._room, len(self._widths) - 1
        heights, tallest = [], 0.0
        for at, (cell, width) in enumerate(zip(cells, self._widths, strict=True)):
            if cell == "":
                heights.append(0.0)
                continue
            free = width - (room.last_right if at == last else room.right)
            if isinstance(cell, Lines):  # nearly all: they ask nothing of the page
                _, height = cell.wrap(free, _NO_END)
            else:
                _, height = cell.wrapOn(getattr(self, "canv", None), free, _NO_END)
            heights.append(height)
            tallest = max(tallest, height + self._top(at))
        return _Row(cells, heights, tallest + room.bottom)

    def _top(self, column: int) -> float:
        first = self._room.first_top
        return first if first is not None and column == 0 else self._room.top

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        """What fits with its heads, and the rest with the same heads again; nothing where no row fits."""
        self.wrap(available_width, available_height)
        rows = self._rows or []
        used, fit = 0.0, 0
        for row in rows:
            used += row.height
            if used > available_height + _CLOSE:
                break
            fit += 1
        if fit <= self._heads:
            return []
        if fit == len(rows):
            return [self]
        return [self._part(rows[:fit]), self._part(rows[: self._heads] + rows[fit:])]

    def _part(self, rows: list[_Row]) -> Grid:
        made = Grid((), self._widths, self._room, heads=self._heads, is_ruled=self._is_ruled)
        made._rows = rows
        return made

    def draw(self) -> None:
        setting = Setting(self.canv)
        above = self.height
        for number, row in enumerate(self._rows or ()):
            x = 0.0
            for at, (cell, height, width) in enumerate(
                zip(row.cells, row.heights, self._widths, strict=True)
            ):
                if number < self._heads:  # heads stand on their rule
                    top = above - row.height + self._room.bottom + height
                else:
                    top = above - self._top(at)
                if isinstance(cell, Lines):
                    cell.set_in(setting, x, top - height)
                elif cell != "":
                    cell.drawOn(self.canv, x, top - height)
                x += width
            above -= row.height
        setting.done()
        if self._is_ruled:
            self._draw_rules()

    def _draw_rules(self) -> None:
        y, below = self.height, []
        for row in self._rows or ():
            y -= row.height
            below.append(f"0 {y:.3f} m {self.width:.3f} {y:.3f} l")
        canvas = self.canv
        canvas.saveState()
        canvas.setLineCap(1)
        for rules, thickness, ink in (
            (below[: self._heads], 0.7, brand.INK),
            (below[self._heads :], 0.3, brand.LINE),
        ):
            if rules:
                canvas.setLineWidth(thickness)
                canvas.setStrokeColor(ink)
                canvas.addLiteral(f"{' '.join(rules)} S")
        canvas.restoreState()
