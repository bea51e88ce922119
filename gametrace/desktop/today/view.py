"""The page of duties: two columns of plain sentences, grouped by when."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.words import Words, clear, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART, GAP
from gametrace.desktop.today.presenter import Group, TodayPresenter
from gametrace.register.records import Duty


class TodayView(QWidget):
    """Signals: wanted(str, str): a station and the code to open it with. more_wanted(str): a whole group."""

    wanted = Signal(str, str)
    more_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._look = look
        self.day = Words("", "title")
        self.columns = QHBoxLayout()
        self.columns.setSpacing(APART)
        scroll = ScrollColumn()
        scroll.add(self.columns)
        scroll.add_stretch()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.day)
        layout.addWidget(scroll, 1)

    def show_groups(self, day: str, groups: Sequence[Group]) -> None:
        """At the left what cannot wait, at the right what can."""
        self.day.say(day)
        clear(self.columns)
        urgent = [group for group in groups if not group.can_wait]
        later = [group for group in groups if group.can_wait]
        for side in (urgent, later):
            if not side:
                continue
            column = QVBoxLayout()
            column.setSpacing(GAP)
            for group in side:
                column.addWidget(self._sheet(group))
            column.addStretch(1)
            self.columns.addLayout(column, 1)

    def _sheet(self, group: Group) -> Sheet:
        sheet = Sheet(group.title)
        for duty, act in group.lines:
            sheet.add(self._line(duty, act))
        if group.hidden:
            more = Button(f"{group.hidden} more", name=f"{group.hidden} more under {group.title}")
            more.clicked.connect(partial(self.more_wanted.emit, group.when))
            sheet.add(row(more, 1))
        return sheet

    def _line(self, duty: Duty, act: str) -> QWidget:
        line = QWidget()
        button = Button(act, name=f"{act}: {duty.sentence}")
        button.setMinimumWidth(self._look.px(132))
        button.clicked.connect(partial(self.wanted.emit, duty.station, duty.code))
        layout = QHBoxLayout(line)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(Words(duty.sentence), 1, Qt.AlignmentFlag.AlignVCenter)
        layout.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        return line


class TodayStation(Station):
    """F7."""

    name = "today"
    title = "Today"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = TodayView(bench.look)
        super().__init__(bench, self.view, parent)
        self.presenter = TodayPresenter(self.view, bench)
        self.view.wanted.connect(bench.go)
        self.view.more_wanted.connect(self.presenter.show_all)
        self.faces.act_wanted.connect(partial(bench.go, "delivery", ""))

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "A good day",
                "Nothing is on hold, nothing is due, every paper is finished. "
                "Whatever comes next comes through the door.",
                "Take in a delivery",
            )
