"""The supplier's file: every field by key, a reason for what is changed, what lapses in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import questions
from gametrace.register.supplier_book import Approval, Score
from gametrace.register.supplier_words import FEW, lapse_lines, score_lines


def key_in(window, text: str, *keys: Qt.Key) -> None:
    """A person's typing at the window: letters, then keys."""
    window.scanning.flush()
    for letter in text:
        QTest.keyClick(window.windowHandle(), letter)
        window.scanning.flush()
    for key in keys:
        QTest.keyClick(window.windowHandle(), key)
        window.scanning.flush()


@pytest.fixture
def book(window, larder):
    """The suppliers' page, the one supplier's file open."""
    window.go("setup", "S001")
    return window.station("setup").view.suppliers


def test_the_file_opens_from_the_list_by_key_and_goes_back_there(window, larder) -> None:
    window.go("setup", "suppliers")
    page = window.station("setup").view.suppliers
    page.lines.buttons["S001"].setFocus()
    key_in(window, "", Qt.Key.Key_Space)
    assert page.file.isVisible()
    assert page.file.title.text() == "S001   Hartmere Estate"
    key_in(window, "", Qt.Key.Key_Space)  # the hand lies on 'All suppliers'
    assert page.lines.isVisible()
    assert page.lines.buttons["S001"].hasFocus()


def test_blanks_are_filled_by_key_without_a_reason_and_kept(window, larder, book) -> None:
    book.file.fields["certificate_number"].inner.setFocus()
    key_in(window, "TH-88", Qt.Key.Key_Return)
    assert book.file.fields["certificate_until"].inner.edit.hasFocus()
    key_in(window, "1 Mar 2027", Qt.Key.Key_Return)
    key_in(window, "31/12/2026", Qt.Key.Key_Return)
    book.file.act.setFocus()
    key_in(window, "", Qt.Key.Key_Space)
    kept = questions.approvals(larder.register)["S001"]
    assert kept.certificate_number == "TH-88"
    assert (kept.certificate_until, kept.insured_until) == (date(2027, 3, 1), date(2026, 12, 31))


def test_what_was_written_changes_only_with_a_reason(window, larder, book) -> None:
    field = book.file.fields["name"].inner
    field.setFocus()
    field.selectAll()
    key_in(window, "Hartmere Woods")
    book.file.act.click()
    assert not book.file.fields["reason"].trouble.isHidden()
    assert field.text() == "Hartmere Woods"
    key_in(window, "new owner", Qt.Key.Key_Return)
    assert questions.approvals(larder.register)["S001"].name == "Hartmere Woods"


def test_a_fixed_sum_is_asked_only_where_that_is_the_rule(book, larder) -> None:
    rule, pence = book.file.fields["damage_rule"].inner, book.file.fields["damage_pence"]
    assert pence.isHidden()
    rule.choose("fixed")
    assert not pence.isHidden()
    pence.inner.set_text("20")
    book.file.fields["claim_days"].inner.set_text("3")
    book.file.act.click()
    kept = questions.approvals(larder.register)["S001"]
    assert (kept.damage_rule, kept.damage_pence, kept.claim_days) == ("fixed", 2000, 3)


def test_a_day_that_is_none_is_refused_at_its_field_and_stays_typed(book, larder) -> None:
    until = book.file.fields["insured_until"]
    until.inner.edit.setText("soon")
    book.file.act.click()
    assert not until.trouble.isHidden()
    assert until.inner.text() == "soon"
    assert questions.approvals(larder.register)["S001"].insured_until is None


def test_what_lapses_within_a_month_is_said_with_its_day() -> None:
    today = date(2026, 11, 25)
    approval = Approval(certificate_until=date(2026, 11, 24), insured_until=date(2026, 12, 10))
    assert lapse_lines(approval, today) == (
        "The trained person's certificate lapsed on 24 Nov 2026.",
        "The insurance lapses on 10 Dec 2026.",
    )
    assert lapse_lines(replace(approval, certificate_until=None, insured_until=None), today) == ()


def test_a_lapse_stands_in_amber_words_under_the_name(window, larder, book) -> None:
    book.file.fields["insured_until"].inner.set_value(date(2026, 11, 1))
    book.file.act.click()
    from gametrace.desktop.parts.words import Words

    said = [w.text() for w in book.lines.findChildren(Words) if w.property("role") == "amber"]
    assert said == ["The insurance lapsed on 01 Nov 2026."]


def test_counts_are_told_of_how_many_and_few_are_called_few() -> None:
    score = Score(
        "S001", animals=FEW, refused=1, warm=0, paper_gaps=2, damaged_grams=1_250, grams=100_000, damaged=1
    )
    said = score_lines(score)
    assert "Refused: 1 of 5, 20.0 %." in said
    assert "Papers incomplete: 2 of 5, 40.0 %." in said
    assert "Shot damage: 1 of 5, 20.0 %; 1.25 kg off, 1.3 % of the weight." in said
    assert not any("Too few" in line for line in said)
    few = score_lines(replace(score, animals=FEW - 1))
    assert any("Too few" in line for line in few)
    assert "Refused: 1 of 4." in few, "a share of so few means nothing"
    assert score_lines(None) == ("Nothing has come from this supplier yet.",)


def test_the_page_fits_a_hand(book, window, fits_a_hand) -> None:
    assert fits_a_hand(window.station("setup")) == []
