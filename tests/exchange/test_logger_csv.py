"""Loggers' files: twelve dialects written by the csv module, the two odd hours, bad rows, and any bytes."""

from __future__ import annotations

import csv
import json
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from io import BufferedReader, BytesIO, StringIO
from pathlib import Path
from typing import Any, BinaryIO
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.exchange import logger_csv, logger_lines
from gametrace.exchange.logger_csv import LoggerMapping, LoggerReadings, guess_mapping, read_logger
from gametrace.exchange.logger_figures import Unreadable, tenths_c_of
from gametrace.exchange.logger_times import TimeFormat

LONDON = ZoneInfo("Europe/London")
# Over midnight, on days that could be months; above, at and below nothing.
BEGUN = datetime(2026, 11, 3, 22, 0, tzinfo=UTC)
TRUTH = tuple((int(BEGUN.timestamp()) + 600 * i, (i * 37) % 230 - 190) for i in range(40))


def degrees(tenths_c: int, mark: str = ".") -> str:
    return f"{'-' if tenths_c < 0 else ''}{abs(tenths_c) // 10}{mark}{abs(tenths_c) % 10}"


def fahrenheit(tenths_c: int) -> str:
    """Two decimals, exact, since a tenth of a degree Celsius is 0.18 degrees Fahrenheit."""
    return str(Decimal(tenths_c) * 9 / 50 + 32)


@dataclass(frozen=True)
class Dialect:
    name: str
    row: Callable[[datetime, int], Sequence[str]]
    heads: Sequence[Sequence[str]] = (("Time", "Temperature"),)
    trailer: Sequence[Sequence[str]] = ()
    guess: dict[str, Any] = field(default_factory=dict)
    encoding: str = "utf-8"
    zone: str = "Europe/London"
    settings: dict[str, Any] = field(default_factory=dict)

    def bytes(self, readings: Sequence[tuple[int, int]] = TRUTH) -> bytes:
        out = StringIO()
        writer = csv.writer(out, **{"delimiter": ",", **self.settings})
        writer.writerows(self.heads)
        zone = ZoneInfo(self.zone)
        writer.writerows(self.row(datetime.fromtimestamp(at, zone), tenths) for at, tenths in readings)
        writer.writerows(self.trailer)
        return out.getvalue().encode(self.encoding)


