"""The kitchen's own figures in the window: set by key with a reason, beside what the sources say."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.desktop.parts.words import Words
from gametrace.desktop.setup.figure_editors import editor_for
from gametrace.domain.errors import Refusal
from gametrace.register import questions


def key_in(window, text: str, *keys: Qt.Key) -> None:
    """A person's typing at the window: letters, then keys."""
    window.scanning.flush()
    for letter in text:
        QTest.keyClick(window.windowHandle(), letter)
        window.scanning.flush()
    for key in keys:
        QTest.keyClick(window.windowHandle(), key)
        window.scanning.flush()


@pytest.fixture
def page(window, larder):
    window.go("setup", "figures")
    return window.station("setup").view.figures


def shown(widget) -> str:
    return " | ".join(words.text() for words in widget.findChildren(Words))


def test_each_figure_stands_beside_the_sources_with_their_standing(page) -> None:
    # Regulation (EC) 853/2004, Annex III, Section IV: large game 7 degrees all through.
    assert "7.0 °C" in shown(page)
    assert "853/2004" in shown(page)
    assert "read" in shown(page).split("853/2004")[1][:80]


def test_a_limit_is_set_by_key_alone_with_its_reason(window, larder, page) -> None:
    page.lines.groups.choose("In the cold stores")
    page.lines.buttons["chill_limit_tenths_c"].setFocus()
    key_in(window, "", Qt.Key.Key_Space, Qt.Key.Key_Tab)
    key_in(window, "4", Qt.Key.Key_Tab)
    key_in(window, "our plan says four", Qt.Key.Key_Return)
    assert questions.policies(larder.register).chill_limit_tenths_c == 40
    assert "Our own: 4.0 °C" in shown(page)
    assert page.lines.buttons["chill_limit_tenths_c"].hasFocus()


def test_without_a_reason_nothing_is_set_and_the_figure_stays_typed(page, larder) -> None:
    page.lines.buttons["own_limit_tenths_c"].click()
    page.file.editor.edit.edit.setText("6")
    page.file.act.click()
    assert not page.file.reason_field.trouble.isHidden()
    assert page.file.editor.edit.text() == "6"
    assert questions.policies(larder.register).own_limit_tenths_c is None


def test_a_figure_is_taken_back_and_every_change_is_listed(page, larder) -> None:
    for text in ("9", ""):
        page.lines.buttons["probe_days"].click()
        page.file.reason.setText("weekly and a bit" if text else "back to the usual")
        if text:
            page.file.editor.edit.setText(text)
            page.file.act.click()
        else:
            page.file.take_back.click()
    assert questions.policies(larder.register).probe_days is None
    page.lines.groups.choose("changes")
    assert "30 days; before: 9 days" in shown(page)
    assert "Why: weekly and a bit" in shown(page)


def test_days_of_hanging_show_the_spread_of_the_sources(page, window) -> None:
    page.lines.groups.choose("Hanging")
    page.lines.buttons["hanging_days.fallow"].click()
    assert " to " in shown(page.file)
    page.file.editor.set_value("7-9")
    page.file.reason.setText("our own larder")
    page.file.act.click()
    assert "Our own: day 7 to day 9" in shown(page)


def test_origins_bought_are_ticked(page, larder) -> None:
    page.lines.buttons["accepted_origins"].click()
    page.file.editor.boxes["indoor-farmed"].setChecked(False)
    page.file.reason.setText("we buy none from sheds")
    page.file.act.click()
    assert questions.policies(larder.register).accepted_origins == {"park", "wild-shot", "field-farmed"}


def test_a_category_is_confirmed_with_who_said_so_and_when(page, larder) -> None:
    page.lines.groups.choose("What is not for food")
    page.lines.buttons["category.skin"].click()
    page.file.reason.setText("asked once")
    page.file.act.click()
    assert not page.file.value_field.trouble.isHidden()
    page.file.editor.set_value("2|Hartmere council|2026-11-20")
    page.file.act.click()
    assert questions.policies(larder.register).categories["skin"][0] == 2


@pytest.mark.parametrize(
    ("sort", "typed"), [("days", "ten"), ("minutes", "-3"), ("celsius", "cold"), ("range", "9-2")]
)
def test_what_cannot_be_read_is_refused_at_the_figure(qtbot, sort: str, typed: str) -> None:
    editor = editor_for(sort, lambda: None)
    qtbot.addWidget(editor)
    if sort == "celsius":
        editor.edit.edit.setText(typed)
    elif sort == "range":
        editor.set_value(typed)
    else:
        editor.edit.setText(typed)
    with pytest.raises(Refusal) as caught:
        editor.value()
    assert caught.value.field == "value"


def test_the_pages_fit_a_hand(page, window, fits_a_hand) -> None:
    for group in page.lines.groups.values():
        page.lines.groups.choose(group)
        assert fits_a_hand(window.station("setup")) == []
