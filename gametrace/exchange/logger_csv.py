"""Reads what a temperature logger wrote into instants and tenths of a degree, and says what it left out.

The user's `LoggerMapping` says which column is what. A row that cannot be read is reported and never
stops the rest; a file that cannot be one of readings at all is refused. Nothing is guessed:

* the spring hour that no clock showed is refused row by row;
* the autumn hour that came twice is told apart by the order of the file, else refused row by row;
* of two readings at one instant the warmer is kept: the highest reading rules.

Gaps between readings are the domain's to find. Nothing is recorded here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from operator import gt, lt
from typing import BinaryIO, NamedTuple

from gametrace.domain.errors import Refusal
from gametrace.exchange.logger_autumn import tell_apart
from gametrace.exchange.logger_figures import Unreadable, shown
from gametrace.exchange.logger_guess import guess_mapping
from gametrace.exchange.logger_lines import LONGEST_LINE, MOST_BYTES, line_blocks
from gametrace.exchange.logger_mapping import LoggerMapping
from gametrace.exchange.logger_rows import RowReader
from gametrace.exchange.logger_sniff import settle

__all__ = [
    "LoggerMapping", "LoggerReadings", "RefusedRow", "guess_mapping", "read_logger",
    "MOST_BYTES", "MOST_READINGS", "LONGEST_LINE", "REFUSED_SHOWN",
]  # fmt: skip

MOST_READINGS = 3_000_000  # one a minute for more than five years
REFUSED_SHOWN = 100
_TEXT_SHOWN = 120


class RefusedRow(NamedTuple):
    """A row that was not taken. Lines count from one, as an editor shows them."""

    line_number: int
    text: str
    why: str


@dataclass(frozen=True, slots=True)
class LoggerReadings:
    """What one file gave. Every row not blank is in `row_count`, and is a reading, a duplicate or refused."""

    readings: tuple[tuple[int, int], ...]  # epoch seconds UTC and tenths of a degree, each instant once
    row_count: int
    duplicates_dropped: int  # rows at an instant that another row has too
    conflicting_count: int  # of these, rows that stated another temperature
    out_of_order_count: int  # steps against the direction of the file
    newest_first: bool
    told_apart_count: int  # rows of the autumn hour that comes twice, given an instant by their order
    not_told_apart_count: int  # and rows of that hour refused
    refused: tuple[RefusedRow, ...]  # the first ones
    refused_count: int
    mapping: LoggerMapping  # as used: what it left open is filled in


def read_logger(
    stream: BinaryIO,
    mapping: LoggerMapping,
    *,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> LoggerReadings:
    """All readings of a file. `progress` gets bytes done and in all; what it raises ends the reading."""
    taken = _Taken()
    reader: RowReader | None = None
    line_number = 0
    for block in line_blocks(stream, progress, cancelled):
        lines = block[max(mapping.header_rows - line_number, 0) :]
        if reader is None and lines:
            delimiter, time_format = settle(mapping, lines)
            mapping = replace(mapping, delimiter=delimiter, time_format=time_format)
            reader = RowReader(mapping, delimiter, time_format)
        if reader is not None:
            taken.take(lines, line_number + len(block) - len(lines), reader)
        line_number += len(block)
    return taken.settled(mapping)


class _Taken:
    """Rows as they come, in the order of the file."""

    def __init__(self) -> None:
        self.instants: list[int] = []
        self.tenths_c: list[int] = []
        self.later_by: dict[int, int] = {}  # by index, for rows of the hour that comes twice
        self.doubtful_rows: dict[int, tuple[int, str]] = {}  # line number and text of the same
        self.refused: list[RefusedRow] = []
        self.refused_count = 0

    def take(self, lines: Sequence[str], lines_before: int, reader: RowReader) -> None:
        read, instants, tenths = reader.read, self.instants, self.tenths_c
        for line_number, line in enumerate(lines, lines_before + 1):
            try:
                instant, later_by, tenths_c = read(line)
            except Unreadable as why:
                self.refuse(line_number, line, str(why))
                continue
            if later_by:
                self.later_by[len(instants)] = later_by
                self.doubtful_rows[len(instants)] = (line_number, line)
            instants.append(instant)
            tenths.append(tenths_c)
        if len(instants) > MOST_READINGS:
            raise Refusal(
                f"The file holds more than {MOST_READINGS:,} readings.",
                "Ask the logger's own program for a shorter time, or split the file.",
                "file",
            )

    def refuse(self, line_number: int, line: str, why: str) -> None:
        if not line.strip(" \t,;|\"'"):
            return  # a blank line, or the empty cells a spreadsheet leaves for one
        self.refused_count += 1
        if len(self.refused) < REFUSED_SHOWN:
            self.refused.append(RefusedRow(line_number, shown(line, _TEXT_SHOWN), why))

    def settled(self, mapping: LoggerMapping) -> LoggerReadings:
        doubtful_count = len(self.later_by)
        newest_first = _falls(self.instants) > _rises(self.instants)
        untold = tell_apart(self.instants, self.later_by, newest_first)
        self._leave_out(untold, mapping.time_zone)
        pairs = sorted(zip(self.instants, self.tenths_c, strict=True))
        kept = dict(pairs)  # of one instant the last, which is the warmest
        return LoggerReadings(
            readings=tuple(kept.items()),
            row_count=len(pairs) + self.refused_count,
            duplicates_dropped=len(pairs) - len(kept),
            conflicting_count=len(set(pairs)) - len(kept),
            out_of_order_count=_rises(self.instants) if newest_first else _falls(self.instants),
            newest_first=newest_first,
            told_apart_count=doubtful_count - len(untold),
            not_told_apart_count=len(untold),
            refused=tuple(self.refused),
            refused_count=self.refused_count,
            mapping=mapping,
        )

    def _leave_out(self, untold: set[int], zone: str) -> None:
        if not untold:
            return
        why = f"this hour came twice in {zone}, and the file does not tell which it was"
        for index in sorted(untold):
            line_number, line = self.doubtful_rows[index]
            self.refused_count += 1
            self.refused.append(RefusedRow(line_number, shown(line, _TEXT_SHOWN), why))
        self.refused = sorted(self.refused)[:REFUSED_SHOWN]
        kept = [index for index in range(len(self.instants)) if index not in untold]
        self.instants = [self.instants[index] for index in kept]
        self.tenths_c = [self.tenths_c[index] for index in kept]


def _rises(instants: Sequence[int]) -> int:
    return sum(map(lt, instants, islice(instants, 1, None)))


def _falls(instants: Sequence[int]) -> int:
    return sum(map(gt, instants, islice(instants, 1, None)))
