"""In the largest type at 1280 pixels no button is cut short, squeezed flat or laid over another."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QAbstractButton, QApplication, QPushButton, QWidget

from gametrace.desktop.app import build_window
from gametrace.desktop.delivery.fields import DropList
from gametrace.desktop.frame import Window
from gametrace.desktop.look import Look, dress
from gametrace.facts.origins import ROUTES

LEAST = 44  # px; W3C, WCAG 2.2, success criterion 2.5.5 (enhanced)


@pytest.fixture(params=[1.25, 1.5], ids=["125 %", "150 %"])
def large(request, qtbot, qapp, larder, tmp_path: Path) -> Iterator[Window]:
    made = build_window(larder.register, papers=tmp_path / "papers", scale=request.param)
    qtbot.addWidget(made)
    made.bench.set_person(larder.tutor)
    made.resize(1280, 800)
    made.show()
    yield made
    made.close()
    dress(qapp, Look())


def settled(window: Window, station: str, code: str = "") -> QWidget:
    window.go(station, code)
    window.grab()
    for _ in range(4):
        QApplication.sendPostedEvents()
        QApplication.processEvents()
    return window.station(station)


def buttons(page: QWidget) -> list[QPushButton]:
    return [one for one in page.findChildren(QPushButton) if one.isVisible() and one.text()]


def squeezed(page: QWidget) -> list[tuple[str, int, int]]:
    """Shorter or lower than the words in it need."""
    return [
        (one.text(), one.width(), one.height())
        for one in buttons(page)
        if one.width() + 2 < one.minimumSizeHint().width() or one.height() < LEAST
    ]


def overlaid(page: QWidget) -> list[tuple[str, str]]:
    """Pairs that lie over one another beside each other in one parent."""
    places: dict[QAbstractButton, QRect] = {
        one: QRect(one.mapTo(page, QPoint(0, 0)), one.size()) for one in buttons(page)
    }
    return [
        (one.text(), other.text())
        for one, other in combinations(places, 2)
        if one.parent() is other.parent() and places[one].intersects(places[other])
    ]


@pytest.mark.parametrize(
    "station", ["delivery", "larder", "examination", "cold", "bins", "expected", "guide"]
)
def test_buttons_of_a_door_and_larder_page_keep_their_room_in_large_type(large, larder, station) -> None:
    code = larder.animals[0] if station in ("larder", "examination") else ""
    page = settled(large, station, code)
    assert buttons(page)
    assert squeezed(page) == []
    assert overlaid(page) == []


def test_the_longest_route_is_written_whole_in_two_lines(large) -> None:
    page = settled(large, "delivery").page.new_page
    route: DropList = page.form.paper.route
    longest = max(ROUTES, key=lambda key: len(ROUTES[key]))
    route.set_value(longest)
    QApplication.processEvents()
    lines = route._lines()
    assert lines.height() <= route.height()
    assert lines.width() <= route.width()
    assert route.height() >= LEAST
