"""The day's services, and meat that leaves without a dish, in the real window."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtTest import QTest

from gametrace.register import acts, questions


@pytest.fixture
def packs(roe_larder) -> list[str]:
    one = roe_larder.dressed()
    return [roe_larder.pack(one, "steak", 1_200), roe_larder.pack(one, "loin", 800)]


@pytest.fixture
def station(roe_window, packs):
    roe_window.go("pass")
    return roe_window.station("pass")


def dish(roe_larder, code: str, occasion: str, kind: str = "service") -> str:
    return acts.make_dish(
        roe_larder.register,
        by=roe_larder.tutor,
        name="Steak",
        occasion=occasion,
        occasion_kind=kind,
        on=roe_larder.at.date(),
        portions=6,
        inputs=[(code, 100)],
    ).code


def words(page) -> str:
    from PySide6.QtWidgets import QLabel

    QTest.qWait(20)  # what was just laid out is shown with the next events
    return " | ".join(label.text() for label in page.findChildren(QLabel) if label.isVisibleTo(page))


def test_a_day_shows_what_was_served_when_and_to_whom(roe_larder, station, packs):
    made = dish(roe_larder, packs[0], "Friday dinner")
    acts.serve_dish(roe_larder.register, by=roe_larder.tutor, code=made, portions=4, to_group="table 2")
    acts.issue_lot(
        roe_larder.register,
        by=roe_larder.tutor,
        inputs=[(packs[1], 300)],
        charged_to="L2-B",
        on=roe_larder.at.date(),
    )
    station.presenter.show_page("services")
    said = words(station.page.page_of("services"))
    for part in ("Friday dinner", "6 made · 4 served · 0 left over · 2 here", "10:00  4 portions of Steak"):
        assert part in said
    assert "to table 2" in said
    assert "L2-B · class" in said
    assert "Issued: 0.30 kg loin" in said


def test_covers_are_counted_for_the_service_in_sight(roe_larder, station, packs, qtbot):
    dish(roe_larder, packs[0], "Friday dinner")
    station.presenter.show_page("services")
    page = station.page.page_of("services")
    assert page.covers.fields["occasion"].inner.text() == "Friday dinner"
    page.covers.act.click()
    assert "How many covers" in page.covers.fields["covers"].trouble.text()
    page.covers.fields["covers"].inner.set_text("19")
    page.covers.act.click()
    (one,) = questions.services(roe_larder.register, roe_larder.at.date())
    assert one.covers == 19
    qtbot.waitUntil(lambda: "Friday dinner · 19 covers" in words(page))


def test_earlier_and_later_lead_to_days_that_had_a_service(roe_larder, station, packs, qtbot):
    first = roe_larder.at.date()
    dish(roe_larder, packs[0], "Friday dinner")
    roe_larder.later(days=3)
    dish(roe_larder, packs[0], "Monday lunch")
    station.reload()
    station.presenter.show_page("services")
    page = station.page.page_of("services")
    assert page.shown == first + timedelta(days=3)
    page.earlier.click()
    assert page.shown == first
    assert not page.earlier.isEnabled()
    page.later.click()
    qtbot.waitUntil(lambda: "Monday lunch" in words(page))
    page.day.set_text("1/1/2026")
    qtbot.waitUntil(lambda: "No service and no class on this day" in words(page))


def test_a_scan_and_a_code_issue_meat_to_a_class(roe_larder, station, packs):
    station.presenter.show_page("handing")
    page = station.page.page_of("handing")
    station.on_scan(packs[0])
    assert page.going.taken() == [(packs[0], 1_200)]
    page.going.row(packs[0]).grams.set_text("0.4")
    page.form.fields["charged_to"].inner.setText("L2-B")
    page.form.act.click()
    (issue,) = questions.issues(roe_larder.register)
    assert (issue.charged_to, issue.grams, issue.sort) == ("L2-B", 400, "class")
    assert "Issued to L2-B" in page.loud.text()
    assert issue.pence is None  # nobody wrote down what the beast cost
    beast = questions.trace(roe_larder.register, packs[0]).animals[0].code
    acts.amend_carcass(
        roe_larder.register, by=roe_larder.tutor, code=beast, changes={"pence_per_kg": 500}, reason="invoice"
    )
    station.reload()
    assert page.gone.records_model.records()[0].what == "0.40 kg steak, £2.50"
    assert page.going.taken() == []


def test_a_supply_to_a_new_customer_prints_its_note(roe_larder, station, packs, tmp_path, qtbot):
    station.presenter.show_page("handing")
    page = station.page.page_of("handing")
    page.form.to.choose("business")
    station.on_scan(packs[1])
    page.form.act.click()
    assert "needs a name" in page.form.fields["name"].trouble.text()
    page.form.fields["name"].inner.setText("The Gannet Inn")
    page.form.fields["address"].inner.setText("Quay 4, Saltby")
    page.form.act.click()
    (supply,) = questions.supplies(roe_larder.register)
    assert supply.fields[4][1] == "The Gannet Inn, Quay 4, Saltby"
    note = tmp_path / "papers" / f"supply-note-{supply.code}.pdf"
    qtbot.waitUntil(note.exists)
    qtbot.waitUntil(lambda: note.read_bytes().startswith(b"%PDF"))
    assert [one.name for one in questions.customers(roe_larder.register)] == ["The Gannet Inn"]
    assert page.note.isEnabled()


def test_what_leaves_can_be_chosen_from_the_stock(roe_larder, station, packs):
    station.presenter.show_page("handing")
    page = station.page.page_of("handing")
    page.stock.click()
    assert station.page.stock.add.text() == "Onto the list"
    station.page.stock.table.choose_id(packs[1])
    station.page.stock.add.click()
    assert station.page.page() == "handing"
    assert page.going.taken() == [(packs[1], 800)]


def test_a_carcass_may_go_to_a_business_and_not_to_a_class(roe_larder, station):
    code = roe_larder.dressed()
    station.presenter.show_page("handing")
    page = station.page.page_of("handing")
    station.on_scan(code)
    assert "not meat for a plate" in page.loud.text()
    page.form.to.choose("business")
    station.on_scan(code)
    assert [lot for lot, _ in page.going.taken()] == [code]


@pytest.mark.parametrize("to", ["class", "restaurant", "business"])
def test_services_and_handing_fit_a_gloved_hand_and_have_names(station, packs, fits_a_hand, to):
    station.presenter.show_page("services")
    QTest.qWait(0)
    assert fits_a_hand(station) == []
    station.presenter.show_page("handing")
    station.page.page_of("handing").form.to.choose(to)
    station.on_scan(packs[0])
    QTest.qWait(0)
    assert fits_a_hand(station) == []