DIALECTS = (
    Dialect("plain", lambda at, t: (f"{at:%Y-%m-%d %H:%M:%S}", degrees(t)), guess={"decimal": "."}),
    Dialect(
        "semicolons and decimal commas",
        lambda at, t: (f"{at:%d.%m.%Y %H:%M}", degrees(t, ",")),
        settings={"delimiter": ";"},
        guess={"decimal": ",", "time_format": "%d.%m.%Y %H:%M"},
    ),
    Dialect(
        "tabs in UTF-16",
        lambda at, t: (str(at.minute), f"{at:%d/%m/%Y %H:%M:%S}", degrees(t)),
        heads=(("No.", "Date and time", "Temp (°C)"),),
        settings={"delimiter": "\t"},
        encoding="utf-16",
        guess={"delimiter": "\t", "time_column": 1, "temperature_column": 2},
    ),
    Dialect(
        "quoted, with commas in figures",
        lambda at, t: (f"{at:%d/%m/%Y %H:%M}", degrees(t, ",")),
        settings={"quoting": csv.QUOTE_ALL},
        guess={"delimiter": ",", "decimal": ","},
    ),
    Dialect(
        "month first, twelve hours, Fahrenheit",
        lambda at, t: (f"{at:%m/%d/%Y %I:%M:%S %p}", fahrenheit(t)),
        heads=(("Date Time", "Temp, °F"),),
        guess={"unit": "F", "day_first": False, "time_format": "%m/%d/%Y %I:%M:%S %p"},
    ),
    Dialect(
        "date and clock apart, Latin-1 units in the cells",
        lambda at, t: (f"{at:%d/%m/%y}", f"{at:%H:%M}", f"{degrees(t)} °C", "on"),
        heads=(("Date", "Time", "Value", "Mark"),),
        encoding="latin-1",
        guess={"date_column": 0, "time_column": 1, "temperature_column": 2},
    ),
    Dialect(
        "a preamble of names, and words at the end",
        lambda at, t: (f"{at:%Y/%m/%d %H:%M}", "87.5", degrees(t)),
        heads=(
            ("Logger", "Rail 2"), ("Serial", "0417"), (), ("Started", "2026-11-03 22:00:00"), (),
            ("Time", "Humidity %RH", "Air"), ("", "%", "°C"),
        ),
        trailer=((), ("End of readings",), ("Checked by", "", "")),
        guess={"header_rows": 7, "temperature_column": 2},
    ),
    Dialect(
        "UTC stated by each time",
        lambda at, t: (f"{at:%Y-%m-%dT%H:%M:%S}Z", degrees(t)),
        zone="UTC",
        guess={"time_format": "%Y-%m-%dT%H:%M:%S%z"},
    ),
    Dialect(
        "an hour ahead, as the heading says",
        lambda at, t: (f"{at:%d-%b-%Y %H:%M:%S}", degrees(t)),
        heads=(("Date Time, GMT+01:00", "Temp, °C"),),
        zone="Etc/GMT-1",
        guess={"time_zone": "Etc/GMT-1", "time_format": "%d-%b-%Y %H:%M:%S"},
    ),
    Dialect(
        "mark at the front, lone line feeds, bars",
        lambda at, t: (degrees(t), f"{at:%d %b %Y %H:%M}"),
        heads=(("temp", "when"),),
        settings={"delimiter": "|", "lineterminator": "\n"},
        encoding="utf-8-sig",
        guess={"delimiter": "|", "temperature_column": 0, "time_column": 1},
    ),
    Dialect(
        "old line ends, parts of a second, no heading",
        lambda at, t: (f"{at:%Y%m%d %H:%M:%S}.250", degrees(t)),
        heads=(),
        settings={"lineterminator": "\r", "delimiter": ";"},
        guess={"header_rows": 0},
    ),
    Dialect(
        "big-endian UTF-16 without a mark, UTC heading, printed minus signs",
        lambda at, t: (f"{at:%d.%m.%y %H.%M.%S}", degrees(t).replace("-", "−") + "C"),
        heads=(("Time (UTC)", "Probe 1"),),
        settings={"delimiter": ";"},
        encoding="utf-16-be",
        zone="UTC",
        guess={"time_zone": "UTC", "time_format": "%d.%m.%y %H.%M.%S"},
    ),
)  # fmt: skip


def read(data: bytes, mapping: LoggerMapping) -> LoggerReadings:
    return read_logger(BytesIO(data), mapping)


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda dialect: dialect.name)
def test_each_dialect_is_guessed_and_read_whole(dialect: Dialect) -> None:
    data = dialect.bytes()
    mapping = guess_mapping(data[:1024])
    assert {name: getattr(mapping, name) for name in dialect.guess} == dialect.guess
    result = read(data, mapping)
    assert result.readings == TRUTH
    assert result.refused_count == sum(any(row) for row in dialect.trailer)
    assert (result.duplicates_dropped, result.out_of_order_count) == (0, 0)
    assert result.mapping == mapping


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda dialect: dialect.name)
def test_what_a_mapping_leaves_open_is_found_out_from_the_file(dialect: Dialect) -> None:
    mapping = guess_mapping(dialect.bytes())
    open_ones = replace(mapping, delimiter=None, time_format=None, decimal=None)
    result = read(dialect.bytes(), open_ones)
    assert result.readings == TRUTH
    assert result.mapping == replace(mapping, decimal=None)


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda dialect: dialect.name)
def test_a_mapping_is_kept_in_settings_and_comes_back(dialect: Dialect) -> None:
    mapping = guess_mapping(dialect.bytes())
    assert LoggerMapping.from_dict(json.loads(json.dumps(mapping.to_dict()))) == mapping


def test_old_settings_with_fewer_or_other_names_still_serve() -> None:
    kept = {"time_column": 0, "temperature_column": 1, "colour": "blue"}
    assert LoggerMapping.from_dict(kept) == PLAIN


# ------------------------------------------------------------------------------ rows that cannot be taken

PLAIN = LoggerMapping(time_column=0, temperature_column=1)
HEAD = "time,temperature\n"


