"""The officer's window: both questions, the day, paper; nothing writes, no student named, one way out."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QApplication, QLabel, QLineEdit

from gametrace.desktop.app import build_window
from gametrace.desktop.officer.entering import enter, straight
from gametrace.domain.errors import Refusal, Trouble
from gametrace.register import acts, questions

LEAST = 44  # px; W3C, WCAG 2.2, success criterion 2.5.5 (enhanced)


@pytest.fixture
def officer(window, qtbot):
    made = enter(window)
    qtbot.addWidget(made)
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.closed.disconnect()
    made.close()


def words_on(widget) -> str:
    QApplication.processEvents()  # what was just laid in is shown at the next turn
    return "\n".join(label.text() for label in widget.findChildren(QLabel) if label.isVisible())


def test_a_button_of_visit_leads_here_and_the_whole_window_is_gone(window, qtbot) -> None:
    window.go("visit")
    window.station("visit").view.officer.click()
    assert window.officer.isVisible()
    assert not window.isVisible()
    window.officer.closed.disconnect()
    window.officer.close()


def test_the_register_it_works_on_refuses_every_act(officer, larder) -> None:
    with pytest.raises(Trouble, match="only to be looked at"):
        acts.hold_lot(officer.bench.register, by=larder.tutor, code=larder.packs[0], reason="x")
    assert officer.bench.register is not larder.register


def test_both_questions_are_answered_for_a_pack_typed_in(officer, larder, qtbot) -> None:
    officer.view.box.setText(larder.pie)
    officer.scanning.flush()
    officer.view.answer.click()
    assert officer.view.pages.currentWidget() is officer.view.answer_page
    told = words_on(officer.view)
    for code in larder.animals[:2]:
        assert code in told
    assert "Hartmere wood" in told
    officer.view.asked.emit(larder.animals[0])
    assert larder.pie in words_on(officer.view.rest)
    assert "unaccounted" in words_on(officer.view)


def test_a_scanned_label_is_answered_wherever_the_hand_is(officer, larder) -> None:
    for letter in larder.packs[0]:
        QTest.keyClick(officer.windowHandle(), letter)
    QTest.keyClick(officer.windowHandle(), Qt.Key.Key_Return)
    assert officer.presenter.trace is not None
    assert officer.presenter.trace.code == larder.packs[0]


def test_what_is_typed_is_answered_as_it_is_typed(officer, larder, qtbot) -> None:
    officer.view.box.setFocus()
    officer.view.box.setText("pie")
    officer.view.box.textEdited.emit("pie")
    qtbot.waitUntil(lambda: officer.view.pages.currentWidget() is officer.view.candidates_page, timeout=5_000)
    assert officer.view.candidates.list.count() >= 1


def test_what_is_not_here_is_said_in_a_sentence(officer) -> None:
    officer.view.box.setText("unicorn")
    officer.view.answer.click()
    assert "unicorn" in words_on(officer.view)
    assert officer.view.box.text() == "unicorn"


def test_the_day_is_told_and_turned_and_no_student_is_named(window, larder, qtbot) -> None:
    code = acts.weigh_out(
        larder.register, by=larder.student, code=larder.animals[1], outputs=[acts.Out("trim", 300)]
    ).created[0]
    made = enter(window)
    qtbot.addWidget(made)
    told = words_on(made.view.day)
    assert code in told
    assert f"{larder.student}: Out of" in told
    assert "CD" not in told.split()
    assert "Dunmore" not in told
    assert not made.view.day.after.isEnabled()
    made.view.day.before.click()
    assert "24 Nov 2026" in made.view.day.title.text()
    assert made.view.day.after.isEnabled()
    made.closed.disconnect()
    made.close()


@pytest.mark.parametrize(("what", "name"), [("day", "day *.pdf"), ("answer", "trace *.pdf")])
def test_what_is_on_view_is_printed(officer, larder, qtbot, tmp_path, what: str, name: str) -> None:
    if what == "day":
        officer.view.day.print_button.click()
    else:
        officer.view.asked.emit(larder.pie)
        officer.view.print_button.click()
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob(name))), timeout=30_000)


def test_another_station_s_act_shows_on_the_day(officer, larder, qtbot) -> None:
    acts.hold_lot(larder.register, by=larder.tutor, code=larder.packs[1], reason="label smudged")
    qtbot.waitUntil(lambda: "label smudged" in words_on(officer.view.day), timeout=8_000)


def test_it_is_left_under_a_person_s_name_and_no_student_s(officer, window, larder) -> None:
    officer.leave_button.click()
    listed = officer.leaving.people.list
    names = [listed.item(row).text() for row in range(listed.count())]
    assert any("Ada Bellweather" in name for name in names)
    assert not any("Dunmore" in name for name in names)
    officer.leaving.people.set_value(larder.tutor)
    officer.leaving.leave.click()
    assert window.isVisible()
    assert not officer.isVisible()
    assert window.bench.person == larder.tutor
    officer.closed.connect(window.close)  # as before, for the fixture to take away


def test_escape_stays(officer) -> None:
    officer.leave_button.click()
    QTest.keyClick(officer.leaving, Qt.Key.Key_Escape)
    assert officer.stack.currentWidget() is officer.view


def test_where_a_pin_is_asked_a_wrong_one_keeps_the_view(officer, window, monkeypatch) -> None:
    def sign_in(_register, *, person: str, pin: str) -> None:
        if pin != "2718":
            raise Refusal("That is not the PIN.", "Type it again.", "pin")

    monkeypatch.setattr(acts, "sign_in", sign_in, raising=False)
    officer.leave_button.click()
    officer.leaving.pin.setText("1111")
    officer.leaving.leave.click()
    assert officer.isVisible()
    assert "not the PIN" in officer.leaving.pin_field.trouble.text()
    assert officer.leaving.pin.text() == ""


def test_closing_it_closes_the_program_and_never_opens_the_whole_window(window, qtbot) -> None:
    made = enter(window)
    with qtbot.waitSignal(window.closed):
        made.close()
    assert not window.isVisible()


def test_from_the_command_line_it_comes_first(qtbot, larder, tmp_path) -> None:
    window = build_window(papers=tmp_path)
    qtbot.addWidget(window)
    made = straight(window, larder.register.path)
    assert made.isVisible()
    assert not window.isVisible()
    assert not window.bench.is_open
    made.leave_button.click()
    made.leaving.people.set_value(larder.tutor)
    made.leaving.leave.click()
    assert window.isVisible()
    assert window.bench.person == larder.tutor
    window.bench.register.close()
    window.close()


def test_a_register_that_is_not_there_is_said_in_the_window(qtbot, tmp_path) -> None:
    window = build_window(papers=tmp_path)
    qtbot.addWidget(window)
    assert straight(window, tmp_path / "none.register") is None
    assert "There is no register" in window.wait_face.broken.title.text()
    window.close()


@pytest.mark.parametrize("page", ["day", "candidates", "answer", "leaving"])
def test_every_control_has_a_name_a_size_and_a_way_by_key(officer, larder, page: str) -> None:
    match page:
        case "candidates":
            officer.presenter.suggest("pie")
        case "answer":
            officer.view.asked.emit(larder.animals[0])
        case "leaving":
            officer.leave_button.click()
    officer.grab()
    QApplication.processEvents()
    kinds = (QAbstractButton, QLineEdit, QAbstractItemView)
    shown = [one for kind in kinds for one in officer.findChildren(kind) if one.isVisible()]
    shown = [one for one in shown if not isinstance(one.parent(), QAbstractItemView)]
    assert [one for one in shown if not (one.accessibleName() or getattr(one, "text", str)())] == []
    assert [one for one in shown if not one.focusPolicy() & Qt.FocusPolicy.TabFocus] == []
    small = [
        (one.accessibleName() or one.text(), one.width(), one.height())
        for one in shown
        if isinstance(one, QAbstractButton | QLineEdit) and min(one.width(), one.height()) < LEAST
    ]
    assert small == []


def test_no_control_of_it_offers_an_act(officer, larder) -> None:
    """What stands on its buttons is asking, turning, printing and leaving."""
    officer.view.asked.emit(larder.animals[0])
    said = {one.text() for one in officer.findChildren(QAbstractButton) if one.text()}
    allowed = ("Answer", "Back", "Day", "Print", "Leave", "Trace", "See", "Try", "What", "Put away")
    assert [one for one in said if not one.startswith(allowed)] == []


def test_the_count_of_entries_is_the_same_after_a_whole_visit(officer, larder) -> None:
    before = questions.seal(larder.register)
    officer.view.asked.emit(larder.pie)
    officer.view.day_wanted.emit()
    officer.view.day.before.click()
    assert questions.seal(larder.register) == before
