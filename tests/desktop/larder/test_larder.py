"""The larder: choosing by hand and by scan, the acts of the drawer, and the two things it never lets pass."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from gametrace.desktop.larder.stores_part import MOST_SHOWN, LotGrid
from gametrace.domain.deliveries import Basis, Decision, Delivery
from gametrace.register import acts, questions


@pytest.fixture
def station(window):
    window.go("larder")
    return window.station("larder")


@pytest.fixture
def doe(larder, window) -> str:
    """A fallow doe in the skin, head on, on no hook yet."""
    delivery = Delivery(
        supplier="S001",
        species="fallow",
        sex="female",
        age_class="doe",
        grams=40_000,
        basis=Basis(head_on=True),
        killed_on=date(2026, 11, 20),
    )
    return acts.receive_delivery(larder.register, by=larder.tutor, delivery=delivery).code


def shown(station) -> str:
    return station.page.drawer.page.code.text()


def form(station, act: str):
    station.page.drawer.act_wanted.emit(act)
    assert station.page.drawer.form_name == act
    return station.page.drawer.forms[act]


def test_arrows_walk_along_the_rail_and_enter_opens(window, station, larder) -> None:
    scene = station.page.stores.stores["C1"].scene
    scene.hook_button("C1.R1.01").setFocus()
    QTest.keyClick(scene.hook_button("C1.R1.01"), Qt.Key.Key_Right)
    QTest.keyClick(scene.hook_button("C1.R1.02"), Qt.Key.Key_Right)
    QTest.keyClick(scene.hook_button("C1.R1.03"), Qt.Key.Key_Return)
    assert shown(station) == larder.animals[2]
    assert "warm at the door" in station.page.drawer.page.sign.words.text()
    assert station.page.drawer.page.main.text() == "Lift the hold"


def test_a_scan_of_a_carcass_chooses_it(window, station, larder, scan) -> None:
    scan(larder.animals[1])
    assert shown(station) == larder.animals[1]
    assert station.page.stores.stores["C1"].scene.hook_button("C1.R1.02").isChecked()


def test_a_scan_of_a_lot_on_a_shelf_chooses_it(window, station, larder, scan) -> None:
    acts.move_lot(larder.register, by=larder.tutor, code=larder.packs[1], to="C1.S1")
    scan(larder.packs[1])
    assert shown(station) == larder.packs[1]
    station.reload()
    assert larder.packs[1] in station.page.stores.stores["C1"].grids[0].buttons


def test_what_was_scanned_is_brought_into_sight(window, station, larder, scan, qtbot) -> None:
    acts.move_lot(larder.register, by=larder.tutor, code=larder.packs[1], to="C1.S1")
    station.reload()
    scan(larder.packs[1])
    button = station.page.stores.button_of("C1.S1", larder.packs[1])
    qtbot.waitUntil(lambda: not button.visibleRegion().isEmpty(), timeout=2000)


def test_a_scan_of_what_is_served_goes_on_to_trace(window, station, larder, scan) -> None:
    scan(larder.pie)
    assert window.current == "trace"


def test_what_has_no_place_is_listed_so_that_nothing_is_lost(window, doe, station, larder) -> None:
    station.reload()
    assert doe in station.page.stores.loose.buttons
    station.page.stores.loose.buttons[doe].click()
    move = form(station, "move")
    move.places.set_value("C1.R1.05")
    QTest.keyClick(move.places.list, Qt.Key.Key_Return)
    assert questions.lot(larder.register, doe).place == "C1.R1.05"
    assert doe not in station.page.stores.loose.buttons


def test_dressing_cannot_be_finished_before_the_tag(window, doe, station, larder, tmp_path) -> None:
    station.presenter.choose(doe)
    dress = form(station, "dress")
    dress.rows[0].grams.set_text("4,2")
    dress.rows[1].grams.set_text("2,4")
    assert not dress.main.isEnabled()
    dress.wanted.emit()
    assert questions.carcass(larder.register, doe).in_skin
    assert "Print the new tag" in dress.fields["tag"].trouble.text()
    dress.print.click()
    assert (tmp_path / "papers" / f"tag-{doe}.pdf").exists()
    assert dress.main.isEnabled()
    dress.main.click()
    one = questions.carcass(larder.register, doe)
    assert not one.in_skin
    assert one.basis_now == "skinned, head off, feet off, pluck out"
    assert one.lot.grams == 33_400
    assert one.number_on == doe
    assert station.page.drawer.form_name == ""


def test_the_number_may_be_typed_from_the_new_tag_but_not_another_animals(
    window, doe, station, larder
) -> None:
    station.presenter.choose(doe)
    dress = form(station, "dress")
    dress.rows[0].grams.set_text("4.2")
    dress.rows[1].off.click()
    assert dress.rows[1].off.text() == "Head stays on"
    dress.number.setText(larder.animals[0])
    dress.number.textEdited.emit(dress.number.text())
    dress.main.click()
    assert "another animal" in dress.fields["tag"].trouble.text()
    assert dress.rows[0].grams.text() == "4.20"
    dress.number.setText("G 12")
    dress.number.textEdited.emit("G 12")
    dress.main.click()
    one = questions.carcass(larder.register, doe)
    assert one.number_on == "G 12"
    assert one.basis_now == "skinned, head on, feet off, pluck out"


def test_a_part_that_comes_off_is_weighed(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    dress = form(station, "dress")
    dress.number.setText("G 12")
    dress.number.textEdited.emit("G 12")
    dress.rows[0].grams.set_text("4.2")
    dress.main.click()
    assert "Weigh the head" in dress.fields["outputs"].trouble.text()
    assert questions.carcass(larder.register, doe).in_skin


def test_who_placed_a_hold_cannot_lift_it_and_is_told_so(window, station, larder) -> None:
    code = larder.animals[2]
    station.presenter.choose(code)
    lift = form(station, "release")
    assert "AB" in lift.what.text()
    lift.reason.setText("cooled down")
    lift.main.click()
    assert "another person lifts it" in lift.trouble.text()
    assert questions.lot(larder.register, code).state == "on hold"
    other = acts.enrol_person(
        larder.register, by=larder.tutor, name="Ned Garth", initials="NG", role="technician"
    ).code
    window.bench.set_person(other)
    lift.main.click()
    assert questions.lot(larder.register, code).state == "hanging"


def test_a_boar_waits_and_its_next_act_leads_to_the_laboratorys_page(window, station, larder) -> None:
    delivery = Delivery(
        supplier="S001",
        species="wild-boar",
        sex="male",
        grams=62_000,
        basis=Basis(head_on=True),
        killed_on=date(2026, 11, 20),
    )
    code = acts.receive_delivery(larder.register, by=larder.tutor, delivery=delivery).code
    station.presenter.choose(code)
    assert station.page.drawer.page.main.text() == "Laboratory result"
    station.page.drawer.page.main.click()
    assert window.current == "examination"
    assert window.station("examination").page.shown == "laboratory"


def test_what_was_dressed_is_looked_at_again_and_decided_next(window, station, larder) -> None:
    code = larder.animals[1]
    station.presenter.choose(code)
    page = station.page.drawer.page
    assert page.main.text() == "Look again, decide"
    page.main.click()
    examination = window.station("examination")
    assert (window.current, examination.page.shown) == ("examination", "look")
    assert examination.presenter.looking.card.stage == "out of the skin"
    acts.decide_again(larder.register, by=larder.tutor, code=code, decision=Decision.ACCEPT)
    window.go("larder", code)
    station.reload()
    assert page.main.text() == "To the block"
    page.buttons["examination/second"].click()
    assert examination.page.shown == "second"


def test_a_hold_without_a_reason_is_refused_at_the_reason(window, station, larder) -> None:
    station.presenter.choose(larder.animals[1])
    hold = form(station, "hold")
    hold.main.click()
    assert "needs a reason" in hold.fields["reason"].trouble.text()
    hold.reason.setText("green under the shoulder")
    hold.main.click()
    assert questions.lot(larder.register, larder.animals[1]).state == "on hold"
    assert "green under the shoulder" in station.page.drawer.page.sign.words.text()


def test_weighed_again_by_keys_the_loss_is_drying(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    weigh = form(station, "weigh")
    weigh.grams.edit.setText("39,4")
    weigh.setFocus()
    assert window.focusWidget() is weigh.grams.edit
    QTest.keyClick(weigh.grams.edit, Qt.Key.Key_Return)
    assert window.focusWidget() is weigh.reason
    QTest.keyClick(weigh.reason, Qt.Key.Key_Return)
    assert window.focusWidget() is weigh.main
    QTest.keyClick(weigh.main, Qt.Key.Key_Return)
    assert questions.lot(larder.register, doe).grams == 39_400


def test_a_weight_that_grew_is_refused_and_stays_as_typed(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    weigh = form(station, "weigh")
    weigh.grams.set_text("48")
    weigh.main.click()
    assert "cannot have grown" in weigh.fields["grams"].trouble.text()
    assert weigh.grams.text() == "48.00"


def test_a_corrected_weight_asks_what_was_wrong(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    correct = form(station, "correct")
    correct.grams.set_text("41")
    correct.main.click()
    assert "needs a reason" in correct.fields["reason"].trouble.text()
    correct.reason.setText("the tray was on the scale")
    correct.main.click()
    assert questions.lot(larder.register, doe).grams == 41_000


def test_what_is_returned_leaves_the_rail(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    dispose = form(station, "dispose")
    dispose.way.choose("returned")
    dispose.reason.setText("wrong animal")
    dispose.main.click()
    assert questions.lot(larder.register, doe).grams == 0
    assert doe not in station.page.stores.loose.buttons


def test_escape_goes_back_and_changes_nothing(window, doe, station, larder) -> None:
    station.presenter.choose(doe)
    hold = form(station, "hold")
    QTest.keyClick(hold.reason, Qt.Key.Key_Escape)
    assert station.page.drawer.form_name == ""
    assert questions.lot(larder.register, doe).state == "hanging"


def test_the_drawer_leads_to_block_trace_and_delivery(window, station, larder) -> None:
    for act in ("trace", "delivery"):
        window.go("larder")
        station.presenter.choose(larder.animals[1])
        station.page.drawer.act_wanted.emit(act)
        assert window.current == act


def test_a_batch_of_birds_is_chosen_and_dressed_like_any_other(window, station, larder) -> None:
    delivery = Delivery(
        supplier="S001", species="pheasant", count=12, grams=14_000, place="C1.S1", basis=Basis(head_on=True)
    )
    code = acts.receive_delivery(larder.register, by=larder.tutor, delivery=delivery).code
    station.presenter.choose(code)
    assert shown(station) == code
    dress = form(station, "dress")
    assert dress.rows[0].off.text() == "Skin or feathers off"


def test_without_a_store_the_page_leads_to_set_up(qtbot, empty_register, tmp_path) -> None:
    from gametrace.desktop.app import build_window

    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    window.go("larder")
    station = window.station("larder")
    assert station.faces.currentWidget() is station.faces.empty
    station.faces.act.click()
    assert window.current == "setup"
    window.close()


def test_of_very_many_lots_on_one_shelf_the_first_are_shown_and_the_others_counted(
    qtbot, window, larder
) -> None:
    grid = LotGrid(window.bench.look)
    qtbot.addWidget(grid)
    pack = questions.stock(larder.register)[0]
    lots = [(replace(pack, code=f"no {number}"), None) for number in range(MOST_SHOWN + 5)]
    grid.set_lots(lots)
    assert list(grid.buttons) == [lot.code for lot, _ in lots[:MOST_SHOWN]]
    assert any("5 more" in label.text() for label in grid.findChildren(QLabel))
    grid.set_lots(lots[:2])
    assert len(grid.buttons) == 2
    assert not any("more" in label.text() for label in grid.findChildren(QLabel))
