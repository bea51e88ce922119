"""The pieces documents are put together from: safe text, tables, pairs of a name and a value.

This is the only place where a user's words become ReportLab markup, and they are escaped here exactly once.
A character the type cannot draw becomes a visible box; a text too long for its place ends with '…' and the
number of characters left off.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from gametrace.documents import brand
from gametrace.documents.grid import Grid, Room
from gametrace.documents.lines import Lines, can_set, runs_of
from gametrace.documents.marks import draw_mark
from gametrace.documents.wording import NOT_STATED

CELL_LIMIT = 320  # characters; a table row must stay far under one page
ROWS_A_TABLE = 150  # laid out at a time

_INVISIBLE = {"Cf", "Mn", "Me"}  # joiners, direction marks, accents without a letter: nothing to draw


@lru_cache(maxsize=20_000)  # in a long paper the same names and answers come again and again
def printable(text: str) -> str:
    """`text` as one line the type can draw: boxes for what it cannot, no control characters."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    drawn = []
    for character in unicodedata.normalize("NFC", text):
        if brand.has_glyph(character) and character.isprintable():
            drawn.append(character)
        elif character.isspace():
            drawn.append(" ")
        elif unicodedata.category(character) not in _INVISIBLE:
            drawn.append(brand.MISSING_GLYPH)
    return " ".join("".join(drawn).split())


def bounded(text: str, limit: int = CELL_LIMIT) -> str:
    """`text` made printable up to `limit` characters, saying how much was left off."""
    if len(text) <= limit:
        return printable(text)
    return f"{printable(text[:limit])}… ({len(text) - limit:,} more characters in the register)"


def escaped(text: str, limit: int = CELL_LIMIT) -> str:
    """A user's words, ready to stand inside our own markup."""
    return escape(bounded(text, limit))


def paragraph(text: str, style: ParagraphStyle = brand.CELL, limit: int = CELL_LIMIT) -> Flowable:
    """A user's words as a paragraph."""
    if can_set(style):
        return Lines([[(bounded(text, limit), style.fontName, style.fontSize, style.textColor)]], style)
    return Paragraph(escaped(text, limit), style)


def markup(text: str, style: ParagraphStyle = brand.CELL) -> Flowable:
    """Our own markup as a paragraph; every user's word in it has been through `escaped`."""
    runs = runs_of(text, style) if can_set(style) else None
    return Lines(runs, style) if runs is not None else Paragraph(text, style)


def pair(name: str, value: str, limit: int = CELL_LIMIT) -> Flowable:
    """A small name over its value; an empty value is an answer too: 'not stated'."""
    small, cell = brand.SMALL, brand.CELL
    words = bounded(value, limit) if value.strip() else NOT_STATED
    ink = cell.textColor if value.strip() else brand.QUIET
    return Lines(
        [
            [(bounded(name, 120), small.fontName, small.fontSize, brand.QUIET)],
            [(words, cell.fontName, cell.fontSize, ink)],
        ],
        cell,
    )


def pairs_grid(pairs: Sequence[Flowable], width: float, columns: int = 4) -> Grid:
    """Pairs in even columns, reading along the rows."""
    rows: list[list[Any]] = [list(pairs[at : at + columns]) for at in range(0, len(pairs), columns)]
    rows[-1] += [""] * (columns - len(rows[-1]))
    return Grid(rows, [width / columns] * columns, _PLAIN)


def state_cell(state: str, detail: str = "") -> Flowable:
    """A state as shape and word; several lots together may have none."""
    words = paragraph(": ".join(part for part in (state, detail) if part), brand.CELL)
    return MarkedWords(state, words) if state else words


class MarkedWords(Flowable):
    """A state's shape with its words beside it."""

    ROOM = 11

    def __init__(self, state: str, words: Flowable) -> None:
        super().__init__()
        self._state, self._words = state, words

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        _, self.height = self._words.wrap(width - self.ROOM, height)
        return self.width, self.height

    def draw(self) -> None:
        draw_mark(self.canv, self._state, 0, self.height - 9, 7, brand.INK)
        self._words.drawOn(self.canv, self.ROOM, 0)


def ruled_tables(
    heads: Sequence[str],
    rows: Iterable[Sequence[Any]],
    widths: Sequence[float],
    right: Sequence[int] = (),
) -> list[Flowable]:
    """Rows under a head that repeats on every page.

    Cells are strings (a user's words) or flowables. Columns in `right` are aligned on the right.
    """
    return list(long_table(heads, rows, widths, right))


def long_table(
    heads: Sequence[str],
    rows: Iterable[Sequence[Any]],
    widths: Sequence[float],
    right: Sequence[int] = (),
) -> Iterator[Flowable]:
    """The same for a list of years: its rows are taken some at a time, when the page comes to them."""
    head = [
        paragraph(words, brand.HEAD_RIGHT if at in right else brand.HEAD, 100)
        for at, words in enumerate(heads)
    ]
    left = iter(rows)
    while some := list(islice(left, ROWS_A_TABLE)):
        drawn = [[_cell(cell, at in right) for at, cell in enumerate(row)] for row in some]
        yield Grid([head, *drawn], widths, _RULED, heads=1, is_ruled=True)


def _cell(cell: Any, is_right: bool) -> Any:
    if isinstance(cell, str):
        return paragraph(cell, brand.CELL_RIGHT if is_right else brand.CELL)
    return cell


_PLAIN = Room(right=8, last_right=8, top=1.5, bottom=2.5)
_RULED = Room(right=7, last_right=0, top=2.5, bottom=3)
