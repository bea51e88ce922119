"""Visit: the two questions, the readiness, the period, the paper and the check of the seal."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO
from pathlib import Path
from threading import Event
from types import SimpleNamespace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from gametrace.desktop.printing import Printing
from gametrace.desktop.visit import presenter
from gametrace.documents import visit_pack
from gametrace.register import visits
from gametrace.register.readiness_meat import wants


@pytest.fixture
def page(window):
    window.go("visit")
    return window.station("visit")


def test_both_questions_are_answered_from_here(page, window, larder) -> None:
    page.view.code.setText(larder.packs[0])
    page.view.code.setFocus()
    QTest.keyClick(page.view.code, Qt.Key.Key_Return)
    assert window.current == "trace"
    assert window.station("trace").presenter.trace.code == larder.packs[0]


def test_nothing_typed_is_asked_for_with_a_sentence(page) -> None:
    page.view.answer.click()
    assert page.view.code_field.trouble.text()


def test_the_readiness_names_holds_and_leads_to_them(page, window, larder) -> None:
    lines = page.presenter.readiness()
    held = [line for line in lines if line.state == "on hold"]
    assert any("warm at the door" in line.sentence for line in held)
    assert {line.station for line in held} == {"larder"}
    words = "\n".join(label.text() for label in page.view.findChildren(QLabel))
    assert "warm at the door" in words


def test_findings_that_ask_for_a_reason_are_counted_not_recited() -> None:
    assert wants(("the price", "a reason: No temperature.", "a reason: Too heavy.")) == "the price, 2 reasons"
    assert wants(("a reason: Too heavy.",)) == "a reason"


@pytest.mark.parametrize(
    ("key", "first"),
    [
        ("month", date(2026, 11, 1)),
        ("season", date(2026, 8, 1)),
        ("year", date(2025, 11, 25)),
    ],
)
def test_a_period_is_one_press(page, key, first) -> None:
    page.view.period.choose(key)
    assert page.view.first.value() == first
    assert page.view.last.value() == date(2026, 11, 25)


def test_a_day_typed_by_hand_is_none_of_the_periods(page) -> None:
    page.view.period.choose("month")
    page.view.first.set_text("3 Nov 2026")
    assert page.view.period.value() == ""
    assert page.view.last.value() == date(2026, 11, 25)


def test_a_period_that_ends_before_it_begins_is_refused_at_its_field(page) -> None:
    page.view.first.set_text("20 Nov 2026")
    page.view.last.set_text("1 Nov 2026")
    page.view.print_button.click()
    assert "before" in page.view.last_field.trouble.text()
    assert page.view.first.text() == "20 Nov 2026"


def test_a_day_that_is_none_keeps_the_paper_back_and_stays_as_typed(page, tmp_path) -> None:
    page.view.first.set_text("31 Feb 2026")
    page.view.print_button.click()
    assert page.view.first.text() == "31 Feb 2026"
    assert not (tmp_path / "papers").exists()


def test_an_unknown_lot_is_refused_at_its_field(page) -> None:
    page.view.lot.setText("unicorn")
    page.view.print_button.click()
    assert "unicorn" in page.view.lot_field.trouble.text()


def test_one_button_prints_the_officers_paper(page, window, larder, qtbot, tmp_path) -> None:
    page.view.lot.setText(larder.pie)
    page.view.print_button.click()
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("visit *.pdf"))), timeout=30_000)
    (paper,) = (tmp_path / "papers").glob("visit *.pdf")
    qtbot.waitUntil(lambda: paper.read_bytes().rstrip().endswith(b"%%EOF"), timeout=5_000)


def test_a_long_paper_says_how_far_it_is_and_is_saved_whole(
    page, window, qtbot, tmp_path, monkeypatch
) -> None:
    monkeypatch.setattr(presenter, "LONG", 0)
    page.view.print_button.click()
    assert page.faces.currentWidget() is page.faces.busy
    far: list[int] = []
    page.faces.bar.valueChanged.connect(far.append)
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("visit *.pdf"))), timeout=30_000)
    assert page.faces.currentWidget() is page.faces.page
    assert far == sorted(far)
    assert far[-1] == page.faces.bar.maximum()


@pytest.mark.parametrize(
    ("module", "work"), [(visits, "visit_sheet"), (visit_pack, "visit_pdf")], ids=["gathered", "drawn"]
)
def test_a_long_paper_that_is_stopped_while_it_is_made_leaves_nothing_behind(
    page, window, qtbot, tmp_path, monkeypatch, module, work
) -> None:
    monkeypatch.setattr(presenter, "LONG", 0)
    make, is_pressed = getattr(module, work), Event()

    def make_after_stop(*given: Any, **named: Any) -> Any:
        assert is_pressed.wait(timeout=30)
        return make(*given, **named)

    monkeypatch.setattr(module, work, make_after_stop)
    said: list[str] = []
    window.bench.done.connect(said.append)
    page.view.print_button.click()
    page.faces.stop.click()
    is_pressed.set()
    qtbot.waitUntil(lambda: page.faces.currentWidget() is page.faces.page, timeout=30_000)
    assert said == ["The paper was stopped; nothing of it was saved."]
    assert not list((tmp_path / "papers").glob("visit *.pdf"))


def test_the_check_shows_that_the_register_is_whole(page, qtbot) -> None:
    page.view.check_button.click()
    assert page.faces.currentWidget() is page.faces.busy
    qtbot.waitUntil(lambda: page.faces.currentWidget() is page.faces.page, timeout=20_000)
    assert "whole" in page.view.check_words.text()


def test_the_check_can_be_stopped(page, qtbot) -> None:
    page.view.check_button.click()
    page.faces.stop.click()
    qtbot.waitUntil(lambda: page.faces.currentWidget() is page.faces.page, timeout=20_000)
    assert page.view.check_words.text()


def test_the_period_s_deliveries_are_saved_as_a_list_for_a_spreadsheet(
    page, window, larder, tmp_path
) -> None:
    asked = []

    def where(title: str, suggested: Path) -> Path:
        asked.append(suggested.name)
        return tmp_path / "list.csv"

    window.bench.printing = Printing(SimpleNamespace(where_to_save=where))
    page.view.list_button.setFocus()
    window.scanning.flush()
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_Space)
    window.scanning.flush()
    rows = list(csv.DictReader(StringIO((tmp_path / "list.csv").read_bytes().decode(), newline="")))
    assert [row["code"] for row in rows] == larder.animals
    assert asked == ["deliveries 2026-08-26 to 2026-11-25.csv"]
    assert "3 deliveries in list.csv" in window.banner.words.text()


def test_a_period_without_a_delivery_saves_no_list_and_says_so(page, window) -> None:
    page.view.first.set_value(date(2025, 1, 1))
    page.view.last.set_value(date(2025, 1, 2))
    page.view.list_button.click()
    assert "Nothing was delivered" in page.view.first_field.trouble.text()


def test_a_period_turned_round_is_refused_at_its_end(page) -> None:
    page.view.first.set_value(date(2025, 2, 1))
    page.view.last.set_value(date(2025, 1, 2))
    page.view.list_button.click()
    assert "ends before it begins" in page.view.last_field.trouble.text()


@pytest.mark.parametrize("what", ["Venison pie", "0411", "Hartmere Estate"])
def test_one_page_of_whatever_is_named_is_handed_over(page, qtbot, tmp_path, what: str) -> None:
    page.view.code.setText(what)
    page.view.one_page.click()
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("*.pdf"))), timeout=30_000)


def test_one_page_of_what_is_not_here_is_refused_at_the_box(page) -> None:
    page.view.code.setText("unicorn")
    page.view.one_page.click()
    assert "unicorn" in page.view.code_field.trouble.text()


def test_the_dealer_s_record_is_that_of_the_period_s_year(page, window, tmp_path) -> None:
    page.view.book_button.click()
    (saved,) = (tmp_path / "papers").glob("dealer*.csv")
    assert saved.name == "dealer's record 2026-04-01 to 2027-03-31.csv"
    rows = list(csv.reader(StringIO(saved.read_bytes().decode(), newline="")))
    assert len(rows) == 4
    assert rows[1][3] == "fallow"


def test_everything_goes_into_a_new_folder(page, window, qtbot, tmp_path) -> None:
    (tmp_path / "papers" / "gametrace export").mkdir(parents=True)
    page.view.export_button.click()
    qtbot.waitUntil(
        lambda: (tmp_path / "papers" / "gametrace export 2" / "journal.jsonl").exists(), timeout=30_000
    )
    qtbot.waitUntil(lambda: page.faces.currentWidget() is page.faces.page, timeout=5_000)
    assert "about.txt" in window.banner.words.text()
