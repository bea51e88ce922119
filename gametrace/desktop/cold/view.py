"""The cold stores: a round, the curve, warm and unmeasured times, a logger's file, a failure, the probes."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.curve_page import CurvePage
from gametrace.desktop.cold.curve_presenter import CurvePresenter
from gametrace.desktop.cold.episodes_page import EpisodesPage
from gametrace.desktop.cold.episodes_presenter import EpisodesPresenter
from gametrace.desktop.cold.failed_page import FailedPage
from gametrace.desktop.cold.failed_presenter import FailedPresenter
from gametrace.desktop.cold.logger_page import LoggerPage
from gametrace.desktop.cold.logger_presenter import LoggerPresenter
from gametrace.desktop.cold.probes_page import ProbesPage
from gametrace.desktop.cold.probes_presenter import ProbesPresenter
from gametrace.desktop.cold.round_page import RoundPage
from gametrace.desktop.cold.round_presenter import RoundPresenter
from gametrace.desktop.larder.striking import HouseStrikeForm, HouseStriking
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import column, row
from gametrace.desktop.station import Station

PAGES = (
    ("round", "Round"),
    ("curve", "Curve"),
    ("episodes", "Warm, gaps"),
    ("logger", "Logger file"),
    ("failed", "Store failed"),
    ("probes", "Probes"),
    ("strike", "Strike"),
)
STRUCK_HERE = (
    "round.taken", "readings.imported", "probe.checked", "excursion.answered", "store.failed",
)  # fmt: skip


class ColdView(QWidget):
    """The row of pages and the page chosen."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = Button("Back to the larder")
        self.choice = ChoiceRow(PAGES, value="round", name="Cold stores")
        self.stack = QStackedWidget()
        self.round = RoundPage()
        self.curve = CurvePage(look)
        self.episodes = EpisodesPage(look)
        self.logger = LoggerPage()
        self.failed = FailedPage(look)
        self.probes = ProbesPage()
        self.strike = ScrollColumn()
        self.striking = HouseStrikeForm()
        self.strike.add(self.striking)
        for name, _ in PAGES:
            self.stack.addWidget(getattr(self, name))
        self.setLayout(column(row(self.choice, self.back, gap=16), self.stack))

    def show_page(self, name: str) -> None:
        self.choice.set_value(name)
        self.stack.setCurrentWidget(getattr(self, name))


class ColdStation(Station):
    """Not on the strip: the larder leads here."""

    name = "cold"
    title = "Cold stores"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = ColdView(bench.look)
        super().__init__(bench, self.page, parent)
        page = self.page
        self.presenters: dict[str, Any] = {
            "round": RoundPresenter(page.round, bench),
            "curve": CurvePresenter(page.curve, bench),
            "episodes": EpisodesPresenter(page.episodes, bench),
            "logger": LoggerPresenter(page.logger, bench),
            "failed": FailedPresenter(page.failed, bench),
            "probes": ProbesPresenter(page.probes, bench),
            "strike": HouseStriking(page.striking, bench, STRUCK_HERE),
        }
        self._fresh: set[str] = set()
        # A moment later: the window gives the focus to the first thing on a page it shows.
        self._hand = QTimer(self)
        self._hand.setSingleShot(True)
        self._hand.setInterval(0)
        self._hand.timeout.connect(self._hand_on_round)
        page.choice.changed.connect(self.show_page)
        page.back.clicked.connect(partial(bench.go, "larder", ""))
        self.presenters["episodes"].curve_wanted.connect(self._to_curve)
        self.faces.act_wanted.connect(partial(bench.go, "setup"))

    def refresh(self) -> None:
        """Only the page on show is read; the others when they are chosen."""
        if not any(place.kind == "store" for place in self.bench.ask("places")):
            self.faces.show_empty(
                "Cold stores",
                "No store has been written down yet. With one, its temperatures are kept here.",
                "Go to Set-up",
            )
            return
        self._fresh.clear()
        self._fill(self.page.choice.value())

    def showEvent(self, event) -> None:
        super().showEvent(event)
        self._hand.start()

    def _hand_on_round(self) -> None:
        """A round begins under the hand, and not with the row of pages."""
        if self.isVisible() and self.page.choice.value() == "round":
            self.page.round.start()

    def show_page(self, name: str) -> None:
        self.page.show_page(name)
        if name not in self._fresh:
            self.bench.guarded(partial(self._fill, name))

    def open_code(self, code: str) -> None:
        """A page by its name, or a store by its code: its curve."""
        if code in dict(PAGES):
            self.show_page(code)
        else:
            self.show_page("curve")
            self.presenters["curve"].show_store(code)

    def _fill(self, name: str) -> None:
        self._fresh.add(name)
        self.presenters[name].refresh()

    def _to_curve(self, episode: Any) -> None:
        self.page.show_page("curve")
        self._fresh.add("curve")
        self.presenters["curve"].show_time(episode.store, episode.first_at, episode.last_at)
