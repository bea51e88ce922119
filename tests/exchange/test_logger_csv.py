"""Loggers' files: twelve dialects written by the csv module, rows that cannot be taken, and figures."""

from __future__ import annotations

import csv
import json
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.exchange.logger_csv import LoggerMapping, LoggerReadings, guess_mapping, read_logger
from gametrace.exchange.logger_figures import Unreadable, tenths_c_of

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
