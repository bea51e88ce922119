"""Which delimiter and which declared format of time fits the lines of a logger's file best.

Only counts what can be read; which column is which is settled elsewhere.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache

from gametrace.exchange.logger_figures import Unreadable
from gametrace.exchange.logger_mapping import DELIMITERS, LoggerMapping
from gametrace.exchange.logger_rows import RowReader, cells_of
from gametrace.exchange.logger_times import (
    CLOCKS,
    DAY_FIRST_DATES,
    ISO_DATES,
    MONTH_FIRST_DATES,
    NAMED_DATES,
    TimeFormat,
)

LOOKED_AT = 400  # lines
Rows = Sequence[Sequence[str]]

_BOTH = re.compile(r"(.*?\d)(T|,?\s+|_)(\d{1,2}[:.]\d\d.*)", re.ASCII)


def settle(mapping: LoggerMapping, lines: Sequence[str]) -> tuple[str, str]:
    """Delimiter and time format: the mapping's own, or those that read most of these lines."""
    lines = lines[:LOOKED_AT]
    settled = (mapping.delimiter or DELIMITERS[0], mapping.time_format or "%Y-%m-%d %H:%M:%S")
    most = (0, 0)
    for delimiter in [mapping.delimiter] if mapping.delimiter else DELIMITERS:
        rows = rows_of(lines, delimiter)
        time_format = mapping.time_format or format_for(mapping, rows)
        if time_format is not None:
            read = read_by(RowReader(mapping, delimiter, time_format), lines)
            # A sensor may have been dead all the while; then the rows that are long enough decide.
            fit = (len(read), sum(len(row) > mapping.temperature_column for row in rows))
            if fit > most:
                settled, most = (delimiter, time_format), fit
    return settled


def rows_of(lines: Iterable[str], delimiter: str) -> list[list[str]]:
    rows = []
    for line in lines:
        try:
            rows.append(cells_of(line, delimiter))
        except Unreadable:
            rows.append([])
    return rows


def read_by(reader: RowReader, lines: Iterable[str]) -> list[tuple[int, int]]:
    """Line index and instant of each line that can be read."""
    found = []
    for index, line in enumerate(lines):
        try:
            found.append((index, reader.read(line)[0]))
        except Unreadable:
            continue
    return found


def format_for(mapping: LoggerMapping, rows: Rows) -> str | None:
    """The declared format that fits most of the cells of the mapping's time columns."""
    dates: Counter[str] = Counter()
    clocks: Counter[str] = Counter()
    joins: Counter[str] = Counter()
    order = DAY_FIRST_DATES if mapping.day_first else MONTH_FIRST_DATES
    for row in rows:
        parts = _date_and_clock(mapping, row)
        if parts is not None:
            dates.update(one for one in (*ISO_DATES, *order, *NAMED_DATES) if _fits_date(one, parts[0]))
            clocks.update(one for one in CLOCKS if _fits_clock(one, parts[2]))
            joins[parts[1]] += 1
    if not dates or not clocks:
        return None
    join = joins.most_common(1)[0][0]
    join = " " if join.strip(", ") == "" else join
    return dates.most_common(1)[0][0] + join + clocks.most_common(1)[0][0]


def _date_and_clock(mapping: LoggerMapping, row: Sequence[str]) -> tuple[str, str, str] | None:
    if len(row) <= max(mapping.time_column, mapping.date_column or 0):
        return None
    if mapping.date_column is not None:
        return row[mapping.date_column].strip(), " ", row[mapping.time_column].strip()
    match = _BOTH.fullmatch(row[mapping.time_column].strip())
    return (match[1], match[2], match[3]) if match else None


@lru_cache(256)
def _format(date_part: str, clock_part: str) -> TimeFormat:
    return TimeFormat(f"{date_part} {clock_part}")


@lru_cache(20_000)
def _fits_date(date_part: str, text: str) -> bool:
    try:
        _format(date_part, CLOCKS[0]).day(text)
    except Unreadable:
        return False
    return True


@lru_cache(20_000)
def _fits_clock(clock_part: str, text: str) -> bool:
    try:
        _format(ISO_DATES[0], clock_part).seconds(text)
    except Unreadable:
        return False
    return True


def is_date(cell: str) -> bool:
    plain = cell.strip()
    return any(
        _fits_date(one, plain) for one in (*ISO_DATES, *DAY_FIRST_DATES, *MONTH_FIRST_DATES, *NAMED_DATES)
    )


def is_clock(cell: str) -> bool:
    plain = cell.strip()
    return any(_fits_clock(one, plain) for one in CLOCKS)


def is_whole_time(cell: str) -> bool:
    match = _BOTH.fullmatch(cell.strip())
    return match is not None and is_date(match[1]) and is_clock(match[3])