def plain(*rows: str) -> LoggerReadings:
    return read((HEAD + "\n".join(rows)).encode(), PLAIN)


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("2026-11-03 22:00:00,nan", "'nan' is not a temperature"),
        ("2026-11-03 22:00:00,-inf", "'-inf' is not a temperature"),
        ("2026-11-03 22:00:00,---", "'---' is not a temperature"),
        ("2026-11-03 22:00:00,ERR", "'ERR' is not a temperature"),
        ("2026-11-03 22:00:00,1e1", "'1e1' is not a temperature"),
        ("2026-11-03 22:00:00,", "it has no temperature"),
        ("2026-11-03 22:00:00,40 °F", "'40 °F' is not in °C"),
        ("2026-11-03 22:00:00,-127.0", "-127.0 °C cannot be a reading from a store"),
        ("2026-11-03 22:00:00", "it has too few columns"),
        ("2026-02-29 22:00:00,5.0", "there is no day '2026-02-29'"),
        ("2026-11-03 24:00:00,5.0", "there is no time of day '24:00:00'"),
        ("0000-11-03 22:00:00,5.0", "there is no day '0000-11-03'"),
        ("Battery low", "it has too few columns"),
        ('2026-11-03 22:00:00,"5.0', ""),
    ],
)
def test_a_row_that_cannot_be_read_is_reported_and_the_rest_goes_on(row: str, why: str) -> None:
    result = plain("2026-11-03 21:50:00,4.9", row, "2026-11-03 22:10:00,5.1")
    if why:
        assert result.refused == ((3, row, why),)
        assert [tenths for _, tenths in result.readings] == [49, 51]
    else:  # a quotation mark left open costs no other row
        assert [tenths for _, tenths in result.readings] == [49, 50, 51]


def test_blank_lines_and_empty_cells_are_no_rows_and_line_numbers_are_the_file_s() -> None:
    result = plain("", "  ", ",,", "2026-11-03 22:00:00,5.0", "", "x,y")
    assert (result.row_count, len(result.readings)) == (2, 1)
    assert result.refused[0].line_number == 7


def test_the_first_hundred_bad_rows_are_shown_and_all_are_counted() -> None:
    result = plain(*["2026-11-03 22:00:00,ERR"] * 250, "2026-11-03 22:00:00,5.0")
    assert (len(result.refused), result.refused_count) == (100, 250)
    assert result.refused[-1].line_number == 101
    assert len(result.readings) == 1


def test_a_sensor_dead_for_the_first_day_does_not_hide_how_the_file_is_written() -> None:
    dead = [f"{i % 28 + 1:02d}.10.2026 {i // 60 % 24:02d}:{i % 60:02d},---" for i in range(1440)]
    result = plain(*dead, "03.11.2026 22:00,5.0", "03.11.2026 22:10,5.1")
    assert [tenths for _, tenths in result.readings] == [50, 51]
    assert result.refused_count == 1440
    assert all(row.why == "'---' is not a temperature" for row in result.refused)


def test_a_file_of_nothing_but_bad_rows_gives_no_reading_and_every_reason() -> None:
    result = read(b"head\na,b\nc,d\n", PLAIN)
    assert (result.readings, result.refused_count) == ((), 2)


def test_duplicates_are_dropped_and_of_two_temperatures_the_warmer_is_kept() -> None:
    same = "2026-11-03 22:00:00"
    result = plain(f"{same},5.0", f"{same},5.0", f"{same},7.3", "2026-11-03 22:10:00,1")
    assert [tenths for _, tenths in result.readings] == [73, 10]
    assert (result.duplicates_dropped, result.conflicting_count, result.out_of_order_count) == (2, 1, 0)


def test_rows_out_of_order_are_sorted_and_counted() -> None:
    result = plain(*(f"2026-11-03 22:{minute}:00,{minute[0]}" for minute in ("10", "30", "20", "40")))
    assert [tenths for _, tenths in result.readings] == [10, 20, 30, 40]
    assert (result.out_of_order_count, result.newest_first) == (1, False)


def test_a_file_with_the_newest_first_is_in_order_too() -> None:
    result = read(DIALECTS[0].bytes(TRUTH[::-1]), PLAIN)
    assert result.readings == TRUTH
    assert (result.out_of_order_count, result.newest_first) == (0, True)


def test_zeros_left_by_a_power_cut_cost_no_row() -> None:
    data = (HEAD + "2026-11-03 22:00:00,5.0\n").encode() + b"\0" * 5000 + b"2026-11-03 22:10:00,5.1\n"
    assert len(read(data, PLAIN).readings) == 2


