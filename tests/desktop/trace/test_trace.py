"""Trace: both questions answered for anything, on one page, by key, and on paper."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.app import build_window
from gametrace.desktop.trace.balance_line import BalanceLine
from gametrace.desktop.trace.wording import killed_text, share_text
from gametrace.register import acts
from gametrace.register.records import Balance, BalanceRow


def texts(widget) -> str:
    from PySide6.QtWidgets import QLabel

    return "\n".join(label.text() for label in widget.findChildren(QLabel))


def choices(view) -> list[str]:
    picker = view.candidates.list
    return [picker.item(row).text() for row in range(picker.count())]


@pytest.fixture
def page(window):
    window.go("trace")
    return window.station("trace")


def test_a_dish_shows_each_animal_with_its_exact_share_and_its_paper(page, larder) -> None:
    page.open_code(larder.pie)
    animals = texts(page.view.animals)
    # 1800 of 3600 g of mince and 1500 g of haunch from the doe: 3000/2 + 1500 of 4500 g.
    assert "66.7 % (2/3)" in animals
    assert "33.3 % (1/3)" in animals
    for words in (
        "supplier's tag 0411",
        "killed 20 Nov 2026, 07:40",
        "Hartmere wood",
        "Hartmere Estate",
        "D1",
    ):
        assert words in animals


def test_an_animal_shows_where_the_rest_is_and_what_is_missing(page, larder) -> None:
    page.open_code(larder.animals[0])
    forward = set(page.view.forward.codes())
    assert {larder.packs[0], larder.mince, larder.pie} <= forward
    line = page.view.balance
    assert line.received.text() == "31.60 kg\nreceived ="
    assert [words for words, _ in line.figures()][-1] == "unaccounted"
    assert "green: every gram" in line.standing.text()


@pytest.mark.parametrize("text", ["0411", "Venison pie", "venison PIE"])
def test_tags_and_dishes_are_found_by_their_own_names(page, larder, text) -> None:
    page.open_code(text)
    assert page.view.is_showing_trace


def test_a_supplier_shows_all_their_animals(page, larder) -> None:
    page.open_code("Hartmere Estate")
    assert page.view.title.text() == "Hartmere Estate"
    assert {animal.code for animal in page.presenter.trace.animals} == set(larder.animals)


def test_a_word_that_may_mean_several_things_offers_them(page, larder) -> None:
    page.open_code("fallow")
    assert not page.view.is_showing_trace
    assert "fallow" in page.view.question.text()
    assert len(choices(page.view)) > 1
    page.view.candidates.list.setCurrentRow(0)
    QTest.keyClick(page.view.candidates.list, Qt.Key.Key_Return)
    assert page.view.is_showing_trace


def test_an_unknown_word_is_answered_with_a_sentence_and_the_newest_things(page, larder) -> None:
    page.open_code("unicorn")
    assert "unicorn" in page.view.question.text()
    assert any(larder.pie in words for words in choices(page.view))


def test_a_thing_in_the_hand_stands_in_picture_list_and_line(page, larder) -> None:
    page.open_code(larder.animals[0])
    page.view.picture.button(larder.mince).click()
    assert page.view.forward.table.current_id() == larder.mince
    assert larder.mince in page.view.forward.detail.text()
    page.view.follow.click()
    assert page.presenter.trace.code == larder.mince


def test_backspace_goes_back_along_the_way_walked(page, larder) -> None:
    page.open_code(larder.animals[0])
    page.open_code(larder.pie)
    QTest.keyClick(page, Qt.Key.Key_Backspace)
    assert page.presenter.trace.code == larder.animals[0]


def test_p_prints_what_is_seen_as_one_page(page, window, larder, qtbot, tmp_path) -> None:
    page.open_code(larder.pie)
    QTest.keyClick(page, Qt.Key.Key_P)
    paper = tmp_path / "papers" / f"trace {larder.pie}.pdf"
    qtbot.waitUntil(paper.exists, timeout=20_000)
    qtbot.waitUntil(window.banner.isVisible, timeout=5_000)
    assert paper.read_bytes().startswith(b"%PDF")
    assert paper.name in window.banner.words.text()


def test_after_a_hold_the_page_that_is_open_says_so(page, window, larder) -> None:
    page.open_code(larder.packs[1])
    window.bench.attempt("hold_lot", code=larder.packs[1], reason="<i>label</i> smudged")
    assert page.presenter.trace.state == "on hold"
    assert "<i>label</i> smudged" in texts(page.view.animals)


def test_an_empty_register_says_what_the_page_is_for(qtbot, empty_register, tmp_path) -> None:
    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    window.go("trace")
    page = window.station("trace")
    assert page.faces.currentWidget() is page.faces.empty
    window.close()


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (Fraction(1), "all of it"),
        (Fraction(1, 3), "33.3 % (1/3)"),
        (Fraction(1, 5000), "under 0.1 % (1/5000)"),
        (Fraction(123457, 1000003), "12.3 %"),
    ],
)
def test_a_share_is_exact_where_exactness_can_be_read(share: Fraction, words: str) -> None:
    assert share_text(share) == words


@pytest.mark.parametrize(
    ("killed_at", "words"),
    [
        ("2026-11-12T07:40", "12 Nov 2026, 07:40"),
        ("2026-11-12", "12 Nov 2026, time not stated"),
        ("", "day not stated"),
    ],
)
def test_what_was_not_stated_is_said_to_be(killed_at: str, words: str) -> None:
    assert killed_text(killed_at) == words


def test_the_balance_always_names_what_is_unaccounted(qtbot) -> None:
    line = BalanceLine()
    qtbot.addWidget(line)
    line.show_balance(
        Balance(16000, 16000, 0, (BalanceRow("in stock", 16000, ("x",)), BalanceRow("unaccounted", 0, ())))
    )
    assert line.figures() == (("in stock", "16.00"), ("unaccounted", "0.00"))


def test_each_line_of_the_balance_leads_to_its_lots_and_back(page, window, larder) -> None:
    window.scanning.stop()
    page.open_code(larder.animals[0])
    everything = page.view.forward.codes()
    served = page.view.balance.buttons["served"]
    served.setFocus()
    QTest.keyClick(served, Qt.Key.Key_Space)
    assert page.view.forward.codes() == (larder.pie,)
    assert "Only served" in page.view.forward.nowhere.text()
    QTest.keyClick(served, Qt.Key.Key_Space)
    assert page.view.forward.codes() == everything


def test_the_picture_is_saved_as_it_stands_as_svg_and_pdf(page, window, larder, tmp_path) -> None:
    window.scanning.stop()
    page.open_code(larder.pie)
    pdf, svg = page.view.picture_papers("Trace")
    words = svg.decode()
    assert words.count("<path") + words.count("<polyline") >= len(page.view.picture.picture.lines)
    for code in (larder.pie, larder.mince, larder.animals[0]):
        assert code in words
    assert pdf.startswith(b"%PDF")
    QTest.keyClick(page.view.save_picture, Qt.Key.Key_Space)
    names = {path.suffix for path in (tmp_path / "papers").iterdir()}
    assert {".pdf", ".svg"} <= names


def test_trace_leads_to_the_other_questions_by_key(page, window) -> None:
    window.scanning.stop()
    for name in ("many", "bag", "recalls", "drills"):
        window.go("trace")
        button = page.view.leads[name]
        button.setFocus()
        QTest.keyClick(button, Qt.Key.Key_Space)
        assert window.current == name


def test_a_supplier_shows_the_score_from_own_records_and_what_lapses(page, window, larder) -> None:
    acts.amend_supplier(larder.register, by=larder.tutor, supplier="S001", insured_until=date(2026, 11, 1))
    page.presenter.open("Hartmere Estate")
    said = texts(page.view.animals)
    assert "From this larder's own records" in said
    assert "The insurance lapsed on 01 Nov 2026." in said
    assert "3 deliveries" in said
    assert "Too few to judge by" in said
    page.presenter.open(larder.animals[0])
    assert "own records" not in texts(page.view.animals)
