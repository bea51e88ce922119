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
    assert station.page.page() == "packing"
    mince = station.presenter.packing.lot
    assert (mince.kind, mince.name, mince.grams) == ("mix", "mince", 3_450)
    animals = questions.trace(roe_larder.register, mince.code).animals
    assert len(animals) == 3
    assert questions.lot(roe_larder.register, trim[1]).grams == 1_000
    assert mince.product == "mince"


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


def test_rusk_goes_in_by_keyboard_with_its_packet_and_its_allergens(roe_larder, mixing, roe_scan, keys):
    station, trim = mixing
    roe_scan(trim[0])
    page = station.page.mixing
    page.product.choose("sausage-meat")
    page.besides.add.setFocus()
    keys(" ", "rusk", ENTER, "0.15", ENTER)
    assert "suggests cereals containing gluten" in page.ingredient.asked.text()
    keys("R 88", ENTER, ENTER, "1 Mar", ENTER)
    page.ingredient.ticks["gluten"].setFocus()
    keys(" ")
    assert page.ingredient.was_read.isChecked()
    page.ingredient.put_in.click()
    assert page.total.text() == "1 in, 2.15 kg, 0.15 kg of it besides meat"
    page.make.click()
    made = station.presenter.packing.lot
    assert made.grams == 2_150
    (rusk,) = questions.ingredients(roe_larder.register, made.code)
    assert (rusk.name, rusk.grams, rusk.lot, rusk.allergens) == ("rusk", 150, "R 88", {"gluten"})
    assert page.besides.others() == ()


def test_a_packet_nobody_read_goes_in_and_is_asked_after(mixing):
    station, trim = mixing
    station.on_scan(trim[0])
    page = station.page.mixing
    page.besides.add.click()
    page.ingredient.name.setText("salt")
    page.ingredient.grams.set_text("0.05")
    page.ingredient.put_in.click()
    assert "Nobody has said which allergens are in salt" in page.loud.text()
    assert page.besides.others()[0].allergens is None


def test_an_ingredient_past_its_day_stays_out_and_what_was_typed_stays(mixing, keys):
    station, trim = mixing
    station.on_scan(trim[0])
    page = station.page.mixing
    page.besides.add.click()
    face = page.ingredient
    face.name.setText("cream")
    face.grams.set_text("0.2")
    face.use_by.set_text("1 Oct 2026")
    face.put_in.click()
    assert "its last day was 1 October 2026" in face.trouble.text()
    assert face.name.text() == "cream"
    keys(Qt.Key.Key_Escape)
    assert page.besides.others() == ()


def test_the_face_of_an_ingredient_fits_a_hand(mixing, fits_a_hand):
    station, _ = mixing
    station.page.mixing.besides.add.click()
    assert fits_a_hand(station.page.mixing.ingredient) == []
