"""Taking in: by keys alone, refused where it is wrong, once whatever is pressed twice."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt

from gametrace.domain.deliveries import Answer
from gametrace.domain.findings import Severity
from gametrace.register import acts, questions


def quick(station) -> None:
    """The three things a delivery at an awkward hour needs."""
    form = station.page.new_page.form
    form.paper.supplier.list.picked.emit("S001")
    form.beast.species.choose("fallow")
    form.beast.grams.set_text("41,6")


def test_a_whole_delivery_is_taken_in_by_keys_alone(window, station, hands, register, qtbot) -> None:
    assert hands.focus() == "Supplier"
    hands.key(Qt.Key.Key_Home)
    hands.enter()
    assert hands.focus() == "Supply route"
    hands.enter(3)  # route, origin, approval number
    hands.write("0417")
    hands.enter()  # not dispatched by anybody else
    assert hands.focus() == "Is there a hunter's declaration: Yes"
    hands.say_it()
    hands.write("D-88")
    assert hands.focus() == "No abnormal characteristics found: Yes"
    hands.say_it(3)
    hands.enter(2)  # the trained person and the certificate came with the supplier
    hands.write("42")
    hands.write("4,50")
    assert hands.focus() == "Inspection notes"
    hands.write("clean")
    hands.enter()  # deer and boar
    hands.key(Qt.Key.Key_Right, 3)
    hands.enter()
    hands.key(Qt.Key.Key_Right)
    hands.enter()
    assert hands.focus() == "Weight"
    hands.write("41,6")
    hands.enter()  # in the skin
    hands.key(Qt.Key.Key_Space)  # the head is on
    hands.enter(3)
    assert hands.focus() == "Age class: Fawn"
    hands.key(Qt.Key.Key_Right, 2)
    hands.enter()
    hands.write("12 Nov")
    hands.write("7.40")
    hands.write("Long Covert")
    hands.write("5,2")
    hands.take_in()
    one = questions.deliveries(register)[0]
    assert station.page.stack.currentWidget() is station.page.done_page
    assert station.page.done_page.number.text() == one.code
    assert (one.tag, one.species, one.sex, one.age_class) == ("0417", "fallow", "female", "doe")
    assert (one.grams_received, one.supplier_grams, one.pence_per_kg) == (41600, 42000, 450)
    assert one.basis_words == "in the skin, head on, feet off, pluck out"
    assert (one.killed_on, one.kill_time, one.kill_place) == (date(2026, 11, 12), "07:40", "Long Covert")
    assert one.readings == (("haunch", 52),)
    assert [s.answer for s in one.statements] == [Answer.YES] * 3
    assert (one.trained_person, one.certificate_number) == ("Rob Finch", "TH-2201")
    assert one.lot.place == "C1.R1.01"
    assert one.missing == ()


def test_a_hand_that_only_presses_enter_says_nothing_for_the_hunter(station, hands, register) -> None:
    """Going on past the card must not write 'yes' under the hunter's statements, nor an age nobody saw."""
    hands.key(Qt.Key.Key_Home)
    while hands.focus() != "Weight":
        hands.enter()
        if hands.focus().startswith("Kind of game"):
            hands.key(Qt.Key.Key_Right, 3)
    hands.write("41,6")
    hands.take_in()
    (one,) = questions.deliveries(register)
    assert not one.has_declaration
    assert {said.answer for said in one.statements} <= {Answer.NOT_STATED, "no declaration"}
    assert (one.sex, one.age_class) == ("unknown", "")


def test_supplier_species_and_weight_are_enough_and_the_rest_is_shown_as_missing(station, hands) -> None:
    quick(station)
    hands.take_in()
    done = station.page.done_page
    assert not done.isHidden()
    assert "the tag number" in done.waiting.text()
    assert station.page.waiting.text() == "1 to finish"


def test_a_weight_with_a_decimal_comma_is_read(station, hands, register) -> None:
    quick(station)
    assert station.page.new_page.form.beast.grams.text() == "41.60"
    hands.take_in()
    assert questions.deliveries(register)[0].grams_received == 41600


