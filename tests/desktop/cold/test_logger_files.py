"""A logger's file from the disk into the register: columns seen and set, what is left out is said."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from gametrace.register import questions

ENTER = Qt.Key.Key_Return
FILE = """Logger 7;;;
Nr;Zeit;Temperatur °C;Feuchte %
1;08.10.2026 08:00;3,5;81
2;08.10.2026 08:10;3,7;81
3;08.10.2026 08:10;3,9;81
4;kaputt;---;81
5;08.10.2026 08:20;4,1;80
"""


@pytest.fixture
def file(tmp_path) -> Path:
    path = tmp_path / "logger.csv"
    path.write_text(FILE, encoding="utf-8")
    return path


@pytest.fixture
def station(roe_window, file):
    roe_window.go("cold", "logger")
    station = roe_window.station("cold")
    station.presenters["logger"].which_file = lambda title, kinds: file
    return station


def idle(qtbot, window) -> None:
    window.bench.errands.wait_idle()
    qtbot.waitUntil(lambda: not window.bench.errands.is_busy)


def test_a_file_with_decimal_commas_goes_in_by_keys(qtbot, roe_larder, roe_window, station, keys) -> None:
    page = station.page.logger
    page.store.choose("C1")
    page.choose.setFocus()
    keys(ENTER)
    assert page.drops["decimal"].value() == ","
    assert page.drops["time_column"].value() == "1"
    meant = [page.lines.itemAt(at).widget().text() for at in range(page.lines.count())]
    assert "08 Oct 2026, 08:00: 3.5 °C" in meant
    assert any("not read" in words for words in meant)
    page.read.setFocus()
    keys(ENTER)
    idle(qtbot, roe_window)
    assert "3 readings" in page.result.text()
    said = [page.left_out.itemAt(at).widget().text() for at in range(page.left_out.count())]
    assert any("1 row at a time that another row has too" in words for words in said)
    assert any(words.startswith("line 6:") for words in said)
    assert roe_window.focusWidget() is page.take
    keys(ENTER)
    idle(qtbot, roe_window)
    at = datetime(2026, 10, 8, 7, 0, tzinfo=UTC)  # 08:00 by the larder's summer clock
    found = questions.temperatures(roe_larder.register, "C1", at - timedelta(days=1), at + timedelta(days=1))
    start = int(at.timestamp())
    assert found == ((start, 35), (start + 600, 39), (start + 1200, 41))


def test_columns_set_by_hand_are_remembered_for_the_store(qtbot, roe_window, station, file) -> None:
    page, presenter = station.page.logger, station.presenters["logger"]
    page.store.choose("C1")
    presenter.take_file(file)
    page.drops["time_zone"].set_value("UTC")
    page.drops["time_zone"].picked.emit("UTC")
    meant = [page.lines.itemAt(at).widget().text() for at in range(page.lines.count())]
    assert "08 Oct 2026, 09:00: 3.5 °C" in meant
    page.read.click()
    idle(qtbot, roe_window)
    page.take.click()
    idle(qtbot, roe_window)
    presenter.take_file(file)
    assert page.drops["time_zone"].value() == "UTC"
    page.store.choose("F2")
    presenter.take_file(file)
    assert page.drops["time_zone"].value() == "Europe/London"


def test_a_file_that_is_no_table_of_readings_is_refused_in_words(station, tmp_path) -> None:
    page, presenter = station.page.logger, station.presenters["logger"]
    picture = tmp_path / "photo.csv"
    picture.write_bytes(b"PK\x03\x04 not a table")
    presenter.take_file(picture)
    assert page.trouble.text()
    assert not page.form.isVisible()
    presenter.take_file(tmp_path / "gone.csv")
    assert "cannot be read" in page.trouble.text()


def test_without_a_store_nothing_is_read(roe_window, station, file) -> None:
    station.presenters["logger"].take_file(file)
    station.page.logger.read.click()
    assert "Choose the store" in station.page.logger.trouble.text()
    assert not roe_window.bench.errands.is_busy


def test_a_long_file_can_be_stopped_and_nothing_is_taken_in(qtbot, roe_larder, roe_window, station, tmp_path):
    page, presenter = station.page.logger, station.presenters["logger"]
    long = tmp_path / "long.csv"
    clock = [f"{at // 3600:02d}:{at // 60 % 60:02d}:{at % 60:02d}" for at in range(86_400)]
    lines = (f"2026-10-{day:02d} {time};3,5" for day in range(1, 9) for time in clock)
    long.write_text("time;temp\n" + "\n".join(lines), encoding="utf-8")
    page.store.choose("C1")
    presenter.take_file(long)
    page.read.click()
    assert page.stop.isVisible()
    page.stop.click()
    idle(qtbot, roe_window)
    assert "Stopped" in page.result.text()
    assert not page.take.isVisible()
    assert questions.last_readings(roe_larder.register) == {}
