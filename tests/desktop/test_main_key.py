"""Ctrl+Enter presses the main button of the page, the one nearest to the cursor."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.main_key import main_button
from gametrace.desktop.parts.big_button import BigButton

CTRL = Qt.KeyboardModifier.ControlModifier


def half(act: str) -> tuple[QWidget, QLineEdit, BigButton]:
    part, line, button = QWidget(), QLineEdit(), BigButton(act)
    layout = QVBoxLayout(part)
    layout.addWidget(line)
    layout.addWidget(button)
    return part, line, button


@pytest.fixture
def page(qtbot):
    page = QWidget()
    qtbot.addWidget(page)
    layout = QVBoxLayout(page)
    page.halves = [half("Upper"), half("Lower")]
    for part, _, _ in page.halves:
        layout.addWidget(part)
    page.show()
    return page


def test_of_two_main_buttons_the_one_beside_the_cursor_is_meant(page) -> None:
    for _, line, button in page.halves:
        assert main_button(page, line) is button


def test_a_main_button_out_of_sight_is_never_pressed(page) -> None:
    _, line, button = page.halves[0]
    button.hide()
    assert main_button(page, line) is page.halves[1][2]


def test_a_page_without_a_main_button_has_none(qtbot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    assert main_button(page, None) is None


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter])
def test_ctrl_enter_answers_the_officer_from_the_field_of_the_visit(window, larder, key) -> None:
    window.go("visit")
    visit = window.station("visit").view
    visit.code.setFocus()
    visit.code.setText(larder.pie)
    QTest.keyClick(window.windowHandle(), key, CTRL)
    assert window.current == "trace"


def test_ctrl_enter_tells_the_pass_what_a_dish_still_wants(window) -> None:
    window.go("pass")
    dish = window.station("pass").page.dish
    dish.name.inner.setFocus()
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_Return, CTRL)
    assert any(field.trouble.isVisible() for field in dish.fields()) or dish.loud.isVisible()
