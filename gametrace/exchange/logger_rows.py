"""One line of a logger's file as an instant and a temperature.

A row is one line: loggers write no line breaks into a cell, and a quotation mark left open must not
swallow the rows after it.
"""

from __future__ import annotations

import csv
from functools import lru_cache, partial

from gametrace.exchange.logger_figures import Unreadable, tenths_c_of
from gametrace.exchange.logger_mapping import LoggerMapping
from gametrace.exchange.logger_times import TimeFormat, WallClock

# A day has 86,400 clock texts; days and figures are fewer. Bounded, for files that never repeat a cell.
_KEPT = 100_000


def cells_of(line: str, delimiter: str) -> list[str]:
    """The cells of a line; quotation marks as RFC 4180 has them."""
    if '"' not in line:
        return line.split(delimiter)
    try:
        return next(csv.reader([line], delimiter=delimiter, skipinitialspace=True), [])
    except csv.Error:
        raise Unreadable("its quotation marks do not fit together") from None


class RowReader:
    """Reads rows by one mapping, whose delimiter and time format are given apart as they may be found out.

    The same few texts of days, times of day and figures come over and over; each is understood once.
    """

    def __init__(self, mapping: LoggerMapping, delimiter: str, time_format: str) -> None:
        self._delimiter = delimiter
        self._zone_name = mapping.time_zone
        self._date_column = mapping.date_column
        self._time_column = mapping.time_column
        self._temperature_column = mapping.temperature_column
        self._format = TimeFormat(time_format)
        self._wall = WallClock("UTC" if self._format.has_offset else mapping.time_zone)
        self._midnight = lru_cache(_KEPT)(self._midnight_of)
        self._seconds = lru_cache(_KEPT)(self._format.seconds)
        self._instants = lru_cache(_KEPT)(self._wall.instants)
        self._tenths_c = lru_cache(_KEPT)(partial(tenths_c_of, unit=mapping.unit, decimal=mapping.decimal))

    def read(self, line: str) -> tuple[int, int, int]:
        """The instant, how much later it may also be (nought but in the hour that comes twice), the tenths.

        Raises Unreadable.
        """
        cells = cells_of(line, self._delimiter)
        try:
            clock_text = cells[self._time_column]
            temperature_text = cells[self._temperature_column]
            if self._date_column is None:
                date_text, clock_text = self._format.split(clock_text)
            else:
                date_text = cells[self._date_column]
        except IndexError:
            raise Unreadable("it has too few columns") from None
        from_midnight, even = self._midnight(date_text)
        at = from_midnight + self._seconds(clock_text)
        tenths_c = self._tenths_c(temperature_text)
        if even:
            return at, 0, tenths_c
        return *self._on_the_day_the_clocks_change(at), tenths_c

    def _midnight_of(self, date_text: str) -> tuple[int, bool]:
        return self._wall.midnight(self._format.day(date_text))

    def _on_the_day_the_clocks_change(self, naive: int) -> tuple[int, int]:
        instants = self._instants(naive)
        if not instants:
            raise Unreadable(
                f"the clocks in {self._zone_name} never showed this time; if the logger keeps one time all "
                "year, set its time zone so"
            )
        return instants[0], instants[-1] - instants[0]
