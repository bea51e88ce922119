"""Guides a logger's file into the register: columns shown and corrected, read in the worker, taken whole.

The mapping is remembered for each store. Nothing is taken in before a person has seen how it is understood.
"""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.logger_page import FOUND_OUT, SAME_CELL, LoggerPage
from gametrace.desktop.errands import Stopped
from gametrace.domain.errors import Refusal, Trouble

if TYPE_CHECKING:
    from gametrace.exchange.logger_csv import LoggerReadings
    from gametrace.exchange.logger_mapping import LoggerMapping

KINDS = "Loggers' files (*.csv *.txt *.tsv);;All files (*)"
_FIRST_BYTES = 1 << 18


class LoggerPresenter(QObject):
    """`which_file` is asked for a file; without one the desktop is asked."""

    def __init__(self, page: LoggerPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.which_file: Callable[[str, str], Path | None] | None = None
        self._path: Path | None = None
        self._lines: list[str] = []
        self._mapping: LoggerMapping | None = None
        self._found: LoggerReadings | None = None
        self._errand, self._key = 0, ""
        page.file_wanted.connect(self._ask)
        page.changed.connect(self._columns_set)
        page.read_wanted.connect(self._read)
        page.stop_wanted.connect(self._stop)
        page.import_wanted.connect(self._import)
        page.store_chosen.connect(self._store_chosen)

    def refresh(self) -> None:
        stores = [(place.code, place.name) for place in self.bench.ask("places") if place.kind == "store"]
        if tuple(code for code, _ in stores) != self.page.store.values():
            self.page.store.set_choices(stores, stores[0][0] if len(stores) == 1 else "")

    # -- the file ---------------------------------------------------------------------------------------

    def _ask(self) -> None:
        ask = self.which_file
        if ask is None:
            from gametrace.desktop.questions import DesktopQuestions

            ask = DesktopQuestions(self.page.window()).which_file
        path = ask("A logger's file", KINDS)
        if path is not None:
            self.take_file(path)

    def take_file(self, path: Path) -> None:
        """Look at the first lines and show what they would mean."""
        from gametrace.exchange.logger_lines import first_lines_of

        self._found, self._path = None, path
        self.page.show_result("", (), can_take=False)
        self.page.file.say(path.name)
        try:
            with path.open("rb") as file:
                first = file.read(_FIRST_BYTES)
            self._lines = first_lines_of(first)
        except OSError as error:
            self._not_usable(f"The file cannot be read: {error.strerror or error}.")
            return
        except (Refusal, Trouble) as error:
            self._not_usable(str(error))
            return
        self._mapping = self._likeliest(first)
        self.page.show_mapping(True)
        self.page.say_trouble("")
        self._show_mapping()

    def _not_usable(self, words: str) -> None:
        self._path = None
        self.page.show_mapping(False)
        self.page.say_trouble(words)

    def _likeliest(self, first: bytes) -> LoggerMapping:
        """The mapping kept for this store if it reads this file, else a guess, else a plain start."""
        from gametrace.desktop.cold.logger_words import first_lines_told
        from gametrace.exchange.logger_csv import guess_mapping
        from gametrace.exchange.logger_mapping import LoggerMapping

        kept = self._kept()
        if kept is not None and any(is_read for *_, is_read in first_lines_told(self._lines, kept)):
            return kept
        try:
            return replace(guess_mapping(first), time_format=None)
        except Refusal as refusal:
            self.page.say_trouble(str(refusal))
            return LoggerMapping(time_column=0, temperature_column=1)

    def _kept(self) -> LoggerMapping | None:
        from gametrace.exchange.logger_mapping import LoggerMapping

        try:
            return LoggerMapping.from_dict(json.loads(self.bench.settings.text(self._setting(), "{}")))
        except (Refusal, ValueError, TypeError, RecursionError):
            return None

    def _setting(self) -> str:
        return f"cold/mapping/{self.page.store.value()}"

    def _store_chosen(self, code: str) -> None:
        if self._path is not None and self._kept() is not None:
            self.take_file(self._path)

    # -- the columns ------------------------------------------------------------------------------------

    def _show_mapping(self) -> None:
        from gametrace.desktop.cold.logger_words import column_names

        mapping, page = self._mapping, self.page
        assert mapping is not None
        page.set_columns(column_names(self._lines, mapping), min(len(self._lines), 60))
        given: dict[str, Any] = mapping.to_dict()
        for name, drop in page.drops.items():
            value = given[name]
            if name == "day_first":
                value = "yes" if value else "no"
            elif value is None:
                value = SAME_CELL if name == "date_column" else FOUND_OUT
            drop.set_value(str(value))
        self._preview()

    def _columns_set(self) -> None:
        """A person set a column: understand the first lines anew."""
        from gametrace.exchange.logger_mapping import LoggerMapping

        given = {name: drop.value() for name, drop in self.page.drops.items()}
        self._found = None
        self.page.show_result("", (), can_take=False)
        try:
            self._mapping = LoggerMapping(
                time_column=int(given["time_column"]),
                temperature_column=int(given["temperature_column"]),
                date_column=None if given["date_column"] == SAME_CELL else int(given["date_column"]),
                header_rows=int(given["header_rows"]),
                delimiter=None if given["delimiter"] == FOUND_OUT else given["delimiter"],
                time_zone=given["time_zone"],
                decimal=None if given["decimal"] == FOUND_OUT else given["decimal"],
                unit=given["unit"],
                day_first=given["day_first"] == "yes",
            )
        except (Refusal, ValueError) as error:
            self.page.say_trouble(str(error))
            return
        self.page.say_trouble("")
        self._preview()

    def _preview(self) -> None:
        from gametrace.desktop.cold.logger_words import first_lines_told

        assert self._mapping is not None
        try:
            self.page.show_lines(first_lines_told(self._lines, self._mapping))
        except Refusal as refusal:
            self.page.say_trouble(str(refusal))

    # -- reading and taking in --------------------------------------------------------------------------

    def _read(self) -> None:
        if self._path is None or self._mapping is None:
            return
        if not self.page.store.value():
            self.page.say_trouble("Choose the store the logger hung in.")
            self.page.store.setFocus()
            return
        self.page.show_busy(True)
        self.page.show_progress(0, 0)
        self._errand = self.bench.errands.run(
            partial(_read_whole, self._path, self._mapping),
            done=self._read_done,
            failed=self._failed,
            progress=self.page.show_progress,
        )

    def _read_done(self, found: LoggerReadings) -> None:
        from gametrace.desktop.cold.logger_words import result_told

        self.page.show_busy(False)
        self._found, self._key = found, uuid.uuid4().hex
        said, left_out = result_told(found)
        role = "strong" if found.readings else "amber"
        self.page.take.setText(f"Put {len(found.readings):,} readings in")
        self.page.show_result(said, left_out, can_take=bool(found.readings), role=role)

    def _stop(self) -> None:
        self.bench.errands.stop(self._errand)

    def _failed(self, error: Exception) -> None:
        self.page.show_busy(False)
        if isinstance(error, Stopped):
            self.page.show_result("Stopped. Nothing was taken in.", (), can_take=False, role="amber")
        elif isinstance(error, Refusal):
            self.page.show_result(str(error), (), can_take=self._found is not None, role="amber")
        else:
            self.bench.errand_failed(error)

    def _import(self) -> None:
        """In the worker: a million readings take some seconds to lay down."""
        found, store = self._found, self.page.store.value()
        if found is None or self._mapping is None or self._path is None:
            return
        self.bench.settings.keep(self._setting(), json.dumps(self._mapping.to_dict()))
        self.page.show_busy(True)
        self.page.stop.hide()
        self.page.show_progress(0, 0)
        given = {
            "store": store,
            "readings": found.readings,
            "name": self._path.name,
            "mapping": found.mapping.to_dict(),
            "by": self.bench.person,
            "key": self._key,
        }
        self.bench.errands.run(
            partial(_take_in, self.bench.acts.import_readings, self.bench.register, given),
            done=self._imported,
            failed=self._failed,
        )

    def _imported(self, changes: Any) -> None:
        count = len(self._found.readings) if self._found else 0
        self._found = None
        self.page.show_busy(False)
        self.page.show_result(f"{count:,} readings are in the register.", (), can_take=False, role="steel")
        self.bench.done.emit(f"{count:,} readings are in the register.")
        self.bench.refresh.tell(changes)
        self.page.choose.setFocus()


def _read_whole(path: Path, mapping: LoggerMapping, progress: Callable[[int, int], None]) -> LoggerReadings:
    from gametrace.exchange.logger_csv import read_logger

    try:
        with path.open("rb") as file:
            return read_logger(file, mapping, progress=progress)
    except OSError as error:
        raise Refusal(f"The file cannot be read: {error.strerror or error}.", "Choose it again.") from error


def _take_in(
    act: Callable[..., Any], register: Any, given: dict[str, Any], progress: Callable[[int, int], None]
) -> Any:
    return act(register, **given)
