"""A million rows of a logger beside the same file split by the csv module and thrown away."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import UTC, datetime
from io import BytesIO, TextIOWrapper
from time import perf_counter
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from gametrace.domain.errors import Refusal
from gametrace.domain.excursions import excursions, gaps
from gametrace.exchange.logger_csv import LoggerReadings, guess_mapping, read_logger

ROWS = 1_000_000
BEGUN = int(datetime(2024, 1, 1, tzinfo=UTC).timestamp())
TEMPERATURES = [f"{tenths // 10},{tenths % 10}" for tenths in range(100)]


@pytest.fixture(scope="module")
def million() -> bytes:
    """One reading a minute for almost two years, on the wall clock, with its autumns and springs."""
    zone = ZoneInfo("Europe/London")
    rows = ["Date and time;Temp °C\r\n"]
    for hour in range(0, ROWS, 60):
        wall = datetime.fromtimestamp(BEGUN + 60 * hour, zone).strftime("%d/%m/%Y %H:")
        rows += [f"{wall}{m:02d}:00;{TEMPERATURES[(hour + 7 * m) % 100]}\r\n" for m in range(60)]
    return "".join(rows[: ROWS + 1]).encode()


@pytest.mark.bench
@pytest.mark.slow
def test_a_million_rows_come_in_within_ten_seconds(
    million: bytes, record_property: Callable[[str, Any], None]
) -> None:
    told: list[int] = []
    mapping = guess_mapping(million[:65_536])
    begun = perf_counter()
    result = read_logger(
        BytesIO(million), mapping, progress=lambda done, total: told.append(done), cancelled=lambda: False
    )
    seconds = perf_counter() - begun
    _right(result)
    begun = perf_counter()
    for _ in csv.reader(TextIOWrapper(BytesIO(million), "utf-8", newline=""), delimiter=";"):
        pass
    bare = perf_counter() - begun
    begun = perf_counter()
    gaps(result.readings, expected_seconds=60)
    excursions(result.readings, limit_tenths_c=70, tolerance_seconds=0, longest_gap_seconds=180)
    judged = perf_counter() - begun
    print(
        f"\n{ROWS:,} rows: {seconds:.2f} s, {seconds / bare:.1f} times a bare csv.reader ({bare:.2f} s), "
        f"told of progress {len(told)} times; gaps and excursions {judged:.2f} s"
    )
    record_property("seconds", seconds)
    record_property("factor", seconds / bare)
    assert len(told) > 50  # often enough for a bar that moves


@pytest.mark.bench
@pytest.mark.slow
def test_a_million_rows_can_be_stopped_at_the_first_block(million: bytes) -> None:
    begun = perf_counter()
    with pytest.raises(Refusal, match="was stopped"):
        read_logger(BytesIO(million), guess_mapping(million[:65_536]), cancelled=lambda: True)
    assert perf_counter() - begun < 2


def _right(result: LoggerReadings) -> None:
    assert len(result.readings) == result.row_count == ROWS
    assert result.readings[0] == (BEGUN, 0)
    assert result.readings[-1][0] == BEGUN + 60 * (ROWS - 1)
    assert result.told_apart_count == 2 * 120  # the autumns of 2024 and 2025
    assert result.duplicates_dropped == result.out_of_order_count == 0
