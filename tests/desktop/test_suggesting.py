"""The one box lists what was typed as it is typed, from any page, without taking the focus."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest


@pytest.fixture
def box(window, qtbot):
    window.scanning.stop()
    window.go("larder")
    window.scan_field.setFocus()

    def type_in(text: str):
        window.scan_field.clear()
        QTest.keyClicks(window.scan_field, text)
        window.suggestions.look()
        return [window.suggestions.item(row).text() for row in range(window.suggestions.count())]

    return type_in


def test_a_tag_a_dish_and_a_service_are_listed_under_the_box(window, larder, box) -> None:
    assert box("041")[0].startswith(larder.animals[-1])
    assert box("veni")[0].startswith(larder.pie)
    assert any("table d'hôte 2026-11-26" in line for line in box("table d"))
    assert window.scan_field.hasFocus()
    assert window.suggestions.isVisible()
    assert box("zzzz") == []
    assert not window.suggestions.isVisible()


def test_down_and_enter_trace_what_is_marked(window, larder, box) -> None:
    box("venison")
    QTest.keyClick(window.scan_field, Qt.Key.Key_Down)
    QTest.keyClick(window.scan_field, Qt.Key.Key_Return)
    assert window.current == "trace"
    assert window.station("trace").view.title.text().startswith(larder.pie)
    assert window.scan_field.text() == ""
    assert not window.suggestions.isVisible()


def test_escape_puts_the_list_away_and_what_was_typed_stays(window, box) -> None:
    box("veni")
    QTest.keyClick(window.scan_field, Qt.Key.Key_Escape)
    assert not window.suggestions.isVisible()
    assert window.scan_field.text() == "veni"


def test_a_mistyped_code_is_refused_with_the_ones_near_to_it(window, larder, box) -> None:
    right = larder.packs[0]
    wrong = right[:-1] + ("A" if right[-1] != "A" else "B")
    assert any(line.startswith(right) for line in box(wrong))
    QTest.keyClick(window.scan_field, Qt.Key.Key_Return)
    assert "check character" in window.banner.words.text()
    assert right in window.banner.words.text()


def test_the_list_lies_inside_the_window_and_is_fit_for_a_finger(window, box) -> None:
    box("fallow")
    shown = window.suggestions
    assert window.rect().contains(shown.geometry())
    assert all(shown.visualItemRect(shown.item(row)).height() >= 44 for row in range(shown.count()))


def test_nothing_is_listed_while_the_window_waits_for_a_pin(window, box) -> None:
    from types import SimpleNamespace

    assert box("veni")
    kept, window.locking = window.locking, SimpleNamespace(is_locked=True)
    window.suggestions.look()
    assert window.suggestions.count() == 0
    window.locking = kept
