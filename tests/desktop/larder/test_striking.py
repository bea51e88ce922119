"""Striking an entry from the story of a lot, by keys; what rests on it is said in the form."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import questions


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