def test_what_cannot_be_read_is_refused_at_its_field_and_nothing_typed_is_lost(
    station, hands, register
) -> None:
    quick(station)
    form = station.page.new_page.form
    form.beast.grams.edit.setText("-3")
    form.paper.lines["tag"].setText("0417")
    hands.take_in()
    assert questions.deliveries(register) == ()
    assert "below nothing" in form.fields["grams"].trouble.text()
    assert hands.focus() == "Weight"
    assert form.paper.lines["tag"].text() == "0417"
    assert form.beast.grams.text() == "-3"


def test_a_missing_supplier_is_asked_for_at_the_supplier(station, hands) -> None:
    form = station.page.new_page.form
    form.beast.species.choose("roe")
    form.beast.grams.set_text("16")
    hands.take_in()
    assert form.fields["supplier"].trouble.isVisible()
    assert hands.focus() == "Supplier"


def test_a_decision_other_than_acceptance_asks_for_its_reason_at_the_reason(station, hands, register) -> None:
    quick(station)
    decision = station.page.new_page.decision
    decision.decision.choose("reject")
    assert decision.act.text() == "Refuse it"
    hands.take_in()
    assert questions.deliveries(register) == ()
    assert "needs a reason" in decision.reason_field.trouble.text()
    decision.reason.setText("maggots in the haunch")
    hands.take_in()
    one = questions.deliveries(register)[0]
    assert (one.decision, one.lot.state) == ("reject", "rejected")
    assert station.page.title.text() == "Refused, and written down"


def test_a_kill_still_to_come_is_refused_at_the_day_of_killing(station, hands) -> None:
    quick(station)
    station.page.new_page.form.beast.killed_on.set_text("25/12/2026")
    hands.take_in()
    assert "still to come" in station.page.new_page.form.fields["killed_on"].trouble.text()


def test_a_hand_that_goes_on_by_enter_never_writes_today_over_the_day_of_killing(station, hands) -> None:
    quick(station)
    killed_on = station.page.new_page.form.beast.killed_on
    killed_on.select()
    hands.write("12 Nov")
    assert hands.focus().startswith("Time of killing")
    hands.enter()
    assert killed_on.value() == date(2026, 11, 12)
    killed_on.select()
    killed_on.clear()
    hands.enter(2)
    assert killed_on.value() is None, "what nobody has said stays not stated"


def test_enter_pressed_twice_takes_it_in_once(station, hands, register) -> None:
    quick(station)
    station.page.new_page.decision.act.setFocus()
    hands.enter(2)
    assert len(questions.deliveries(register)) == 1
    assert station.page.stack.currentWidget() is station.page.done_page


def test_the_same_form_sent_twice_is_one_delivery(station, register) -> None:
    """A try again after trouble that had in truth been written."""
    quick(station)
    delivery = station.presenter._wanted()
    acts.receive_delivery(register, by="P001", delivery=delivery, key=station.presenter._key)
    station.page.new_page.wanted.emit()
    assert len(questions.deliveries(register)) == 1


def test_the_next_delivery_starts_empty_on_the_next_free_hook(station, hands) -> None:
    quick(station)
    form = station.page.new_page.form
    assert form.beast.place.value() == "C1.R1.01"
    hands.take_in()
    station.page.done_page.next.click()
    assert station.page.stack.currentWidget() is station.page.new_page
    assert form.read()["supplier"] == ""
    assert form.read()["grams"] is None
    assert form.beast.place.value() == "C1.R1.02"