@pytest.mark.parametrize("wrong", [b"\xb0", b"\xc2\xb0"])
def test_a_lone_latin_1_sign_far_into_a_file_is_still_read(wrong: bytes) -> None:
    rows = "".join(f"2026-11-03 {i // 60:02d}:{i % 60:02d}:00,5.0\n" for i in range(1440)).encode()
    data = HEAD.encode() + rows * 20 + b"2026-11-04 00:00:00,5.5 " + wrong + b"C\n"
    assert read(data, PLAIN).readings[-1][1] == 55


# ------------------------------------------------------------------------------------------ figures

FIGURES = st.tuples(st.sampled_from(["", "-", "+"]), st.integers(0, 44), st.text("0123456789", max_size=6))


@given(FIGURES, st.sampled_from(".,"))
def test_degrees_celsius_round_half_a_tenth_away_from_zero(parts: tuple[str, int, str], mark: str) -> None:
    sign, whole, part = parts
    value = Decimal(f"{sign}{whole}.{part}0")
    if abs(value) <= Decimal("39.9"):
        rounded = int((value * 10).quantize(Decimal(1), ROUND_HALF_UP))
        assert tenths_c_of(f" {sign}{whole}{mark}{part} °C", "C", mark) == rounded
        assert tenths_c_of(f"{sign}{whole}{mark}{part}", "C", None) == rounded


@given(FIGURES)
def test_degrees_fahrenheit_become_tenths_celsius_exactly(parts: tuple[str, int, str]) -> None:
    sign, whole, part = parts
    exact = (Fraction(f"{sign}{whole}.{part}0") - 32) * Fraction(50, 9)
    away = int(abs(exact) + Fraction(1, 2)) * (-1 if exact < 0 else 1)
    if -400 <= away <= 450:
        assert tenths_c_of(f"{sign}{whole}.{part}F", "F", ".") == away


# By hand: -0.04 F is -17.8 C; 32 F is 0 C; 31.91 F is exactly -0.05 C and goes away from zero.
@pytest.mark.parametrize(
    ("cell", "tenths_c"), [("0", -178), ("32", 0), ("31.91", -1), ("32.09", 1), ("-40", -400), ("44.6", 70)]
)
def test_degrees_fahrenheit_by_hand(cell: str, tenths_c: int) -> None:
    assert tenths_c_of(cell, "F", None) == tenths_c


def test_a_comma_is_not_a_point_once_the_mapping_says_which() -> None:
    with pytest.raises(Unreadable, match="another decimal sign"):
        tenths_c_of("4,5", "C", ".")


def test_commas_for_columns_and_figures_at_once_are_refused_not_read_as_whole_degrees() -> None:
    rows = "".join(f"2026-11-03 22:{minute:02d}:00,4,{minute % 10}\n" for minute in range(20))
    with pytest.raises(Refusal, match="within the figures too"):
        guess_mapping((HEAD + rows).encode())


# ------------------------------------------------- the hour that comes twice, and the one that never comes

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


# --------------------------------------------------------------------------- files and settings refused


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


# --------------------------------------------------------------------------------------- from outside


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("soffice") is None, reason="needs LibreOffice (soffice) on this machine")
def test_a_csv_saved_by_libreoffice_is_read_the_same(tmp_path: Path) -> None:
    (tmp_path / "one.csv").write_bytes(DIALECTS[0].bytes())
    saved_as = "csv:Text - txt - csv (StarCalc):59,34,76,1"  # semicolon, quotation mark, UTF-8
    for source, target in (("one.csv", "ods"), ("one.ods", saved_as)):
        subprocess.run(
            [
                "soffice", f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}", "--headless",
                "--convert-to", target, "--outdir", str(tmp_path), str(tmp_path / source),
            ],
            check=True, capture_output=True, timeout=180,
        )  # fmt: skip
    data = (tmp_path / "one.csv").read_bytes()
    assert data != DIALECTS[0].bytes()
    assert read(data, guess_mapping(data)).readings == TRUTH


def test_reading_a_logger_loads_neither_register_nor_store() -> None:
    asking = (
        "import sys, gametrace.exchange.logger_csv; "
        "sys.exit(any(name.startswith(('gametrace.register', 'gametrace.store', 'sqlalchemy', 'PySide6')) "
        "for name in sys.modules))"
    )
    subprocess.run([sys.executable, "-c", asking], check=True)
