"""Today: sentences with one act each, or the face of a good day."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton

from gametrace.desktop.app import build_window
from gametrace.desktop.today.presenter import SHOWN, TodayPresenter
from gametrace.register import acts
from gametrace.register.records import Duty


def buttons(page) -> dict[str, QPushButton]:
    return {b.accessibleName(): b for b in page.findChildren(QPushButton) if not b.isHidden()}


def test_a_hold_stands_under_now_and_its_act_leads_to_the_larder(window, larder) -> None:
    window.go("today")
    page = window.station("today")
    name = next(name for name in buttons(page.view) if larder.animals[2] in name and "on hold" in name)
    assert name.startswith("To the larder: ")
    buttons(page.view)[name].click()
    assert window.current == "larder"


def test_duties_are_grouped_by_when_and_long_groups_are_cut() -> None:
    duties = [Duty("today", f"Pack {n} is due.", "pass", str(n)) for n in range(SHOWN + 5)]
    groups = TodayPresenter(None, None).groups([*duties, Duty("now", "Held.", "larder")])
    assert [group.title for group in groups] == ["Now · 1", f"Today · {SHOWN + 5}"]
    assert len(groups[1].lines) == SHOWN
    assert groups[1].hidden == 5


def test_a_cut_group_opens_when_asked(window, larder) -> None:
    page = window.station("today")
    page.presenter._in_full.clear()
    page.presenter.show_all("now")
    assert "now" in page.presenter._in_full


def test_a_day_without_duties_says_what_comes_next(qtbot, empty_register, tmp_path) -> None:
    by = ""
    acts.set_up_larder(
        empty_register,
        by=by,
        name="Fenmoor",
        address="Fen Lane 1",
        jurisdiction="scotland",
        registration_number="FM 1",
    )
    first = acts.enrol_person(empty_register, name="Ada", initials="AB", role="tutor").code
    acts.enrol_person(empty_register, by=first, name="Cyr", initials="CD", role="tutor")
    acts.add_store(empty_register, by=first, name="Chill 1", sort="chill", rails=[("rail 1", 2)])
    acts.add_supplier(empty_register, by=first, name="Hartmere", address="Hartmere", route="wild-direct")
    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    page = window.station("today")
    assert page.faces.currentWidget() is page.faces.empty
    assert page.faces.act.text() == "Take in a delivery"
    page.faces.act.click()
    assert window.current == "delivery"
    window.close()
