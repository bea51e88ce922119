"""Loggers' files and mappings that are refused, reading that is stopped, and any bytes at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from io import BufferedReader, BytesIO
from typing import BinaryIO

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.exchange import logger_csv, logger_lines
from gametrace.exchange.logger_csv import LoggerMapping, LoggerReadings, guess_mapping, read_logger
from gametrace.exchange.logger_figures import Unreadable
from gametrace.exchange.logger_times import TimeFormat

PLAIN = LoggerMapping(time_column=0, temperature_column=1)
HEAD = "time,temperature\n"


def read(data: bytes, mapping: LoggerMapping) -> LoggerReadings:
    return read_logger(BytesIO(data), mapping)


def on_the_wall(instants: Sequence[int]) -> bytes:
    rows = [f"{datetime.fromtimestamp(at, UTC):%Y-%m-%d %H:%M:%S},5.0\n" for at in instants]
    return (HEAD + "".join(rows)).encode()


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"),
        (b"PK\x03\x04 and more", "workbook"),
        (b"\xd0\xcf\x11\xe0 and more", "workbook"),
        (b"a,b\n" + b"x" * 10_001, "line of more than"),
        (b"x" * 600_000, "line of more than"),
    ],
)
def test_what_is_no_file_of_readings_is_refused(data: bytes, words: str) -> None:
    with pytest.raises(Refusal, match=words):
        read(data, PLAIN)
    with pytest.raises(Refusal, match=words):
        guess_mapping(data)


def test_no_columns_found_is_a_refusal() -> None:
    with pytest.raises(Refusal, match="No columns"):
        guess_mapping(b"Dear Sir,\nthe deer was late, again.\n")


def test_too_large_a_file_is_refused_at_once_or_as_soon_as_it_shows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(logger_lines, "MOST_BYTES", 300_000)
    data = on_the_wall(range(0, 60 * 15_000, 60))
    assert len(data) > 300_000
    for stream in (BytesIO(data), _Unseekable(data)):
        with pytest.raises(Refusal, match="larger than"):
            read_logger(stream, PLAIN)


def test_too_many_readings_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(logger_csv, "MOST_READINGS", 5)
    with pytest.raises(Refusal, match="more than 5 readings"):
        read(on_the_wall(range(0, 600, 60)), PLAIN)


@pytest.mark.parametrize(
    "wrong",
    [
        {"time_column": -1}, {"time_column": "0"}, {"time_column": True}, {"temperature_column": 0},
        {"date_column": 0}, {"date_column": 1}, {"header_rows": 10**9}, {"delimiter": "x"}, {"delimiter": ""},
        {"decimal": ";"}, {"unit": "K"}, {"time_zone": "Europe"}, {"time_zone": "../etc/passwd"},
        {"time_zone": ""}, {"time_zone": "Europe/Nowhere"}, {"day_first": 1}, {"time_format": "%H:%M"},
        {"time_format": "%d/%m/%Y"}, {"time_format": "%d/%d/%Y %H:%M"}, {"time_format": "%Q %H:%M"},
        {"time_format": "%d/%m/%Y %I:%M"}, {"time_format": "%H:%M %d/%m/%Y"}, {"time_format": ""},
    ],
    ids=str,
)  # fmt: skip
def test_a_mapping_that_cannot_be_used_cannot_be_made(wrong: dict[str, object]) -> None:
    with pytest.raises(Refusal) as refused:
        LoggerMapping.from_dict({"time_column": 0, "temperature_column": 1, **wrong})
    assert refused.value.field
    assert refused.value.what_to_do


# ------------------------------------------------------------------------------------ progress and stopping


class _Unseekable(BytesIO):
    def seekable(self) -> bool:
        return False

    def tell(self) -> int:
        raise OSError("a pipe has no place")


LONG = on_the_wall(range(0, 60 * 30_000, 60))


@pytest.mark.parametrize("make", [BytesIO, _Unseekable, lambda data: BufferedReader(BytesIO(data))])
def test_progress_rises_to_the_whole(make: Callable[[bytes], BinaryIO]) -> None:
    told: list[tuple[int, int]] = []
    result = read_logger(make(LONG), PLAIN, progress=lambda done, total: told.append((done, total)))
    assert len(result.readings) == 30_000
    assert told == sorted(told)
    assert len(told) > 2
    assert told[-1] == (len(LONG), len(LONG))


def test_it_stops_when_asked_to() -> None:
    asked = iter([False, True])
    with pytest.raises(Refusal, match="was stopped") as refused:
        read_logger(BytesIO(LONG), PLAIN, cancelled=lambda: next(asked))
    assert refused.value.field == "cancelled"


def test_what_progress_raises_ends_the_reading() -> None:
    class Stopped(Exception):
        pass

    def stop(done: int, total: int) -> None:
        raise Stopped

    with pytest.raises(Stopped):
        read_logger(BytesIO(LONG), PLAIN, progress=stop)


# -------------------------------------------------------------------------------------------- any bytes

CELLS = st.sampled_from(
    ["2026-11-03 22:00:00", "03/11/2026 22:00", "25/10/2026 01:30", "2026-03-29 01:30:00", "4.5", "-4,5", '"',
     '"4,5"', "", " ", "ERR", "°C", "\0", "\ufeff", "\ud7ff", "9" * 400, "12:00", "03.11.26", "T",
     "1 Nov 2026", "2026-11-03T01:30:00+25:00", "99/99/9999 99:99", "२०२६-११-०३ २२:००:००", "४.५"]
)  # fmt: skip
LINES = st.lists(st.lists(CELLS | st.text(max_size=8), max_size=4), max_size=12)
MAPPINGS = st.builds(
    LoggerMapping,
    time_column=st.just(0),
    temperature_column=st.just(1),
    date_column=st.sampled_from([None, 2]),
    header_rows=st.integers(0, 3),
    delimiter=st.sampled_from([None, ",", ";", "\t", "|"]),
    time_format=st.sampled_from([None, "%d/%m/%Y %H:%M", "%Y-%m-%d %H:%M:%S", "%d %b %Y %I:%M %p"]),
    time_zone=st.sampled_from(["Europe/London", "UTC", "Pacific/Apia"]),
    decimal=st.sampled_from([None, ".", ","]),
    unit=st.sampled_from(["C", "F"]),
    day_first=st.booleans(),
)


@given(st.binary(max_size=300), MAPPINGS)
@example(b"\xff\xfe\x00", LoggerMapping(time_column=0, temperature_column=1))
@example(b"\xff\xfe\x00\x00\xff\xff\xff\xff", LoggerMapping(time_column=0, temperature_column=1))
def test_any_bytes_are_read_or_refused(data: bytes, mapping: LoggerMapping) -> None:
    _never_crashes(data, mapping)


@given(LINES, st.sampled_from(";,\t|"), st.sampled_from(["\n", "\r\n", "\r"]), MAPPINGS)
def test_any_rows_are_read_or_refused_and_none_is_lost(
    rows: list[list[str]], delimiter: str, end: str, mapping: LoggerMapping
) -> None:
    text = end.join(delimiter.join(cells) for cells in rows)
    for encoding in ("utf-8", "utf-16"):
        _never_crashes(text.encode(encoding, "replace"), mapping)


def _never_crashes(data: bytes, mapping: LoggerMapping) -> None:
    with suppress(Refusal):
        guess_mapping(data)
    try:
        result = read(data, mapping)
    except Refusal:
        return
    assert result.row_count == len(result.readings) + result.duplicates_dropped + result.refused_count
    instants = [at for at, _ in result.readings]
    assert instants == sorted(set(instants))
    for row in result.refused:
        assert row.why
        assert row.text.isprintable()
        row.text.encode("utf-8")


@given(st.text("%dmyYbHIMSfpz/:. T-", max_size=20))
@example("%d/%m/%Y %H:%M")
def test_any_text_is_a_format_or_refused(text: str) -> None:
    try:
        time_format = TimeFormat(text)
    except Refusal:
        return
    with pytest.raises(Unreadable):
        time_format.split("nonsense")
