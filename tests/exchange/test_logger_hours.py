"""Wall clocks in loggers' files: the hour that comes twice, the one that never comes, and formats of time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from io import BytesIO
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.exchange.logger_csv import LoggerMapping, LoggerReadings, read_logger
from gametrace.exchange.logger_times import TimeFormat

LONDON = ZoneInfo("Europe/London")
PLAIN = LoggerMapping(time_column=0, temperature_column=1)
HEAD = "time,temperature\n"


def read(data: bytes, mapping: LoggerMapping) -> LoggerReadings:
    return read_logger(BytesIO(data), mapping)


# British Summer Time ends on Sunday 25 October 2026 and begins on 29 March 2026, both at 01:00 UTC
# (Summer Time Order 2002, SI 2002/262: last Sundays of March and October).
AUTUMN = int(datetime(2026, 10, 25, 1, tzinfo=UTC).timestamp())
SPRING = int(datetime(2026, 3, 29, 1, tzinfo=UTC).timestamp())


def on_the_wall(instants: Sequence[int], zone: ZoneInfo = LONDON) -> bytes:
    rows = [f"{datetime.fromtimestamp(at, zone):%Y-%m-%d %H:%M:%S},5.0\n" for at in instants]
    return (HEAD + "".join(rows)).encode()


@given(st.integers(1, 60), st.integers(0, 59), st.booleans())
def test_both_autumn_hours_come_back_from_the_wall_clock(step: int, shift: int, newest_first: bool) -> None:
    instants = list(range(AUTUMN - 6 * 3600 + 60 * shift, AUTUMN + 6 * 3600, 60 * step))
    result = read(on_the_wall(instants[::-1] if newest_first else instants), PLAIN)
    assert [at for at, _ in result.readings] == instants
    assert (result.out_of_order_count, result.refused_count) == (0, 0)
    assert result.told_apart_count == sum(AUTUMN - 3600 <= at < AUTUMN + 3600 for at in instants)


@given(st.integers(61, 400), st.integers(0, 400), st.booleans())
def test_slow_loggers_get_the_right_hour_or_none(step: int, shift: int, newest_first: bool) -> None:
    instants = list(range(AUTUMN - 30 * 3600 + 60 * shift, AUTUMN + 30 * 3600, 60 * step))
    result = read(on_the_wall(instants[::-1] if newest_first else instants), PLAIN)
    assert {at for at, _ in result.readings} <= set(instants)
    assert len(result.readings) + result.not_told_apart_count == len(instants)


def test_a_single_autumn_hour_between_its_neighbours_cannot_be_told_and_is_refused() -> None:
    once = [at for at in range(AUTUMN - 7200, AUTUMN + 7200, 900) if not AUTUMN <= at < AUTUMN + 3600]
    result = read(on_the_wall(once), PLAIN)
    assert result.not_told_apart_count == 4
    assert [row.line_number for row in result.refused] == [6, 7, 8, 9]
    assert "came twice in Europe/London" in result.refused[0].why
    assert len(result.readings) == len(once) - 4


@pytest.mark.parametrize(
    "kept",
    [
        range(AUTUMN - 7200, AUTUMN, 300),  # stopped before the clocks went back
        range(AUTUMN + 600, AUTUMN + 7200, 300),  # started after
        [*range(AUTUMN - 7200, AUTUMN - 1800, 300), *range(AUTUMN + 9000, AUTUMN + 18000, 300)],
        [*range(AUTUMN - 18000, AUTUMN - 9000, 300), *range(AUTUMN + 900, AUTUMN + 9000, 300)],
        [*range(AUTUMN - 7200, AUTUMN - 600, 300), *range(AUTUMN + 600, AUTUMN + 9000, 300)],
    ],
)
def test_the_autumn_hour_is_told_where_the_readings_join_up_on_one_side(kept: Sequence[int]) -> None:
    result = read(on_the_wall(kept), PLAIN)
    assert [at for at, _ in result.readings] == list(kept)


def test_in_a_file_out_of_order_the_autumn_hour_cannot_be_told() -> None:
    instants = list(range(AUTUMN - 7200, AUTUMN + 7200, 900))
    instants[2], instants[3] = instants[3], instants[2]
    result = read(on_the_wall(instants), PLAIN)
    assert result.not_told_apart_count == 8
    assert result.out_of_order_count == 1


def test_the_spring_hour_that_no_clock_showed_is_refused_row_by_row() -> None:
    utc = ZoneInfo("UTC")
    instants = list(range(SPRING - 3600, SPRING + 7200, 900))  # a logger that never changes its clock
    result = read(on_the_wall(instants, utc), PLAIN)
    assert result.refused_count == 4
    assert "never showed this time" in result.refused[0].why
    right = replace(PLAIN, time_zone="UTC")
    assert [at for at, _ in read(on_the_wall(instants, utc), right).readings] == instants


@given(
    st.sampled_from(["Europe/London", "UTC", "Etc/GMT-1", "Europe/Dublin", "America/Asuncion"]),
    st.integers(86_400, 4_000_000_000),
)
def test_any_instant_comes_back_through_any_zone_s_clock(zone: str, begun: int) -> None:
    """A second opinion for the cached days: the library's own conversion, over a stretch of half hours."""
    instants = list(range(begun, begun + 40 * 1800, 1800))
    result = read(on_the_wall(instants, ZoneInfo(zone)), replace(PLAIN, time_zone=zone))
    assert [at for at, _ in result.readings] == instants


def test_a_stated_offset_outranks_the_zone_and_tells_the_autumn_hour() -> None:
    rows = [f"{datetime.fromtimestamp(AUTUMN + s, LONDON).isoformat()},5\n" for s in (-900, 2700, 900, -2700)]
    result = read((HEAD + "".join(rows)).encode(), replace(PLAIN, time_format="%Y-%m-%dT%H:%M:%S%z"))
    assert [at - AUTUMN for at, _ in result.readings] == [-2700, -900, 900, 2700]
    assert result.told_apart_count == result.not_told_apart_count == 0


# The standard library's own reading of the same formats is the second opinion.
@given(
    st.datetimes(datetime(1970, 1, 2), datetime(2099, 12, 30)),
    st.sampled_from(["%Y-%m-%d %H:%M:%S", "%d/%m/%Y %I:%M:%S %p", "%m.%d.%Y %H:%M", "%d %b %Y %H:%M:%S"]),
)
def test_times_are_read_as_the_standard_library_reads_them(moment: datetime, text: str) -> None:
    written = moment.strftime(text)
    time_format = TimeFormat(text)
    date_text, clock_text = time_format.split(written)
    ours = datetime.combine(time_format.day(date_text), datetime.min.time()) + timedelta(
        seconds=time_format.seconds(clock_text)
    )
    assert ours == datetime.strptime(written, text)
