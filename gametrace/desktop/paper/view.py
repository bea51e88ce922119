"""The station of paper: labels as they will print, the stocks and their sizes, and the small papers.

Not on the strip: every print action of a station leads here, and Ctrl+P from anywhere.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.paper.choices import LabelJob
from gametrace.desktop.paper.labels_page import LabelsPage
from gametrace.desktop.paper.labels_presenter import LabelsPresenter
from gametrace.desktop.paper.small_page import SmallPage
from gametrace.desktop.paper.small_presenter import SmallPresenter
from gametrace.desktop.paper.stocks_page import StocksPage
from gametrace.desktop.paper.stocks_presenter import StocksPresenter
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.words import column, row
from gametrace.desktop.station import Station

PAGES = (("labels", "Labels"), ("stocks", "Stocks and sizes"), ("small", "Small paper"))


class PaperView(QWidget):
    """The row of pages and the page chosen."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.choice = ChoiceRow(PAGES, value="labels", name="Paper")
        self.back = Button("Back", name="Back to where the label was wanted")
        self.stack = QStackedWidget()
        self.labels = LabelsPage(bench.look)
        self.stocks = StocksPage(bench.look)
        self.small = SmallPage(bench.look, bench.today)
        for page in (self.labels, self.stocks, self.small):
            self.stack.addWidget(page)
        self.setLayout(column(row(self.choice, self.back, gap=16), self.stack))
        self.layout().setStretch(1, 1)
        self.choice.changed.connect(self.show_page)

    def show_page(self, name: str) -> None:
        self.choice.set_value(name)
        self.stack.setCurrentIndex([page for page, _ in PAGES].index(name))


class PaperStation(Station):
    """Takes a LabelJob that was handed over, or lots scanned here."""

    name = "paper"
    title = "Labels and paper"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = PaperView(bench)
        super().__init__(bench, self.page, parent)
        self.labels = LabelsPresenter(self.page.labels, bench)
        self.stocks = StocksPresenter(self.page.stocks, bench)
        self.small = SmallPresenter(self.page.small, bench)
        self.page.stocks.kept.connect(self.labels.use_stock)
        self.page.back.clicked.connect(self.leave)
        away = QShortcut(QKeySequence("Escape"), self)
        away.activated.connect(self.leave)
        for keys, turn in (
            ("PgUp", self.page.labels.preview.turn_back),
            ("PgDown", self.page.labels.preview.turn_on),
        ):
            QShortcut(QKeySequence(keys), self).activated.connect(turn)

    def refresh(self) -> None:
        self._take()
        for presenter in (self.labels, self.stocks, self.small):
            presenter.refresh()

    def showEvent(self, event) -> None:
        super().showEvent(event)
        self._take()

    def _take(self) -> None:
        job = self.bench.handed("paper")
        if isinstance(job, LabelJob):
            self.page.show_page("labels")
            self.labels.take(job)

    def on_scan(self, code: str) -> bool:
        return self.bench.guarded(partial(self.labels.add, code)) is not None

    def open_code(self, code: str) -> None:
        self.labels.take(LabelJob((code,)))

    def leave(self) -> None:
        self.bench.go(self.labels.job.back or "today")
