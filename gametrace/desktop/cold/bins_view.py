"""The by-products' station: what waits, weekly totals, and the papers of what was collected."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from operator import attrgetter
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.bins_page import WaitingPage
from gametrace.desktop.cold.bins_presenter import BinsPresenter, Week
from gametrace.desktop.cold.category_part import CategoryPart
from gametrace.desktop.larder.striking import HouseStrikeForm, HouseStriking
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.domain.quantities import kg_text

if TYPE_CHECKING:
    from gametrace.register.bins import BinPaper

PAGES = (
    ("waiting", "Waiting"),
    ("settling", "Categories"),
    ("weeks", "Week by week"),
    ("papers", "Papers kept"),
    ("strike", "Strike"),
)


class BinsView(QWidget):
    """The row of pages and the page chosen."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = Button("Back to the larder")
        self.choice = ChoiceRow(PAGES, value="waiting", name="By-products")
        self.stack = QStackedWidget()
        self.waiting = WaitingPage(bench)
        self.settling = CategoryPart(bench)
        settling = ScrollColumn()
        settling.add(self.settling)
        settling.add_stretch()
        self.weeks = RecordTable(bench.look, "Week by week", WEEK_COLUMNS, _week_id)
        self.papers = RecordTable(bench.look, "Papers kept", PAPER_COLUMNS, _paper_id)
        self.no_paper = Words("Nothing has been collected yet, so no paper is kept.", "quiet")
        kept = QWidget()
        kept.setLayout(column(self.no_paper, self.papers))
        self.striking = HouseStrikeForm()
        strike = ScrollColumn()
        strike.add(self.striking)
        for page in (self.waiting, settling, self.weeks, kept, strike):
            self.stack.addWidget(page)
        self.setLayout(column(row(self.choice, self.back, gap=16), self.stack))
        self.choice.changed.connect(self.show_page)

    def show_page(self, name: str) -> None:
        self.choice.set_value(name)
        self.stack.setCurrentIndex([page for page, _ in PAGES].index(name))

    def show_weeks(self, weeks: Sequence[Week]) -> None:
        self.weeks.set_records(weeks)

    def show_papers(self, papers: Sequence[BinPaper]) -> None:
        self.papers.set_records(papers)
        self.papers.setVisible(bool(papers))
        self.no_paper.setVisible(not papers)


class BinsStation(Station):
    """Not on the strip: the larder leads here."""

    name = "bins"
    title = "By-products"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = BinsView(bench)
        super().__init__(bench, self.page, parent)
        self.presenter = BinsPresenter(self.page, bench)
        self.striking = HouseStriking(self.page.striking, bench, ["by-products.collected"])
        self.page.back.clicked.connect(partial(bench.go, "larder", ""))
        self.faces.act_wanted.connect(partial(bench.go, "larder", ""))

    def refresh(self) -> None:
        if self.bench.ask("bins_since") is None:
            self.faces.show_empty(
                "By-products",
                "Nothing has come off yet that is not for food. Skins, heads, feet, bones and what was "
                "condemned wait here for the collector.",
                "Go to the larder",
            )
            return
        self.presenter.refresh()
        self.striking.refresh()


def _grams_of(number: int, week: Week) -> str:
    grams = week[1].get(number, 0)
    return kg_text(grams) if grams else "–"


def _total(week: Week) -> str:
    return kg_text(sum(week[1].values()))


def _week_id(week: Week) -> str:
    return week[0].isoformat()


def _week_day(week: Week) -> str:
    return f"from {day_text(week[0])}"


def _paper_id(paper: BinPaper) -> str:
    return str(paper.seq)


def _paper_day(paper: BinPaper) -> str:
    return day_text(paper.on)


def _paper_pieces(paper: BinPaper) -> str:
    return str(paper.pieces)


def _paper_grams(paper: BinPaper) -> str:
    return kg_text(paper.grams)


def _paper_until(paper: BinPaper) -> str:
    return day_text(paper.keep_until)


WEEK_COLUMNS = (
    Column("week", "Week", _week_day),
    *(Column(f"c{n}", f"Category {n}", partial(_grams_of, n), 190, is_figure=True) for n in (1, 2, 3)),
    Column("all", "Together", _total, 190, is_figure=True),
)
PAPER_COLUMNS = (
    Column("day", "Collected", _paper_day, 148),
    Column("who", "By", attrgetter("collector")),
    Column("number", "Document", attrgetter("document_number"), 150),
    Column("pieces", "Pieces", _paper_pieces, 84, is_figure=True),
    Column("grams", "Weight", _paper_grams, 124, is_figure=True),
    Column("until", "Keep until at least", _paper_until, 172),
)
