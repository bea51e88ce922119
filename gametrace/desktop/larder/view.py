"""The Larder station: the stores drawn at the left, the drawer of what was chosen at the right."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.larder.drawer import Drawer
from gametrace.desktop.larder.presenter import LarderPresenter
from gametrace.desktop.larder.stores_part import StoresPart
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, column, row, set_role
from gametrace.desktop.station import Station

NARROW, WIDE, WIDE_FROM = 420, 560, 1600  # px: the drawer, and the page it grows from
_MOST_PERCENT = 45  # of the page: in large type the rails keep the greater half


class LarderView(QWidget):
    """Stores and drawer, and the ways to the pages behind them.

    Signals: led(str): a station is wanted.
    """

    led = Signal(str)

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.stores = StoresPart(look)
        self.drawer = Drawer(look, today)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(24)
        self.cold = Button("Temperatures")
        self.bins = Button("By-products")
        self.expected = Button("Expected")
        self.room = Words("", "quiet")
        self.cold.clicked.connect(self._to_cold)
        self.bins.clicked.connect(self._to_bins)
        self.expected.clicked.connect(self._to_expected)
        ways = row(self.cold, self.bins, self.expected, 1, gap=8)
        left = column(ways, self.room, self.stores, gap=8)
        left.setStretch(2, 1)
        layout.addLayout(left, 1)
        layout.addWidget(self.drawer)
        self.drawer.setFixedWidth(look.px(NARROW))

    def _to_cold(self) -> None:
        self.led.emit("cold")

    def _to_bins(self) -> None:
        self.led.emit("bins")

    def _to_expected(self) -> None:
        self.led.emit("expected")

    def say_room(self, words: str, *, is_short: bool) -> None:
        """Whether there will be hooks for what is expected."""
        self.room.say(words)
        set_role(self.room, "amber" if is_short else "quiet")

    def resizeEvent(self, event) -> None:
        wide = self.width() >= self._look.px(WIDE_FROM)
        wanted = self._look.px(WIDE if wide else NARROW)
        self.drawer.setFixedWidth(min(wanted, self.width() * _MOST_PERCENT // 100))
        super().resizeEvent(event)


class LarderStation(Station):
    """F2."""

    name = "larder"
    title = "Larder"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = LarderView(bench.look, bench.today)
        super().__init__(bench, self.page, parent)
        self.presenter = LarderPresenter(self.page, bench)
        self.faces.act_wanted.connect(partial(bench.go, "setup"))

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "Larder",
                "No store has been written down yet. With its rails, hooks and shelves it is drawn here, and "
                "everything that hangs or lies in it.",
                "Go to Set-up",
            )

    def _act_was_done(self, changes: Any) -> None:
        """A move touches two hooks: with a full larder the rest need not be read for it."""
        is_move = self.isVisible() and not self._is_stale and getattr(changes, "kind", "") == "lot.moved"
        if not (is_move and self.bench.guarded(partial(self.presenter.moved, changes.codes))):
            super()._act_was_done(changes)

    def on_scan(self, code: str) -> bool:
        return self.presenter.scanned(code)

    def open_code(self, code: str) -> None:
        self.presenter.open(code)
