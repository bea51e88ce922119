"""How the lines of a label are set: how large, in how many columns, what is left off where all is too much.

It measures and decides; it draws nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm

from gametrace.documents.typesetting import cut_to, wrapped
from gametrace.documents.wording import kg

LEADING = 1.16
GAP = 1.2 * mm
TWO_COLUMNS_FROM = 55 * mm


@dataclass(frozen=True, slots=True)
class Setting:
    """A way to set the lines of a label: how large, in how many columns, and whether all was said."""

    font: str
    size: float
    columns: int
    rows: int
    lines: list[str]
    is_whole: bool

    @classmethod
    def of(
        cls, texts: Sequence[str], font: str, size: float, columns: int, width: float, height: float
    ) -> Setting:
        """Lines break in one column only: broken ones would run from one column into the next."""
        rows = max(0, int((height + size * (LEADING - 1)) / (size * LEADING)))
        most = 2 if columns == 1 else 1
        lines = [part for text in texts for part in wrapped(text, font, size, width, most)]
        is_whole = len(lines) <= rows * columns and (columns == 1 or lines == list(texts))
        if len(lines) > rows * columns:
            lines = lines[: rows * columns]
            if lines:
                lines[-1] = cut_to(lines[-1] + " …", font, size, width)
        return cls(font, size, columns, rows, lines, is_whole)


def set_lines(
    texts: Sequence[str], font: str, sizes: Sequence[float], width: float, height: float
) -> Setting:
    """The largest of a few sizes, and two columns on a wide label, so that every line is shown."""
    columns_tried = (1, 2) if width > TWO_COLUMNS_FROM else (1,)
    setting = None
    for size in sizes:
        for columns in columns_tried:
            across = width / columns - (columns - 1) * GAP
            setting = Setting.of(texts, font, size, columns, across, height)
            if setting.is_whole:
                return setting
    assert setting is not None  # there is always a size to try
    return setting


def set_with_parents(
    texts: Sequence[str],
    parents: Sequence[tuple[str, int]],
    font: str,
    sizes: Sequence[float],
    width: float,
    height: float,
) -> Setting:
    """The lines, then what a mixed lot was made of with the grams of each; what finds no room is counted."""
    setting = set_lines([*texts, *map(_parent, parents)], font, sizes, width, height)
    for shown in range(len(parents) - 1, -1, -1):
        if setting.is_whole:
            break
        rest = parents[shown:]
        more = f"and {len(rest)} more: {kg(sum(grams for _, grams in rest))}"
        some = [*texts, *map(_parent, parents[:shown]), more]
        setting = set_lines(some, font, sizes, width, height)
    return setting


def _parent(parent: tuple[str, int]) -> str:
    code, grams = parent
    return f"of {code}: {kg(grams)}"