def test_a_fallow_doe_in_july_is_answered_while_it_is_typed(station, hands, register, qtbot) -> None:
    """Close season of fallow does in England and Wales: Deer Act 1991 sch. 1 (1 April to 31 October)."""
    quick(station)
    form, decision = station.page.new_page.form, station.page.new_page.decision
    form.beast.sex.choose("female")
    form.beast.killed_on.set_text("1/7/2026")

    def is_told() -> bool:
        return any(f.severity == Severity.STOP for f in decision.panel.findings())

    qtbot.waitUntil(is_told, timeout=3000)
    stop = next(f for f in decision.panel.findings() if f.severity == Severity.STOP)
    assert "close season for fallow doe" in stop.sentence
    assert "Deer Act 1991" in stop.source
    assert decision.act.text() == "Take it in on hold"
    hands.take_in()
    one = questions.deliveries(register)[0]
    assert one.lot.state == "on hold"
    assert "close season" in station.page.done_page.sign.words.text()


def test_a_reason_typed_beside_a_finding_goes_in_with_the_delivery(station, hands, register) -> None:
    quick(station)
    station.presenter.preview()
    decision = station.page.new_page.decision
    asking = next(row for row in decision.panel._rows.values() if row.finding.code == "no-temperature")
    asking.reason.setFocus()
    hands.write("probe is broken", enter=False)
    hands.take_in()
    assert questions.deliveries(register)[0].reasons == {"no-temperature": "probe is broken"}


def test_the_words_follow_the_animal(station) -> None:
    beast = station.page.new_page.form.beast
    beast.species.choose("red")
    beast.sex.choose("male")
    assert [beast.sex.button(v).text() for v in beast.sex.values()] == ["Stag", "Hind", "Not known"]
    assert "spiker" in beast.age_class.values()
    beast.species.choose("pheasant")
    beast.count.setText("13")
    beast.count.textEdited.emit("13")
    assert beast.brace.text().startswith("13 birds, 6 brace and an odd bird.")
    assert [beast.sex.button(v).text() for v in beast.sex.values()] == ["Cock", "Hen", "Mixed"]


def test_the_supplier_brings_route_origin_and_numbers_but_not_over_what_was_typed(station) -> None:
    paper = station.page.new_page.form.paper
    paper.lines["trained_person"].setText("Ivy Marsh")
    paper.supplier.list.picked.emit("S001")
    assert paper.route.value() == "wild-direct"
    assert paper.lines["certificate_number"].text() == "TH-2201"
    assert paper.lines["trained_person"].text() == "Ivy Marsh"
    paper.supplier.list.picked.emit("S002")
    assert paper.origin.value() == "park"
    assert paper.lines["certificate_number"].text() == ""


def test_leaving_the_station_loses_nothing_typed(window, station) -> None:
    quick(station)
    window.go("larder")
    window.go("delivery")
    values = station.page.new_page.form.read()
    assert (values["supplier"], values["species"], values["grams"]) == ("S001", "fallow", 41600)


def test_the_tag_is_printed_and_the_printing_is_in_the_story(
    window, station, hands, register, tmp_path
) -> None:
    quick(station)
    hands.take_in()
    hands.key(Qt.Key.Key_Tab)
    hands.enter()
    code = questions.deliveries(register)[0].code
    assert (tmp_path / "papers" / f"tag-{code}.pdf").read_bytes().startswith(b"%PDF")
    assert any("Labels printed" in line.sentence for line in questions.story(register, code))


def test_without_a_supplier_the_page_leads_to_set_up(qtbot, empty_register, tmp_path) -> None:
    from gametrace.desktop.app import build_window

    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    window.go("delivery")
    station = window.station("delivery")
    assert station.faces.currentWidget() is station.faces.empty
    assert "a supplier" in station.faces.empty.sentence.text()
    station.faces.act.click()
    assert window.current == "setup"
    window.close()


def test_what_was_taken_in_is_examined_next_by_keys(window, station, hands, register) -> None:
    quick(station)
    hands.take_in()
    done = station.page.done_page
    while window.focusWidget() is not done.examine:
        assert window.focusWidget() is not done.larder, "Tab passes the examination by"
        hands.key(Qt.Key.Key_Tab)
    hands.enter()
    examination = window.station("examination")
    assert window.current == "examination"
    assert examination.presenter.code == questions.deliveries(register)[0].code
    assert examination.page.shown == "look"
