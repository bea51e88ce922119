"""Set-up: four steps before the first delivery, by key alone; later everything else."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.app import build_window
from gametrace.desktop.settings import Settings
from gametrace.desktop.setup.presenter import parse_places
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


@pytest.fixture
def fresh(qtbot, empty_register, tmp_path):
    """The window on a register in which nothing has been written."""
    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    yield window
    window.close()


def type_in(window, text: str, *keys: Qt.Key) -> None:
    """A person's typing at the window: letters, then keys."""
    window.scanning.flush()
    for letter in text:
        QTest.keyClick(window.windowHandle(), letter)
        window.scanning.flush()
    for key in keys:
        QTest.keyClick(window.windowHandle(), key)
        window.scanning.flush()


def test_a_new_register_begins_with_the_guide(fresh) -> None:
    assert fresh.current == "setup"
    view = fresh.station("setup").view
    assert view.step.text() == "Step 1 of 4: Name the larder"
    asked = [name for name, field in view.forms["larder"].fields.items() if not field.isHidden()]
    assert asked == ["name", "jurisdiction"]


def test_the_four_steps_are_done_by_key_alone(fresh, empty_register) -> None:
    view = fresh.station("setup").view
    tab, enter, space, right = Qt.Key.Key_Tab, Qt.Key.Key_Return, Qt.Key.Key_Space, Qt.Key.Key_Right
    type_in(fresh, "Fenmoor larder", enter, space, enter)
    assert questions.larder(empty_register).name == "Fenmoor larder"
    assert view.step.text() == "Step 2 of 4: You, at the keyboard"
    type_in(fresh, "Ada Bellweather", enter)
    type_in(fresh, "AB", enter, right, tab, space)  # a row of choices is one stop
    assert fresh.bench.person
    assert fresh.person_button.text() == "AB · technician"
    type_in(fresh, "Chill 1", enter, enter)
    type_in(fresh, "10, 8", enter)
    type_in(fresh, "2", enter)
    assert len([p for p in questions.places(empty_register) if p.kind == "hook"]) == 18
    type_in(fresh, "Hartmere Estate", enter)
    type_in(fresh, "Hartmere", enter, space, enter, enter)
    assert [one.name for one in questions.suppliers(empty_register)] == ["Hartmere Estate"]
    assert not view.begin.isHidden()
    view.begin.setFocus()
    type_in(fresh, "", enter)
    assert fresh.current == "delivery"


def test_what_can_wait_is_listed_as_waiting(fresh, empty_register) -> None:
    view = fresh.station("setup").view
    form = view.forms["larder"]
    form.set_values({"name": "Fenmoor", "jurisdiction": "scotland"})
    form.act.click()
    words = [view.waiting.itemAt(i).widget().text() for i in range(view.waiting.count())]
    assert any("registration number" in one for one in words)


def test_a_missing_answer_is_refused_at_its_field_and_the_rest_stays(fresh) -> None:
    form = fresh.station("setup").view.forms["larder"]
    form.fields["name"].inner.setText("Fenmoor <b>&")
    form.act.click()
    assert not form.fields["jurisdiction"].trouble.isHidden()
    assert form.fields["name"].inner.text() == "Fenmoor <b>&"


def test_later_every_section_is_open(window, larder) -> None:
    window.go("setup")
    view = window.station("setup").view
    assert not view.sections.isHidden()
    assert view.forms["larder"].values()["address"] == "Fen Lane 1"
    window.go("setup", "suppliers")
    assert view.sections.value() == "suppliers"


def test_a_leaver_is_forgotten_and_their_work_stays(window, larder) -> None:
    window.go("setup", "people")
    leaver = window.station("setup").view.leaver
    leaver.who.set_value(larder.student)
    leaver.fields["reason"].inner.setText("course ended")
    leaver.act.click()
    person = next(one for one in questions.people(larder.register) if one.code == larder.student)
    assert not person.is_active
    assert "Cyr" not in person.name


@pytest.mark.parametrize(
    ("rails", "shelves", "hooks"),
    [("10", "", [10]), ("10, 8", "3", [10, 8]), ("10;8", "", [10, 8]), ("", "2", [])],
)
def test_rails_are_counted_by_their_hooks(rails: str, shelves: str, hooks: list[int]) -> None:
    given = parse_places({"name": "Chill", "sort": "chill", "rails": rails, "shelves": shelves})
    assert [count for _, count in given["rails"]] == hooks
    assert len(given["shelves"]) == int(shelves or 0)


@pytest.mark.parametrize(
    ("rails", "shelves"), [("ten", ""), ("-3", ""), ("1e9", ""), ("10", "many"), ("٣", "")]
)
def test_hooks_that_are_no_number_are_refused(rails: str, shelves: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_places({"name": "Chill", "sort": "chill", "rails": rails, "shelves": shelves})
    assert caught.value.field in ("rails", "shelves")


def test_ground_and_size_are_kept_for_the_next_time(tmp_path) -> None:
    settings = Settings(tmp_path / "window.ini")
    settings.keep("dark", False)
    settings.keep("scale", "1.25")
    again = Settings(tmp_path / "window.ini")
    assert again.flag("dark", True) is False
    assert again.number("scale", 1.0) == 1.25


def test_the_screen_turns_dark_at_once(window) -> None:
    window.go("setup", "screen")
    screen = window.station("setup").view.this_screen
    screen.ground.choose("dark")
    assert window.bench.look.is_dark
    assert window.bench.settings.flag("dark")
    screen.ground.choose("light")
    assert not window.bench.look.is_dark


def test_a_hunter_whose_time_is_over_is_forgotten_at_the_set_up(window, larder) -> None:
    window.go("setup")
    station = window.station("setup")
    station.presenter.show_section("people")
    assert station.view.old_name.isHidden()  # whoever brought something is kept
    code = acts.add_supplier(
        larder.register, by=larder.tutor, name="Never Came", address="Far", route="wild-direct"
    ).code
    station.presenter.refresh()
    form = station.view.old_name
    form.set_values({"code": code, "reason": "nothing ever came"})
    form.act.click()
    supplier = next(one for one in questions.suppliers(larder.register) if one.code == code)
    assert supplier.name == "name removed"
    assert form.isHidden()
