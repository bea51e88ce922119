"""Packs in one go in the real window: few keys, each weight on disk at once, the labels with the last."""

import pytest
from PySide6.QtCore import Qt

from gametrace.register import questions

ENTER, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Escape


@pytest.fixture
def haunch(roe_larder) -> str:
    return roe_larder.weigh(roe_larder.dressed(), "haunch", 2_480, side="left")


@pytest.fixture
def packing(roe_window, haunch, keys):
    """The page shown by keys alone: F3, down to the haunch, Tab to its button."""
    roe_window.go("block")
    station = roe_window.station("block")
    station.page.choosing.table.choose_id(haunch)
    station.page.choosing.pack.setFocus()
    keys(" ")
    assert station.page.page() == "packing"
    return station


@pytest.fixture
def pages(tmp_path):
    """How many labels each paper holds that was made."""

    def read() -> list[int]:
        from pypdf import PdfReader

        return [len(PdfReader(one).pages) for one in (tmp_path / "papers").glob("*.pdf")]

    return read


def test_twelve_labels_are_on_one_paper_with_no_key_after_the_last_weighing(
    roe_larder, roe_window, packing, keys, pages, qtbot
):
    keys("12", ENTER, "2", ENTER)
    for at in range(12):
        keys(f"0.{200 + at}", ENTER)
    qtbot.waitUntil(lambda: not roe_window.bench.errands.is_busy)
    assert pages() == [12]
    packs = [one for one in questions.stock(roe_larder.register) if one.kind == "pack"]
    assert [one.grams for one in packs] == [200 + at for at in range(12)]
    assert {one.portions for one in packs} == {2}
    assert "12 labels are open" in packing.page.packing.loud.text()


def test_each_weight_is_on_disk_as_it_is_entered(roe_larder, packing, haunch, keys):
    keys("12", ENTER, ENTER, "0.205", ENTER)
    assert questions.lot(roe_larder.register, haunch).grams == 2_480 - 205
    page = packing.page.packing
    assert page.what.text() == "Pack 2 of 12"
    assert page.so_far.text() == "1 pack, 0.205 kg"


def test_all_alike_shares_out_what_is_left_and_is_done_once(
    roe_larder, roe_window, packing, keys, pages, qtbot
):
    page = packing.page.packing
    page.mode.choose("alike")
    page.count.select()
    keys("12", ENTER, "2", ENTER, ENTER)
    qtbot.waitUntil(lambda: not roe_window.bench.errands.is_busy)
    packs = [one for one in questions.stock(roe_larder.register) if one.kind == "pack"]
    assert sum(one.grams for one in packs) == 2_480
    assert len(packs) == 12
    assert pages() == [12]


def test_the_pad_types_where_the_hand_is_and_else_the_weight(packing, keys):
    page = packing.page.packing
    for key in ("1", "2"):
        page.pad.keys[key].click()
    assert page.count.text() == "12"
    page.grams.select()
    for key in ("0", ".", "2", "5", "⌫"):
        page.pad.keys[key].click()
    assert page.grams.text() == "0.2"
    page.pack.click()
    assert page.so_far.text() == "1 pack, 0.20 kg"


def test_more_than_is_left_is_refused_and_what_was_typed_stays(packing, keys):
    keys("2", ENTER, "1", ENTER, "3.5", ENTER)
    page = packing.page.packing
    assert "more than is left" in page.loud.text()
    assert page.grams.text() == "3.50"
    assert page.so_far.text() == "No pack yet"


def test_the_date_its_rule_and_its_source_stand_there_before(packing):
    page = packing.page.packing
    assert page.date.text() == "Use by Tue 20 Oct 2026"
    assert "Vacuum packed, chilled: 10 days (FSA/FSS" in page.rule.text()
    page.packed.choose("frozen")
    assert page.date.text() == "Best by Sun 10 Oct 2027"


def test_another_lot_is_packed_after_its_scan(roe_larder, packing):
    other = roe_larder.weigh(roe_larder.dressed(), "shoulder", 1_200)
    packing.on_scan(other)
    assert packing.page.page() == "packing"
    assert packing.presenter.packing.lot.code == other
    assert "shoulder" in packing.page.packing.name.text()


def test_escape_leads_back_and_the_page_fits_a_hand(packing, keys, fits_a_hand):
    assert fits_a_hand(packing.page.packing) == []
    keys(ESCAPE)
    assert packing.page.page() == "choosing"
