"""Trim of several animals becomes one mince, in the real window."""

import pytest
from PySide6.QtCore import Qt

from gametrace.register import questions

ENTER = Qt.Key.Key_Return


@pytest.fixture
def mixing(roe_larder, roe_window):
    """Three roe with trim, and the page shown."""
    trim = [roe_larder.weigh(roe_larder.dressed(), "trim", grams) for grams in (2_000, 1_500, 1_000)]
    roe_window.go("block")
    station = roe_window.station("block")
    station.presenter.show_mixing()
    return station, trim


def test_mince_is_made_of_three_animals_by_three_scans_with_the_grams_from_each(
    roe_larder, mixing, roe_scan, keys
):
    station, trim = mixing
    for code in trim:
        roe_scan(code)
    page = station.page.mixing
    page.going_in.row(trim[1]).grams.set_text("0.5")
    assert page.total.text() == "3 in, 3.50 kg"
    page.grams.select()
    keys("3.45", ENTER)
    assert "0.05 kg will show as unaccounted" in page.missing.text()
    keys(ENTER)
    assert station.page.page() == "cutting"
    mince = questions.lot(roe_larder.register, station.page.cutting.code)
    assert (mince.kind, mince.name, mince.grams) == ("mix", "mince", 3_450)
    animals = questions.trace(roe_larder.register, mince.code).animals
    assert len(animals) == 3
    assert questions.lot(roe_larder.register, trim[1]).grams == 1_000
    assert station.page.cutting.mode.value() == "packs"
    assert station.page.cutting.offering.product().id == "mince"


def test_a_tray_scanned_twice_is_in_once_and_says_so(mixing):
    station, trim = mixing
    station.on_scan(trim[0])
    station.on_scan(trim[0])
    assert "in already" in station.page.mixing.loud.text()
    assert len(station.page.mixing.going_in.taken()) == 1


def test_held_trim_is_refused_with_the_reason(roe_larder, mixing):
    station, trim = mixing
    roe_larder.acts.hold_lot(roe_larder.register, by=roe_larder.tutor, code=trim[0], reason="hair in it")
    station.on_scan(trim[0])
    assert "hair in it" in station.page.mixing.loud.text()
    assert station.page.mixing.going_in.taken() == []


def test_more_mince_than_went_in_is_refused_under_its_weight(mixing, keys):
    station, trim = mixing
    station.on_scan(trim[0])
    page = station.page.mixing
    page.grams.select()
    keys("2.5", ENTER)
    page.make.click()
    assert "cannot have come out" in page.grams_field.trouble.text()
    assert station.page.page() == "mixing"


def test_a_tray_taken_out_again_lies_in_the_list_again(mixing):
    station, trim = mixing
    station.on_scan(trim[0])
    page = station.page.mixing
    assert trim[0] not in [one.code for one in page.table.trays()]
    page.going_in.row(trim[0]).out.click()
    assert trim[0] in [one.code for one in page.table.trays()]
    assert page.going_in.taken() == []


def test_nothing_in_is_said_when_made_of_nothing(mixing):
    station, _ = mixing
    station.page.mixing.make.click()
    assert "Nothing has gone in yet" in station.page.mixing.loud.text()
