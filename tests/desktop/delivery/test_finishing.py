"""Finishing later: blanks filled without a reason, given values changed with one."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt

from gametrace.domain.deliveries import Basis, Delivery
from gametrace.register import acts, questions


@pytest.fixture
def code(register, window) -> str:
    """A fallow doe taken in with next to no paper."""
    delivery = Delivery(
        supplier="S001", species="fallow", sex="female", grams=41600, tag="0417", basis=Basis(head_on=True)
    )
    made = acts.receive_delivery(register, by="P001", delivery=delivery).code
    window.station("delivery").reload()
    return made


def open_it(window, station, code: str):
    station.page.waiting_list.chosen.emit(code)
    assert station.page.stack.currentWidget() is station.page.finish_page
    return station.page.finish_page


def test_the_list_names_what_waits_and_opens_it(window, station, code) -> None:
    station.page.waiting.click()
    listed = station.page.waiting_list.list
    assert code in listed.list.item(0).text()
    page = open_it(window, station, code)
    assert code in page.title.text()
    assert "day of killing" in page.missing.words()


def test_blanks_are_filled_without_a_reason(window, station, code, register) -> None:
    page = open_it(window, station, code)
    page.form.beast.killed_on.set_text("12 Nov 2026")
    page.form.beast.readings.rows[0][1].set_text("5.2")
    page.form.beast.place.set_value("C1.R1.02")
    page.act.click()
    one = questions.carcass(register, code)
    assert one.killed_on == date(2026, 11, 12)
    assert one.readings == (("haunch", 52),)
    assert one.lot.place == "C1.R1.02"
    assert page.reason_field.isHidden()


def test_changing_what_was_given_asks_for_a_reason(window, station, code, register) -> None:
    page = open_it(window, station, code)
    page.form.paper.lines["tag"].setText("0471")
    page.act.click()
    assert questions.carcass(register, code).tag == "0417"
    assert page.reason_field.trouble.isVisible()
    page.reason.setText("digits swapped")
    page.act.click()
    assert questions.carcass(register, code).tag == "0471"
    assert any("digits swapped" in line.sentence for line in questions.story(register, code))


def test_a_wrong_weight_is_corrected_with_a_reason_and_the_old_one_stays_on_view(
    window, station, code, register
) -> None:
    page = open_it(window, station, code)
    page.form.beast.grams.set_text("46,1")
    page.reason.setText("read the scale upside down")
    page.act.click()
    assert questions.carcass(register, code).lot.grams == 46100
    assert any("41.600" in line.sentence for line in questions.story(register, code))


def test_a_question_is_answered_later(window, station, code, register) -> None:
    page = open_it(window, station, code)
    row = next(row for row in page.panel._rows.values() if row.finding.code == "no-temperature")
    row.reason.setText("probe is broken")
    row.reason.textEdited.emit("probe is broken")
    page.panel._reasons["no-temperature"] = "probe is broken"
    page.act.click()
    assert questions.carcass(register, code).reasons["no-temperature"] == "probe is broken"


def test_nothing_changed_is_said_and_nothing_written(window, station, code) -> None:
    page = open_it(window, station, code)
    page.act.click()
    assert "Nothing is different" in page.trouble.text()


def test_a_scan_of_a_carcass_opens_it_for_finishing(window, station, code, scan) -> None:
    scan(code)
    assert station.page.stack.currentWidget() is station.page.finish_page
    assert code in station.page.finish_page.title.text()


def test_what_was_typed_for_one_and_not_written_is_still_there(window, station, code) -> None:
    page = open_it(window, station, code)
    page.form.beast.kill_place.setText("Long Covert")
    window.go("larder")
    window.go("delivery", code)
    assert page.form.beast.kill_place.text() == "Long Covert"


def test_the_one_in_hand_is_examined_from_the_list_by_keys(window, station, code, hands) -> None:
    station.page.waiting.click()
    hands.key(Qt.Key.Key_Tab, 2)
    hands.enter()
    assert window.current == "examination"
    assert window.station("examination").presenter.code == code


def test_the_page_of_one_leads_to_its_examination_and_keeps_what_was_typed(window, station, code) -> None:
    page = open_it(window, station, code)
    page.form.beast.kill_time.set_text("06:40")
    page.examine.click()
    assert window.station("examination").presenter.code == code
    window.go("delivery", code)
    assert page.form.beast.kill_time.text() == "06:40"


def test_every_delivery_is_listed_newest_first_and_opened_or_traced_from_there(
    register, window, station, code
) -> None:
    second = Delivery(supplier="S001", species="roe", sex="male", grams=17_000, basis=Basis(head_on=True))
    newest = acts.receive_delivery(register, by="P001", delivery=second).code
    station.page.waiting.click()
    station.page.waiting_list.every.click()
    every = station.page.every_page
    assert station.page.stack.currentWidget() is every
    assert [one.code for one in every.table.records_model.records()] == [newest, code]
    every.table.choose_id(code)
    every.open.click()
    assert station.page.stack.currentWidget() is station.page.finish_page
    assert code in station.page.finish_page.title.text()
    station.finishing.show_every()
    every.table.choose_id(newest)
    every.trace.click()
    assert window.current == "trace"
    assert window.station("trace").presenter.trace.code == newest
