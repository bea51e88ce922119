"""One dish's page in the real window: cooked, kept hot, served, cooled, left over, by key and by scan."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.pass_.file_page import FORMS
from gametrace.register import acts, questions

ENTER = Qt.Key.Key_Return


@pytest.fixture
def packs(roe_larder) -> list[str]:
    one, two = roe_larder.dressed(ammunition="not lead"), roe_larder.dressed()
    return [roe_larder.pack(one, "steak", 1_200), roe_larder.pack(two, "loin", 800)]


@pytest.fixture
def dish(roe_larder, packs) -> str:
    return acts.make_dish(
        roe_larder.register,
        by=roe_larder.tutor,
        name="Roe steak",
        occasion="Friday dinner",
        on=roe_larder.at.date(),
        portions=12,
        inputs=[(packs[0], 1_000)],
    ).code


@pytest.fixture
def station(roe_window, dish):
    roe_window.go("pass")
    made = roe_window.station("pass")
    made.presenter.open_dish(dish)
    return made


def page(station):
    return station.page.page_of("file")


def file(roe_larder, dish):
    return questions.dish_file(roe_larder.register, dish)


def test_a_cook_is_written_down_with_two_figures_and_enter(roe_larder, station, dish, keys):
    keys("75,2", ENTER, "45 s", ENTER, "T002", ENTER, ENTER)
    (record,) = file(roe_larder, dish).records
    assert (record.sort, record.tenths_c, record.seconds, record.probe) == ("cooking", 752, 45, "T002")
    assert "Written down" in page(station).loud.text()


def test_what_both_tables_ask_is_said_while_it_is_typed(station, keys):
    keys("65", ENTER)
    hint = page(station).forms["cook"].fields["tenths_c"].hint
    assert "13 min 38 s" in hint.text()
    assert "10 min" in hint.text()


def test_a_cook_too_short_says_so_with_both_tables_and_stays_on_the_page(roe_larder, station, packs):
    mince = acts.make_mix(
        roe_larder.register, by=roe_larder.tutor, product="mince", inputs=[(packs[1], 500)]
    ).code
    burger = acts.make_dish(
        roe_larder.register,
        by=roe_larder.tutor,
        name="Burger",
        occasion="Lunch",
        on=roe_larder.at.date(),
        portions=4,
        inputs=[(mince, None)],
    ).code
    station.presenter.open_dish(burger)
    form = page(station).forms["cook"]
    form.heat.set_text("65")
    form.time.set_text("10 min")
    form.act.click()
    assert [one.code for one in page(station).findings.findings()] == ["cook-short"]
    assert "Not to be served" in page(station).why_not.text()
    page(station).show_form("serve")
    serve = page(station).forms["serve"]
    serve.fields["portions"].inner.set_text("2")
    serve.act.click()
    assert "shorter than" in serve.trouble.text()
    assert file(roe_larder, burger).served == 0


def test_the_whole_evening_of_a_dish_by_the_forms(roe_larder, station, dish):
    def write(name: str, **typed: str) -> None:
        page(station).choice.choose(name)
        form = page(station).forms[name]
        for field, text in typed.items():
            inner = form.fields[field].inner
            inner.set_text(text) if hasattr(inner, "set_text") else inner.setText(text)
        form.act.click()

    write("cook", tenths_c="75", seconds="1")
    write("hold", tenths_c="64")
    write("serve", portions="9", to_group="table 4")
    write("cool", tenths_c="5", minutes="80")
    write("left", portions="2")
    page(station).forms["left"].way.choose("waste")
    write("left", portions="1", reason="dropped")
    now = file(roe_larder, dish)
    assert (now.served, now.here) == (9, 0)
    assert [one.sort for one in now.records] == ["cooking", "hot hold", "cooling"]
    assert [one.is_waste for one in now.left_overs] == [False, True]
    assert "9 served · 3 left over · 0 here" in page(station).counted.text()


def test_enter_twice_serves_once(roe_larder, station, dish):
    page(station).show_form("serve")
    form = page(station).forms["serve"]
    form.fields["portions"].inner.set_text("3")
    form.act.click()
    form.act.click()
    assert file(roe_larder, dish).served == 3
    assert "How many portions" in form.fields["portions"].trouble.text()


def test_a_pack_scanned_over_the_dish_went_into_it_too(roe_larder, station, dish, packs, roe_scan, keys):
    roe_scan(packs[1])
    assert page(station).form() == "change"
    keys("0,3", ENTER)
    form = page(station).forms["change"]
    form.fields["reason"].inner.setText("ran short")
    form.act.click()
    assert {one.lot.code: one.grams for one in file(roe_larder, dish).inputs} == {
        packs[0]: 1_000,
        packs[1]: 300,
    }
    assert questions.lot(roe_larder.register, packs[1]).grams == 500


def test_a_held_pack_is_not_added_on_the_night(roe_larder, station, dish, packs, roe_scan):
    acts.hold_lot(roe_larder.register, by=roe_larder.tutor, code=packs[1], reason="bag has blown")
    roe_scan(packs[1])
    form = page(station).forms["change"]
    form.fields["reason"].inner.setText("ran short")
    form.act.click()
    assert "bag has blown" in form.trouble.text()
    assert len(file(roe_larder, dish).inputs) == 1


def test_an_allergen_ticked_stands_on_the_page_and_in_the_day(roe_larder, station, dish):
    page(station).show_form("besides")
    form = page(station).forms["besides"]
    form.fields["name"].inner.setText("cream")
    form.ticks.buttons["milk"].click()
    form.act.click()
    assert file(roe_larder, dish).allergens == "Contains: milk."
    assert not form.ticks.buttons["milk"].isChecked()
    form.fields["name"].inner.setText("stock cube")
    form.act.click()
    assert "Not known for: stock cube" in file(roe_larder, dish).allergens


def test_the_menu_prints_what_is_shown_and_says_what_is_not(roe_larder, station, dish, packs):
    acts.change_dish(
        roe_larder.register, by=roe_larder.tutor, code=dish, added=[(packs[1], 500)], reason="ran short"
    )
    station.presenter.open_dish(dish)
    page(station).show_form("menu")
    form = page(station).forms["menu"]
    form.ticks.buttons["wild"].click()
    form.ticks.buttons["no-lead"].click()
    form.species.choose("roe")
    assert form.line_words.text() == "“wild roe venison”"
    said = {one.code: one.sentence for one in form.findings.findings()}
    assert "66.7 %" in said["claim-not-shown"]
    assert "lead-advice" in said
    form.act.click()
    assert file(roe_larder, dish).menu_line == "wild roe venison"


def test_a_dish_opens_from_the_list_from_its_code_and_from_the_made_page(roe_larder, station, dish, keys):
    station.presenter.show_page("dishes")
    station.page.dishes.table.setFocus()
    keys(ENTER)
    assert station.page.page() == "file"
    station.presenter.show_page("services")
    station.on_scan(dish)
    assert (station.page.page(), page(station).code) == ("file", dish)
    station.page.made.show_dish(dish, "Roe steak", "")
    station.presenter.show_page("made")
    station.page.made.open.click()
    assert station.page.page() == "file"


@pytest.mark.parametrize("form", [name for name, _ in FORMS])
def test_every_form_of_a_dish_fits_a_gloved_hand_and_has_a_name(station, fits_a_hand, form):
    page(station).show_form(form)
    QTest.qWait(0)
    assert fits_a_hand(station) == []
