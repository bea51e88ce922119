"""Words for a logger's file: its first lines as they would be understood, and what was left out of it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from gametrace.desktop.parts.words import shown
from gametrace.domain.quantities import celsius_text
from gametrace.exchange.logger_figures import Unreadable
from gametrace.exchange.logger_rows import RowReader, cells_of
from gametrace.exchange.logger_sniff import settle

if TYPE_CHECKING:
    from gametrace.exchange.logger_csv import LoggerReadings
    from gametrace.exchange.logger_mapping import LoggerMapping

FIRST_LINES, REFUSED_SHOWN = 6, 6


def column_names(lines: Sequence[str], mapping: LoggerMapping) -> list[str]:
    """What stands over each column, or in it where nothing stands over it."""
    body = lines[mapping.header_rows :]
    delimiter, _ = settle(mapping, body)
    width = max((len(_cells(line, delimiter)) for line in body[:50]), default=0)
    heads = _cells(lines[mapping.header_rows - 1], delimiter) if mapping.header_rows else []
    if len(heads) < width:
        heads = heads + [""] * (width - len(heads))
    first = _cells(body[0], delimiter) if body else []
    return [(head or (first[at] if at < len(first) else "")).strip() for at, head in enumerate(heads[:40])]


def first_lines_told(lines: Sequence[str], mapping: LoggerMapping) -> list[tuple[str, str, bool]]:
    """The first lines with what they would be: time and degrees, or why not."""
    from gametrace.register.clock import wall_text

    body = [line for line in lines[mapping.header_rows :] if line.strip()]
    reader = RowReader(mapping, *settle(mapping, body))
    told = []
    for at, line in enumerate(lines[: mapping.header_rows + FIRST_LINES], 1):
        if not line.strip():
            continue
        written = f"{at}  {shown(line, 32)}"
        if at <= mapping.header_rows:
            told.append((written, "left out: heading", False))
            continue
        try:
            instant, _, tenths = reader.read(line)
        except Unreadable as why:
            told.append((written, f"not read: {why}", False))
        else:
            told.append((written, f"{_when(instant, wall_text)}: {celsius_text(tenths)}", True))
    return told[-FIRST_LINES - 1 :]


def result_told(found: LoggerReadings) -> tuple[str, list[str]]:
    """What the file gave in a sentence, and in sentences what was left out or looked odd."""
    from gametrace.register.clock import wall_text

    if not found.readings:
        said = "No reading was found. Set the columns otherwise."
    else:
        first, last = found.readings[0][0], found.readings[-1][0]
        lowest = min(tenths for _, tenths in found.readings)
        highest = max(tenths for _, tenths in found.readings)
        said = (
            f"{len(found.readings):,} readings, {_when(first, wall_text)} to {_when(last, wall_text)}, "
            f"{celsius_text(lowest)} to {celsius_text(highest)}."
        )
    left_out = []
    if found.duplicates_dropped:
        left_out.append(
            f"{_rows(found.duplicates_dropped)} at a time that another row has too; of "
            f"{found.conflicting_count:,} that said another temperature the warmer was kept."
        )
    if found.out_of_order_count:
        left_out.append(f"{_rows(found.out_of_order_count)} out of order, sorted in.")
    if found.told_apart_count:
        left_out.append(
            f"{_rows(found.told_apart_count)} of the hour that comes twice were told apart by their order."
        )
    if found.not_told_apart_count:
        left_out.append(
            f"{_rows(found.not_told_apart_count)} of the hour that comes twice could not be told apart."
        )
    if found.refused_count:
        left_out.append(f"{_rows(found.refused_count)} could not be read:")
        left_out += [f"line {r.line_number:,}: {r.why} ({r.text})" for r in found.refused[:REFUSED_SHOWN]]
        if found.refused_count > REFUSED_SHOWN:
            left_out.append(f"and {found.refused_count - REFUSED_SHOWN:,} more.")
    return said, left_out


def _rows(count: int) -> str:
    return "1 row" if count == 1 else f"{count:,} rows"


def _cells(line: str, delimiter: str) -> list[str]:
    try:
        return cells_of(line, delimiter)
    except Unreadable:
        return []


def _when(at: int, wall_text) -> str:
    return wall_text(datetime.fromtimestamp(at, UTC))
