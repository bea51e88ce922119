"""What the first lines of a logger's file show about its columns.

A guess is shown to the user, who corrects it; nothing is imported on a guess alone. Of two readings of a
date (3/4) the one is preferred under which the lines lie closer together in time, since a logger writes
every few minutes.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from gametrace.domain.errors import Refusal
from gametrace.exchange.logger_figures import Unreadable, tenths_c_of
from gametrace.exchange.logger_lines import first_lines_of
from gametrace.exchange.logger_mapping import DELIMITERS, LoggerMapping
from gametrace.exchange.logger_rows import RowReader
from gametrace.exchange.logger_sniff import (
    LOOKED_AT,
    Rows,
    format_for,
    is_clock,
    is_date,
    is_whole_time,
    read_by,
    rows_of,
)

_MOST_COLUMNS = 40
_MOST_BYTES = 1 << 18
_FAHRENHEIT = re.compile(r"°\s*f|º\s*f|\bf\b|fahrenheit|℉", re.IGNORECASE)
_WELCOME = re.compile(r"temp|celsius|fahrenheit|°|º|\bdeg|℃|℉", re.IGNORECASE)
_UNWELCOME = re.compile(
    r"%|hum|\brh\b|dew|batt|volt|\bno\b|number|index|#|limit|alarm|min|max|set", re.IGNORECASE
)
_OFFSET = re.compile(r"\b(?:UTC|GMT)(?:\s*([+-])\s*(\d{1,2})(?::?(\d\d))?)?(?!\w)")


def guess_mapping(first_lines: bytes) -> LoggerMapping:
    """The likeliest mapping for a file that begins with these bytes. Refuses where none is found."""
    lines = first_lines_of(first_lines[:_MOST_BYTES])[:LOOKED_AT]
    guesses = [guess for delimiter in DELIMITERS if (guess := _guess(lines, delimiter))]
    if not guesses:
        raise Refusal(
            "No columns of times and temperatures were found in the first lines of this file.",
            "Set the columns by hand, or look whether it is the right file.",
            "file",
        )
    return max(guesses, key=lambda guess: guess.read_count).mapping


@dataclass(frozen=True, slots=True)
class _Guess:
    mapping: LoggerMapping
    read_count: int


def _guess(lines: Sequence[str], delimiter: str) -> _Guess | None:
    rows = rows_of(lines, delimiter)
    columns = range(min(max(map(len, rows), default=0), _MOST_COLUMNS))
    times = _time_columns(rows, columns)
    if times is None:
        return None
    time_column, date_column = times
    timed = [
        row
        for row in rows
        if len(row) > time_column
        and (is_whole_time(row[time_column]) if date_column is None else is_clock(row[time_column]))
    ]
    heads = _heads(rows[: rows.index(timed[0])])
    worths = [
        (_temperature_likeness(timed, column, heads), -column) for column in columns if column not in times
    ]
    readable = [worth for worth in worths if worth[0][-1]]
    if not readable:
        return None
    temperature_column = -max(readable)[1]
    draft = LoggerMapping(
        delimiter=delimiter,
        header_rows=0,
        time_column=time_column,
        date_column=date_column,
        temperature_column=temperature_column,
        time_zone=_zone(heads.get(time_column, "")),
        decimal=_decimal(timed, temperature_column),
        unit=_unit(timed, temperature_column, heads),
    )
    return _with_dates(draft, lines, rows)


def _time_columns(rows: Rows, columns: Iterable[int]) -> tuple[int, int | None] | None:
    """The column of times, and of dates if they stand apart; whichever way more rows have it."""
    whole = _most(rows, columns, is_whole_time)
    date = _most(rows, columns, is_date)
    clock = _most(rows, columns, is_clock)
    if date and clock and min(date[0], clock[0]) > (whole[0] if whole else 0):
        return clock[1], date[1]
    return (whole[1], None) if whole else None


def _most(rows: Rows, columns: Iterable[int], fits: Callable[[str], bool]) -> tuple[int, int] | None:
    """In how many rows the best column fits, and which it is: the leftmost of the best."""
    counts = [(sum(fits(row[column]) for row in rows if len(row) > column), -column) for column in columns]
    count, column = max(counts, default=(0, 0))
    return (count, -column) if count else None


def _with_dates(draft: LoggerMapping, lines: Sequence[str], rows: Rows) -> _Guess | None:
    """The draft with the order of day and month under which most is read, closest together, from 1st row."""
    tries = []
    for day_first in (True, False):
        mapping = replace(draft, day_first=day_first)
        time_format = format_for(mapping, rows)
        if time_format is None:
            continue
        mapping = replace(mapping, time_format=time_format)
        read = read_by(RowReader(mapping, mapping.delimiter or "", time_format), lines)
        if read:
            instants = [instant for _, instant in read]
            span = max(instants) - min(instants)
            tries.append((len(read), -span, day_first, replace(mapping, header_rows=read[0][0])))
    if not tries:
        return None
    count, _, _, mapping = max(tries, key=lambda one: one[:3])
    _refuse_comma_twice(mapping, rows)
    return _Guess(mapping, count)


def _refuse_comma_twice(mapping: LoggerMapping, rows: Rows) -> None:
    """Commas between columns and in figures at once: 4,5 would be read as 4 without a word."""
    begin, column = mapping.header_rows, mapping.temperature_column
    if mapping.delimiter != "," or begin == 0 or len(rows[begin - 1]) <= column:
        return
    longer = [row for row in rows[begin:] if len(row) == len(rows[begin - 1]) + 1]
    if longer and all(row[column + 1].strip().isdigit() and "." not in row[column] for row in longer):
        raise Refusal(
            "In this file a comma stands between the columns and within the figures too.",
            "Have the logger's program use a semicolon between columns, or a point in figures.",
            "delimiter",
        )


def _temperature_likeness(rows: Rows, column: int, heads: dict[int, str]) -> tuple[int, ...]:
    """What the heading says, then whether there are fractions, then how many rows can be read."""
    head = heads.get(column, "")
    words = bool(_WELCOME.search(head)) - bool(_UNWELCOME.search(head))
    cells = [row[column] for row in rows if len(row) > column and _is_temperature(row[column])]
    marked = any(not cell.strip().lstrip("+-").isdigit() for cell in cells)
    return words, int(marked), len(cells)


def _heads(rows: Rows) -> dict[int, str]:
    """What stands over each column; units often have a line of their own under the names."""
    wide = [row for row in rows if len(row) > 1][-2:]
    texts: dict[int, str] = {}
    for row in wide:
        for column, text in enumerate(row):
            texts[column] = f"{texts.get(column, '')} {text}".strip()
    return texts


def _is_temperature(cell: str) -> bool:
    for unit in ("C", "F"):
        try:
            tenths_c_of(cell, unit, None)
        except Unreadable:
            continue
        return True
    return False


def _decimal(rows: Rows, column: int) -> str | None:
    cells = [row[column] for row in rows if len(row) > column and _is_temperature(row[column])]
    points, commas = (sum(mark in cell for cell in cells) for mark in ".,")
    if points and commas:
        return None
    return "." if points else "," if commas else None


def _unit(rows: Rows, column: int, heads: dict[int, str]) -> str:
    texts = [heads.get(column, ""), *(row[column] for row in rows if len(row) > column)]
    return "F" if _FAHRENHEIT.search(" ".join(texts)) else "C"


def _zone(head: str) -> str:
    """UTC or a fixed number of hours from it, where the heading of the times says so."""
    match = _OFFSET.search(head)
    if match is None:
        return "Europe/London"
    sign, hours, minutes = match[1], int(match[2] or 0), int(match[3] or 0)
    if hours > 12 or minutes:
        return "Europe/London"
    # The zone database counts these the other way round: Etc/GMT-1 is an hour ahead of UTC.
    return f"Etc/GMT{'-' if sign == '+' else '+'}{hours}" if hours else "UTC"
