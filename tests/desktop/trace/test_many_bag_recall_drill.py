"""Many lots, the bag with no label, a recall and a drill, worked with keys and a scanner."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.domain.errors import Refusal
from gametrace.facts.recall import recall_steps
from gametrace.register import acts, questions


def type_into(edit, text: str, *, enter: bool = True) -> None:
    edit.setFocus()
    QTest.keyClicks(edit, text)
    if enter:
        QTest.keyClick(edit, Qt.Key.Key_Return)


@pytest.fixture
def many(window):
    window.scanning.stop()
    window.go("many")
    return window.station("many")


def ask(many, sort: str, **typed: str) -> None:
    many.view.question.set_value(sort)
    many.presenter.turn_to(sort)
    fields = many.view.form.fields
    for at, (name, text) in enumerate(typed.items(), 1):
        type_into(fields[name].inner, text, enter=at == len(typed))


def test_questions_are_put_one_to_another_and_undone(many, larder) -> None:
    ask(many, "touched", codes=larder.animals[0])
    found = {lot.code for lot in many.view.table.records_model.records()}
    assert {larder.animals[0], larder.packs[0], larder.mince, larder.pie} <= found
    many.view.form.fields["how"].inner.set_value("less")
    ask(many, "cooked", first="25 Nov 2026", last="26 Nov 2026")
    less = {lot.code for lot in many.view.table.records_model.records()}
    assert less == found - {larder.pie}
    assert "less what was cooked from 25 Nov 2026 to 26 Nov 2026" in many.view.sentence.text()
    QTest.keyClick(many.view.undo, Qt.Key.Key_Space)
    assert {lot.code for lot in many.view.table.records_model.records()} == found


def test_what_cannot_be_read_is_said_at_its_field_and_nothing_is_lost(many) -> None:
    ask(many, "touched", codes="26-0000x")
    field = many.view.form.fields["codes"]
    assert field.trouble.isVisible()
    assert field.inner.text() == "26-0000x"
    ask(many, "killed", first="the other day")
    assert "day cannot be read" in many.view.form.fields["first"].trouble.text()


def test_a_set_is_saved_and_held_from_the_page(many, larder) -> None:
    ask(many, "lots", codes=f"{larder.packs[1]} {larder.mince}")
    type_into(many.view.naming.fields["name"].inner, "two of them")
    assert questions.saved_sets(larder.register)[0].name == "two of them"
    type_into(many.view.act.fields["reason"].inner, "the supplier rang")
    assert questions.lot(larder.register, larder.packs[1]).state == "on hold"
    assert questions.lot(larder.register, larder.mince).state == "on hold"
    many.presenter.start_again()
    many.presenter.take_up("Q001")
    assert len(many.view.table.records_model.records()) == 2


def test_what_was_held_together_is_lifted_together_by_another_person(many, window, larder) -> None:
    assert many.view.lifting.isHidden()
    ask(many, "lots", codes=f"{larder.packs[1]} {larder.mince}")
    type_into(many.view.act.fields["reason"].inner, "the supplier rang")
    (held,) = questions.held_sets(larder.register)
    assert set(held.codes) == {larder.packs[1], larder.mince}
    reason = many.view.lifting.fields["reason"].inner
    type_into(reason, "mistaken")  # the only one lies in hand
    assert "another person" in many.view.lifting.trouble.text()
    assert reason.text() == "mistaken"
    colleague = acts.enrol_person(
        larder.register, by=larder.tutor, name="Col Dacre", initials="CD", role="technician"
    )
    window.bench.set_person(colleague.code)
    many.view.lifting.act.click()
    assert questions.lot(larder.register, larder.packs[1]).state != "on hold"
    assert questions.held_sets(larder.register) == ()
    assert many.view.lifting.isHidden()


def test_a_store_between_two_times_by_typed_moments(many, larder) -> None:
    ask(many, "store", first="25 Nov 2026 9:00", last="26 Nov 2026")
    assert set(larder.animals) <= {lot.code for lot in many.view.table.records_model.records()}
    with pytest.raises(Refusal, match="time cannot be read"):
        many.presenter._moment("25 Nov 2026 29:00", "first")


def test_the_bag_s_candidates_come_with_reasons_and_the_decision_is_kept(window, larder) -> None:
    window.scanning.stop()
    window.go("bag")
    page = window.station("bag")
    type_into(page.view.grams.edit, "4.60", enter=False)
    type_into(page.view.look_edit, "haunch")
    assert page.view.candidates.value() == larder.packs[1]
    assert "weighs what is left of it" in page.view.why.text()
    QTest.keyClick(page.view.is_it, Qt.Key.Key_Space)
    assert "what decided it" in page.view.fields["reason"].trouble.text()
    type_into(page.view.reason, "the weight agrees", enter=False)
    QTest.keyClick(page.view.is_it, Qt.Key.Key_Space)
    kept = questions.decided_bags(larder.register)[0]
    assert (kept.code, kept.grams, kept.look) == (larder.packs[1], 4600, "haunch")
    assert page.view.look_edit.text() == ""


def test_a_recall_is_opened_rung_ticked_printed_and_ended(window, larder, tmp_path) -> None:
    window.scanning.stop()
    window.go("recalls")
    page = window.station("recalls")
    opening = page.view.opening.fields
    type_into(opening["codes"].inner, larder.animals[0])
    type_into(opening["what"].inner, "fallow of 25 Nov")
    type_into(opening["reason"].inner, "the supplier rang")
    assert page.view.title.text() == "R001 fallow of 25 Nov"
    assert questions.lot(larder.register, larder.packs[0]).state == "on hold"
    type_into(page.view.calling.fields["whom"].inner, "the local authority's food team")
    type_into(page.view.calling.fields["answer"].inner, "keep it and wait")
    assert "keep it and wait" in page.view.text.toPlainText()
    page.view.page.choose("texts")
    sent = page.view.text.toPlainText()
    assert "Questions: Fenmoor larder" in sent  # to its last line, and it can be copied
    page.view.page.choose("affected")
    assert all(code in page.view.text.toPlainText() for code in (larder.animals[0], larder.pie))
    page.view.page.choose("steps")
    for _ in recall_steps():
        type_into(page.view.stepping.fields["note"].inner, "done at once")
    sheet = questions.recall_sheet(larder.register, "R001")
    assert all(step.answer == "done" for step in sheet.steps)
    QTest.keyClick(page.view.print_button, Qt.Key.Key_Space)
    window.bench.errands.wait_idle()
    type_into(page.view.ending.fields["outcome"].inner, "nothing was wrong")
    assert not questions.recall_sheet(larder.register, "R001").is_open
    assert "Ended: nothing was wrong" in page.view.about.text()


def test_a_drill_by_hand_is_scanned_through_to_a_hundred_per_cent(window, larder, scan) -> None:
    window.go("drills")
    page = window.station("drills")
    page.view.form.fields["code"].inner.setText(larder.packs[1])
    page.presenter.begin_by_hand()
    to_find = [lot.code for lot in page.presenter._running.to_find]
    assert larder.packs[1] in to_find
    page.view.to_find.setFocus()
    for code in to_find:
        scan(code)
    assert window.current == "drills"
    assert page.view.left.text().startswith(f"{len(to_find)} of {len(to_find)} found")
    page.presenter.end()
    kept = questions.drill_book(larder.register)[0]
    assert kept.percent == 100
    assert kept.seconds > 0
    assert "Autumn term 2026" in page.view.book.toPlainText()
    assert "100 %" in page.view.book.toPlainText()


def test_a_drill_left_running_is_taken_up_again(window, larder) -> None:
    window.go("drills")
    page = window.station("drills")
    page.presenter.begin("lot")
    window.go("trace")
    window.go("drills")
    assert page.view.running.isVisible()
    assert not page.view.lot.isEnabled()
