"""The main window: stations by key, scans from anywhere, who is at the keyboard, what goes wrong."""

from __future__ import annotations

import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.stations import ON_STRIP, STATIONS
from gametrace.domain.errors import Refusal, Trouble


def press(window, key: Qt.Key) -> None:
    QTest.keyClick(window.windowHandle(), key)


@pytest.mark.parametrize("entry", ON_STRIP, ids=[entry.name for entry in ON_STRIP])
def test_f1_to_f7_go_along_the_strip(window, entry) -> None:
    press(window, getattr(Qt.Key, f"Key_{entry.key}"))
    assert window.current == entry.name
    assert window.strip.node(entry.name).isChecked()
    assert window.station(entry.name).isVisible()


@pytest.mark.parametrize("name", [entry.name for entry in STATIONS])
def test_every_station_can_be_pictured_at_both_sizes(window, name) -> None:
    for width, height in ((1280, 800), (1920, 1080)):
        window.resize(width, height)
        assert not window.grab_station(name).isNull()
        assert (window.width(), window.height()) == (width, height)


def test_the_strip_says_what_waits_at_each_station(window) -> None:
    node = window.strip.node("larder")
    assert node.count > 0
    assert node.accessibleName().startswith("Larder, F2: ")


def test_a_scanned_pack_is_traced_from_a_page_that_does_not_want_it(window, larder, scan) -> None:
    window.go("today")
    scan(larder.packs[0])
    assert window.current == "trace"
    assert window.station("trace").presenter.trace.code == larder.packs[0]


def test_a_scan_is_heard_in_the_scan_field_and_leaves_it_empty(window, larder, scan) -> None:
    window.scan_field.setFocus()
    scan(larder.packs[0])
    assert window.current == "trace"
    assert window.scan_field.text() == ""


def test_a_typed_code_without_its_dashes_is_known(window, larder) -> None:
    window.scan_field.setText(larder.pie.replace("-", "").lower())
    window.scan_field.setFocus()
    press(window, Qt.Key.Key_Return)
    assert window.station("trace").presenter.trace.code == larder.pie
    assert window.scan_field.text() == ""


def test_a_code_with_swapped_digits_is_refused_and_stays_to_be_mended(window, larder) -> None:
    year, number, check = larder.packs[1].split("-")
    wrong = f"{year}-{number[:-2]}{number[-1]}{number[-2]}-{check}"
    assert wrong != larder.packs[1]
    window.scan_field.setText(wrong)
    window.scan_field.setFocus()
    press(window, Qt.Key.Key_Return)
    assert window.banner.isVisible()
    assert window.scan_field.text() == wrong


def test_the_right_code_takes_the_refusal_of_the_wrong_one_away_and_no_other(window, larder) -> None:
    good = larder.packs[1]
    window.take_scan(f"{good[:-1]}{'A' if good[-1] != 'A' else 'B'}")
    assert "check character" in window.banner.words.text()
    window.take_scan(good)
    assert not window.banner.isVisible()
    window.banner.trouble("The disk is full.", can_retry=False)
    window.take_scan(good)
    assert window.banner.isVisible()


@pytest.mark.parametrize("text", ["<b>&", "=1+1", "🦌🦌", "x" * 199, "\u202e0417", "';--"])
def test_any_text_may_be_asked_for_and_gets_a_sentence(window, text) -> None:
    window.scan_field.setText(text)
    window.scan_field.setFocus()
    press(window, Qt.Key.Key_Return)
    assert window.current == "trace"
    assert window.station("trace").view.question.text()


def test_somebody_else_takes_the_keyboard(window, larder, qtbot) -> None:
    window.person_button.click()
    page = window.stack.currentWidget()
    page.list.set_value(larder.student)
    qtbot.keyClick(page.list.list, Qt.Key.Key_Return)
    assert window.bench.person == larder.student
    assert window.person_button.text() == "CD · student"


def test_trouble_stands_over_the_page_and_can_be_tried_again(window) -> None:
    tries: list[int] = []

    def locked() -> str:
        tries.append(1)
        if len(tries) == 1:
            raise Trouble("The register is locked by another program.", "Close it and try again.")
        return "done"

    assert window.bench.guarded(locked) is None
    assert "locked" in window.banner.words.text()
    window.banner.again.click()
    assert len(tries) == 2
    assert not window.banner.isVisible()


def test_a_mistake_of_ours_leaves_the_window_standing_and_tells_the_whole_story(window) -> None:
    def broken() -> None:
        raise ValueError("no such hook")

    window.bench.guarded(broken)
    window.banner.more.click()
    page = window.stack.currentWidget()
    assert "no such hook" in page.text.toPlainText()
    page.back.click()
    assert window.stack.currentWidget() is window.station(window.current)


def test_a_refusal_goes_to_the_page_that_asked(window, larder) -> None:
    told: list[Refusal] = []
    done = window.bench.attempt("hold_lot", on_refusal=told.append, code=larder.packs[0], reason="")
    assert done is None
    assert told
    assert not window.banner.isVisible()


def test_an_act_refreshes_the_strip_and_only_marks_hidden_pages_stale(window, larder) -> None:
    window.go("trace", larder.animals[0])
    window.go("today")
    before = window.strip.node("today").count
    window.bench.attempt("hold_lot", code=larder.packs[1], reason="wrong label")
    assert window.strip.node("today").count == before + 1
    assert window.station("trace")._is_stale
    assert not window.station("today")._is_stale


def test_long_work_shows_progress_and_stops_when_asked(window, qtbot) -> None:
    from gametrace.desktop.errands import Stopped

    steps: list[tuple[int, int]] = []
    ends: list[object] = []

    def work(progress) -> None:
        at = 0
        while True:
            at += 1
            progress(at, 1000)

    number = window.bench.errands.run(
        work, done=ends.append, failed=ends.append, progress=lambda *s: steps.append(s)
    )
    qtbot.waitUntil(lambda: bool(steps), timeout=5000)
    window.bench.errands.stop(number)
    qtbot.waitUntil(lambda: bool(ends), timeout=5000)
    assert isinstance(ends[0], Stopped)


def test_the_window_is_seen_before_the_register_is_imported() -> None:
    program = (
        "import sys\n"
        "from gametrace.desktop.app import application, Window\n"
        "from gametrace.desktop.bench import Bench\n"
        "from gametrace.desktop.look import Look, dress\n"
        "from gametrace.desktop.settings import Settings\n"
        "app = application(); look = Look(); dress(app, look)\n"
        "window = Window(Bench(look, None, Settings())); window.show(); app.processEvents()\n"
        "late = {'sqlmodel', 'sqlalchemy', 'reportlab', 'qrcode', 'pydantic', 'sqlite3'}\n"
        "print(sorted(late & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"
