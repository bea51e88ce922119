"""The stock at the pass, what leaves it for the bin, and what may be said of a dish."""

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt

from gametrace.desktop.pass_.saying import percent, said_of
from gametrace.register import questions

ENTER = Qt.Key.Key_Return


@pytest.fixture
def station(roe_larder, roe_window):
    code = roe_larder.dressed()
    roe_larder.pack(code, "loin", 800, "frozen")
    roe_larder.pack(code, "steak", 1_200, "vacuum")
    roe_larder.pack(code, "dice", 900, "chilled-loose")
    roe_window.go("pass")
    made = roe_window.station("pass")
    made.presenter.show_page("stock")
    return made


def test_the_one_to_use_first_is_on_top(station):
    names = [one.name for one in station.page.stock.table.records_model.records()]
    assert names == ["dice", "steak", "loin"]


def test_a_date_is_amber_within_two_days_and_plum_once_past(roe_larder, station):
    dice = station.page.stock.table.records_model.record(0)
    stock = station.page.stock
    assert stock._tint(dice) == ""
    roe_larder.later(days=2)
    assert (stock._tint(dice), stock._date(dice)) == ("amber", "13 Oct 2026, tomorrow")
    roe_larder.later(days=2)
    assert (stock._tint(dice), stock._date(dice)) == ("plum", "13 Oct 2026, 1 day past")
    station.reload()
    assert "1 past its date" in station.page.words.text()
    stock.table.selectRow(0)
    assert not stock.add.isEnabled()
    assert "past its date" in stock.why.text()


def test_enter_in_the_found_stock_puts_the_pack_into_the_dish(station, keys):
    station.page.stock.search.setFocus()
    keys("stea", ENTER)
    assert station.page.page() == "dish"
    assert [grams for _, grams in station.page.dish.going_in.taken()] == [1_200]


def test_part_of_a_pack_is_binned_with_a_reason_and_the_rest_stays(roe_larder, station, keys):
    stock = station.page.stock
    stock.table.selectRow(0)
    code = stock.current_code()
    stock.bin.click()
    keys(ENTER)
    assert stock.binning.reason.trouble.text()
    stock.binning.grams.inner.set_text("0.4")
    stock.binning.reason.inner.setFocus()
    keys("dropped", ENTER)
    assert questions.lot(roe_larder.register, code).grams == 500
    assert not stock.binning.isVisible()
    assert code in stock.loud.text()


def test_today_sends_a_pack_here_and_it_is_shown_in_the_stock(station, roe_window):
    code = station.page.stock.table.records_model.id_at(2)
    roe_window.go("pass", code)
    assert station.page.page() == "stock"
    assert station.page.stock.current_code() == code


def test_an_empty_pass_says_what_it_is_for(roe_larder, roe_window):
    roe_window.go("pass")
    empty = roe_window.station("pass")
    assert empty.faces.currentWidget() is empty.faces.empty
    empty.faces.act.click()
    assert roe_window.current == "block"


def test_a_carcass_alone_may_go_to_a_business_and_the_page_says_where_packs_come_from(roe_larder, roe_window):
    roe_larder.dressed()
    roe_window.go("pass")
    station = roe_window.station("pass")
    assert station.faces.currentWidget() is not station.faces.empty
    assert station.page.page() == "handing"
    assert "packs come from the block" in station.page.words.text()


def test_shares_of_a_dish_are_exact_and_only_what_the_records_show(roe_larder):
    one, two = roe_larder.dressed(), roe_larder.dressed()
    packs = [roe_larder.pack(one, "steak", 300), roe_larder.pack(two, "steak", 600)]
    traces = [questions.trace(roe_larder.register, code) for code in packs]
    said = said_of([(300, traces[0]), (600, traces[1])])
    assert [one.share for one in said.animals] == [Fraction(2, 3), Fraction(1, 3)]
    assert [(one.words, one.share) for one in said.species] == [("roe", Fraction(1))]
    assert said.not_shown == 0
    assert said_of([]).animals == ()


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (Fraction(1), "100 %"),
        (Fraction(1, 2), "50 %"),
        (Fraction(2, 3), "66.7 %"),
        (Fraction(1, 3), "33.3 %"),
        (Fraction(1, 4000), "under 0.1 %"),
    ],
)
def test_a_share_is_written_to_a_tenth_where_it_is_not_whole(share, words):
    assert percent(share) == words
