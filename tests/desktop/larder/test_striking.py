"""Striking an entry from the story of a lot, by keys; what rests on it is said in the form."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import acts, questions

JOE = '<b>&"=1+1 Joe'  # whatever looks like markup or a formula is only a name


def press(window, key: Qt.Key) -> None:
    QTest.keyClick(window.windowHandle(), key)
    window.scanning.flush()


def type_words(window, words: str) -> None:
    for letter in words:
        QTest.keyClick(window.windowHandle(), letter)
        window.scanning.flush()


def test_a_dish_that_never_was_is_struck_from_its_story_and_the_mince_is_there_again(window, larder) -> None:
    window.go("trace", larder.pie)
    window.station("trace").view.story.click()
    drawer = window.station("larder").page.drawer
    assert drawer.page.code.text() == larder.pie
    before = questions.lot(larder.register, larder.mince).grams
    drawer.page.strike.setFocus()
    press(window, Qt.Key.Key_Space)
    form = drawer.forms["strike"]
    assert "Venison pie" in form.what.text()
    assert form.entries.list.item(0).text().startswith("Venison pie")  # narrow: what it was
    press(window, Qt.Key.Key_Return)  # this one
    type_words(window, "typed twice")
    press(window, Qt.Key.Key_Return)
    form.main.click()
    assert questions.lot(larder.register, larder.mince).grams == before + 3000
    assert any("struck" in line.sentence for line in questions.story(larder.register, larder.pie))


def test_what_rests_on_it_is_said_in_the_form_and_nothing_typed_is_lost(window, larder) -> None:
    window.go("larder", larder.animals[0])
    drawer = window.station("larder").page.drawer
    drawer.page.strike.click()
    form = drawer.forms["strike"]
    cut = next(one.seq for one in questions.strikable(larder.register, larder.animals[0]))
    form.entries.set_value(str(cut))
    form.reason.setText("wrong doe")
    form.main.click()
    assert "This rests on it" in form.fields["seq"].trouble.text()
    assert form.reason.text() == "wrong doe"


def test_portions_served_by_a_slip_are_struck_from_the_dishs_own_page(window, larder) -> None:
    reg = larder.register
    acts.record_cooking(reg, by=larder.tutor, code=larder.pie, tenths_c=800, seconds=60)
    acts.serve_dish(reg, by=larder.student, code=larder.pie, portions=4, to_group=JOE)
    window.go("pass")
    window.station("pass").presenter.open_dish(larder.pie)
    window.station("pass").page.page_of("file").story.click()
    drawer = window.station("larder").page.drawer
    drawer.page.strike.click()
    form = drawer.forms["strike"]
    assert JOE in form.what.text()
    form.reason.setText("another pie")
    form.main.click()
    assert questions.dish_file(reg, larder.pie).served == 0


def test_a_round_and_a_probe_are_struck_where_they_are_written_down(window, larder) -> None:
    reg = larder.register
    probe = acts.add_probe(reg, by=larder.tutor, name=JOE).code
    acts.check_probe(reg, by=larder.tutor, probe=probe, ice_tenths_c=2)
    acts.take_round(reg, by=larder.student, readings=[("C1", 990 // 2)])
    window.go("cold", "strike")
    form = window.station("cold").page.striking
    assert re.fullmatch(
        r"\d+ \w+ 2026, \d\d:\d\d, CD: Round of the stores: Chill 1 49.5 °C", form.what.text()
    )  # one round reads like the next but for its day and its writer
    form.main.click()
    assert "needs a reason" in form.fields["reason"].trouble.text()
    form.reason.setText("a comma")
    form.main.click()
    assert questions.last_readings(reg) == {}
    assert form.reason.text() == ""
    assert form.what.text().endswith(f"AB: Probe {probe} checked: 0.2 °C in melting ice")


def test_a_collection_is_struck_on_the_page_of_the_bins(window, larder) -> None:
    reg = larder.register
    skin = questions.bins(reg)[0].code
    acts.collect_by_products(
        reg, by=larder.student, codes=[skin], on=reg.today(), collector=JOE, document_number="CD 1",
        destination="yard",
    )  # fmt: skip
    window.go("bins")
    page = window.station("bins").page
    page.show_page("strike")
    assert JOE in page.striking.what.text()
    page.striking.reason.setText("the other skin")
    page.striking.main.click()
    assert [one.document_number for one in questions.bins(reg) if one.code == skin] == [""]
    assert page.striking.what.text() == "Nothing written down here can be struck."


def test_that_a_pin_was_taken_away_stands_on_today_and_leads_to_the_people(window, larder) -> None:
    acts.set_pin(larder.register, by=larder.student, pin="2580")
    acts.lift_pin(larder.register, initials="CD")
    duty = next(one for one in questions.today(larder.register) if "PIN of CD" in one.sentence)
    window.go(duty.station, duty.code)
    assert window.station("setup").isVisible()
