"""Every page can be worked by key, by finger and by ear: named, reachable, large enough, nothing cut."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QApplication, QLabel, QLineEdit, QWidget

from gametrace.desktop.stations import STATIONS

LEAST = 44  # px, the floor for any target; W3C, WCAG 2.2, success criterion 2.5.5 (enhanced)


def worked(page: QWidget) -> list[QWidget]:
    """What a person works with on a page, as far as it is shown. Parts inside a list or bar are Qt's own."""
    kinds = (QAbstractButton, QLineEdit, QAbstractItemView)
    found = [widget for kind in kinds for widget in page.findChildren(kind) if widget.isVisible()]
    return [widget for widget in found if not isinstance(widget.parent(), QAbstractItemView)]


def is_in_a_row(widget: QWidget) -> bool:
    """One of a row of choices: the row is one stop, and arrows walk along it (test_parts)."""
    return isinstance(widget, QAbstractButton) and widget.group() is not None


def nameless(page: QWidget) -> list[QWidget]:
    return [
        widget
        for widget in worked(page)
        if not (widget.accessibleName() or (isinstance(widget, QAbstractButton) and widget.text()))
    ]


def unreachable(page: QWidget) -> list[str]:
    return [
        widget.accessibleName()
        for widget in worked(page)
        if widget.isEnabled()
        and not widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not is_in_a_row(widget)
    ]


def too_small(page: QWidget) -> list[tuple[str, int, int]]:
    return [
        (widget.accessibleName(), widget.width(), widget.height())
        for widget in worked(page)
        if isinstance(widget, QAbstractButton | QLineEdit) and min(widget.width(), widget.height()) < LEAST
    ]


def cut(page: QWidget) -> list[str]:
    return [
        label.text()
        for label in page.findChildren(QLabel)
        if label.isVisible()
        and label.wordWrap()
        and label.text()
        and label.height() + 2 < label.heightForWidth(label.width())
    ]


@pytest.mark.parametrize("name", [entry.name for entry in STATIONS])
def test_a_page_is_worked_by_key_by_finger_and_by_ear_and_no_text_is_cut(window, name: str) -> None:
    window.resize(1280, 800)
    window.go(name)
    window.grab()
    QApplication.processEvents()  # what was laid out for the first time is laid out again once it is shown
    page = window.station(name)
    assert nameless(page) == []
    assert unreachable(page) == []
    assert too_small(page) == []
    assert cut(page) == []
