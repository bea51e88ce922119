"""A dish from scanned packs, in the real window: the last gate, once, and whole or part."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import questions

ENTER = Qt.Key.Key_Return


@pytest.fixture
def packs(roe_larder) -> list[str]:
    """Three packs: steak and dice of one roe, loin of another."""
    one, two = roe_larder.dressed(), roe_larder.dressed()
    return [
        roe_larder.pack(one, "steak", 1_200),
        roe_larder.pack(one, "dice", 900, "chilled-loose"),
        roe_larder.pack(two, "loin", 800),
    ]


@pytest.fixture
def station(roe_window, packs):
    roe_window.go("pass")
    return roe_window.station("pass")


def test_a_dish_is_made_by_three_scans_and_the_keyboard(roe_larder, station, packs, roe_scan, keys):
    for code in packs:
        roe_scan(code)
    dish = station.page.dish
    dish.name.inner.setFocus()
    keys("Roe pie", ENTER, "Friday", ENTER, ENTER, "24", ENTER)
    assert dish.total.text() == "3 in, 2.90 kg; 120 g a portion"
    keys(ENTER)
    assert station.page.page() == "made"
    (made,) = questions.dishes(roe_larder.register)
    assert station.page.made.code.text() == made.code
    assert (made.name, made.grams_made) == ("Roe pie", 2_900)
    assert [questions.lot(roe_larder.register, code).grams for code in packs] == [0, 0, 0]


def fill(station, name: str = "Roe pie", portions: str = "24") -> None:
    station.page.dish.name.inner.setText(name)
    station.page.dish.occasion.inner.setText("Friday dinner")
    station.page.dish.portions.inner.set_text(portions)


def test_enter_twice_makes_one_dish(roe_larder, station, packs):
    station.on_scan(packs[0])
    fill(station)
    station.page.dish.make.setFocus()
    window = station.window()
    QTest.keyClick(window.windowHandle(), ENTER)
    station.presenter.make()
    station.presenter.make()
    assert len(questions.dishes(roe_larder.register)) == 1


def test_part_of_a_pack_leaves_the_rest_in_stock(roe_larder, station, packs, roe_scan, keys):
    roe_scan(packs[0])
    keys("0.5", ENTER)
    assert "leaves 0.70 kg" in station.page.dish.going_in.row(packs[0]).line.text()
    fill(station)
    station.page.dish.make.click()
    assert questions.lot(roe_larder.register, packs[0]).grams == 700


def test_a_held_pack_is_refused_with_the_reason_and_its_sign(roe_larder, station, packs, roe_scan):
    roe_larder.acts.hold_lot(roe_larder.register, by=roe_larder.tutor, code=packs[0], reason="bag has blown")
    roe_scan(packs[0])
    loud = station.page.dish.loud
    assert "bag has blown" in loud.text()
    assert loud.sign.accessibleName() == "on hold"
    assert station.page.dish.going_in.taken() == []


def test_a_pack_past_its_date_is_refused_with_the_date(roe_larder, station, packs, roe_scan):
    roe_larder.later(days=4)
    roe_scan(packs[1])
    loud = station.page.dish.loud
    assert "past its date" in loud.text()
    assert loud.sign.accessibleName() == "out of date"


def test_a_pack_put_on_hold_after_it_was_scanned_stops_the_dish(roe_larder, station, packs):
    station.on_scan(packs[0])
    fill(station)
    roe_larder.acts.hold_lot(
        roe_larder.register, by=roe_larder.tutor, code=packs[0], reason="call from stalker"
    )
    station.page.dish.make.click()
    assert "call from stalker" in station.page.dish.loud.text()
    assert questions.dishes(roe_larder.register) == ()


def test_a_whole_carcass_is_not_meat_for_a_plate(roe_larder, station, roe_scan):
    roe_scan(roe_larder.dressed())
    assert "not meat for a plate" in station.page.dish.loud.text()


def test_the_same_scan_twice_in_a_second_counts_once_without_a_word(station, packs, roe_scan):
    roe_scan(packs[0])
    roe_scan(packs[0])
    assert "goes in" in station.page.dish.loud.text()
    assert station.page.dish.going_in.taken() == [(packs[0], 1_200)]


def test_a_second_deliberate_scan_says_it_is_in_already(station, packs):
    station.on_scan(packs[0])
    station.on_scan(packs[0])
    assert "in already" in station.page.dish.loud.text()
    assert station.page.dish.going_in.taken() == [(packs[0], 1_200)]


def test_what_is_missing_is_said_under_its_field(station, packs):
    station.on_scan(packs[0])
    dish = station.page.dish
    dish.make.click()
    assert dish.portions.trouble.text()
    dish.portions.inner.set_text("4")
    dish.make.click()
    assert "needs a name" in dish.name.trouble.text()
    dish.name.inner.setText("Pie")
    dish.make.click()
    assert dish.occasion.trouble.text()


def test_markup_and_right_to_left_in_a_name_stay_plain_words(roe_larder, station, packs):
    station.on_scan(packs[0])
    fill(station, name="<b>=1+1</b> פשטידה & 🥧")
    station.page.dish.make.click()
    assert questions.dishes(roe_larder.register)[0].name == "<b>=1+1</b> פשטידה & 🥧"
    assert station.page.made.name.text() == "<b>=1+1</b> פשטידה & 🥧"


def test_the_service_and_its_day_stay_for_the_next_dish(roe_larder, station, packs):
    station.on_scan(packs[0])
    fill(station)
    station.page.dish.make.click()
    station.page.made.next.click()
    dish = station.page.dish
    assert (dish.name.inner.text(), dish.occasion.inner.text()) == ("", "Friday dinner")
    assert dish.day.inner.value() == date(2026, 10, 10)
    station.on_scan(packs[1])
    fill(station, name="Second")
    dish.make.click()
    assert len(questions.dishes(roe_larder.register)) == 2


def test_a_scan_after_a_dish_begins_the_next_one(station, packs):
    station.on_scan(packs[0])
    fill(station)
    station.page.dish.make.click()
    station.on_scan(packs[1])
    assert station.page.page() == "dish"
    assert station.page.dish.going_in.taken() == [(packs[1], 900)]


def test_the_label_of_a_dish_is_printed_from_the_page_that_shows_its_code(station, packs, tmp_path, qtbot):
    station.on_scan(packs[0])
    fill(station)
    station.page.dish.make.click()
    station.page.made.label.click()
    code = station.page.made.code.text()
    window = station.window()
    assert window.current == "paper"
    window.station("paper").page.labels.print.click()
    qtbot.waitUntil(lambda: window.current == "pass")
    assert (tmp_path / "papers" / f"label-{code}.pdf").read_bytes().startswith(b"%PDF")


def test_a_dish_can_be_traced_from_the_list(station, packs):
    station.on_scan(packs[0])
    fill(station)
    station.page.dish.make.click()
    station.presenter.show_page("dishes")
    station.page.dishes.trace.click()
    assert station.window().current == "trace"


@pytest.mark.parametrize("page", ["dish", "stock", "dishes"])
def test_everything_at_the_pass_fits_a_gloved_hand_and_has_a_name(station, packs, fits_a_hand, page):
    station.on_scan(packs[0])
    station.presenter.show_page(page)
    QTest.qWait(0)
    assert fits_a_hand(station) == []


def test_a_frozen_pack_is_refused_until_it_is_thawed(roe_larder, roe_window):
    frozen = roe_larder.pack(roe_larder.dressed(), "loin", 800, "frozen")
    roe_window.go("pass")
    roe_window.station("pass").on_scan(frozen)
    assert "still frozen. Thaw it first" in roe_window.station("pass").page.dish.loud.text()
