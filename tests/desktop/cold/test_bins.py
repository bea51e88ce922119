"""By-products: what waits by category, a collection by keys, and a category confirmed once for all."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt

from gametrace.register import questions

ENTER = Qt.Key.Key_Return


@pytest.fixture
def station(roe_larder, roe_window):
    roe_larder.dressed(off=3_190)
    roe_larder.dressed(off=2_800)
    roe_window.go("bins")
    return roe_window.station("bins")


def test_a_collection_is_written_down_by_keys(roe_larder, roe_window, station, keys) -> None:
    page = station.page.waiting
    assert "not for human consumption" in page.label.text()  # Regulation (EU) 142/2011 Annex VIII
    page.list.setFocus()
    keys(" ")
    assert "1 ticked" in page.count.text()
    assert "carrier" in page.missing.text()
    page.edits["collector"].setFocus()
    keys("Marl Rendering", ENTER, "Marl works, Ousemere", ENTER, "AB 1180", ENTER, "J. Marl", ENTER)
    keys("today", ENTER)
    page.on.set_value(date(2026, 10, 10))
    assert not page.missing.isVisible()
    page.collect.setFocus()
    keys(ENTER)
    taken = [line for line in questions.bins(roe_larder.register) if line.document_number]
    assert [(line.collector, line.document_number) for line in taken] == [("Marl Rendering", "AB 1180")]
    assert taken[0].keep_until == date(2028, 10, 10)
    assert page.list.count() == 1
    assert page.edits["document_number"].text() == ""
    assert page.edits["collector"].text() == "Marl Rendering"


def test_a_collection_without_a_day_or_ticks_is_refused_where_it_is_missing(roe_larder, station) -> None:
    page = station.page.waiting
    page.collect.click()
    assert "day of collection" in page.fields["on"].trouble.text()
    page.on.set_value(date(2026, 10, 10))
    page.collect.click()
    assert "who took them" in page.fields["collector"].trouble.text()
    for name in ("collector", "destination", "document_number"):
        page.edits[name].setText("x")
    page.collect.click()
    assert "Nothing has been chosen" in page.missing.text()
    assert not any(line.document_number for line in questions.bins(roe_larder.register))


def test_a_skin_that_was_sold_is_written_down_with_its_sum(roe_larder, station) -> None:
    page = station.page.waiting
    page.list.tick_all(True)
    page.on.set_value(date(2026, 10, 10))
    for name in ("collector", "destination", "document_number"):
        page.edits[name].setText("x")
    page.paid.set_text("much")
    page.collect.click()
    assert not any(line.document_number for line in questions.bins(roe_larder.register))
    page.paid.set_text("9.01")
    page.collect.click()
    register = roe_larder.register
    pictures = [questions.cost_picture(register, one.code) for one in questions.deliveries(register)]
    assert sum(sold.pence for one in pictures for sold in one.sold) == 901
    assert page.paid.text() == ""


def test_a_category_that_sources_read_differently_is_confirmed_once(roe_larder, station) -> None:
    station.page.show_page("settling")
    part = station.page.settling
    assert part.item == "skin"
    part.settle.click()
    assert "Choose what they said" in part.fields["category"].trouble.text()
    part.category.choose("2")
    part.who.setText("M. Reed, Ousemere council")
    part.on.set_value(date(2026, 10, 9))
    part.settle.click()
    kept = questions.policies(roe_larder.register).categories
    assert kept == {"skin": (2, "M. Reed, Ousemere council", "2026-10-09")}
    assert part.item == ""
    assert {line.category for line in questions.bins(roe_larder.register)} == {2}
    assert "not for animal consumption" in station.page.waiting.label.text()


def test_weeks_and_papers_are_shown(roe_larder, roe_window, station) -> None:
    station.page.show_page("weeks")
    assert station.page.weeks.isVisible()
    ((_, grams),) = station.page.weeks.records_model.records()
    assert sum(grams.values()) == sum(line.grams for line in questions.bins(roe_larder.register))
    station.page.show_page("papers")
    assert station.page.no_paper.isVisible()
    station.page.waiting.list.tick_all(True)
    station.page.waiting.on.set_value(date(2026, 10, 10))
    for name in ("collector", "destination", "document_number"):
        station.page.waiting.edits[name].setText("x")
    station.page.waiting.collect.click()
    (paper,) = station.page.papers.records_model.records()
    assert (paper.document_number, paper.keep_until) == ("x", date(2028, 10, 10))
    assert not station.page.no_paper.isVisible()


def test_with_nothing_to_collect_it_says_what_the_page_is_for(roe_window) -> None:
    roe_window.go("bins")
    station = roe_window.station("bins")
    assert station.faces.currentWidget() is station.faces.empty


def test_everything_can_be_pressed_with_a_glove_and_read(station, fits_a_hand) -> None:
    for name in ("waiting", "settling", "weeks", "papers"):
        station.page.show_page(name)
        assert fits_a_hand(station) == []


def test_what_is_ticked_gets_its_labels(window, larder) -> None:
    window.go("bins")
    page = window.station("bins").page.waiting
    page.all.click()
    page.labels.click()
    assert window.current == "paper"
    job = window.station("paper").labels.job
    assert job.codes == tuple(page.list.values())
    assert job.back == "bins"
