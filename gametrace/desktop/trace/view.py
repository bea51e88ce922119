"""The trace on one page: headline, picture, balance, the animals in full, and a list of where it went."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.trace_picture import TracePicture
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.scanning import looks_like_code
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART, GAP
from gametrace.desktop.trace.animals import AnimalsColumn, Told
from gametrace.desktop.trace.balance_line import BalanceLine
from gametrace.desktop.trace.forward import ForwardList
from gametrace.desktop.trace.presenter import TracePresenter
from gametrace.desktop.trace.wording import headline, summary
from gametrace.register.records import Trace

LEADS = {
    "many": "Ask about many lots",
    "bag": "A bag with no label",
    "recalls": "Recalls",
    "drills": "Drills",
}


class TraceView(QWidget):
    """Signals: picked(str): one of several candidates. follow_wanted(str): trace this code instead.
    back_wanted(), print_wanted(), scan_wanted().
    """

    picked = Signal(str)
    follow_wanted = Signal(str)
    back_wanted = Signal()
    print_wanted = Signal()
    costs_wanted = Signal(str)
    story_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._look = look
        self._in_hand = self._costed = ""
        self.pages = QStackedWidget()
        self.pages.addWidget(self._choosing_page())
        self.pages.addWidget(self._trace_page())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.pages)

    # -- building ---------------------------------------------------------------------------------------

    def _choosing_page(self) -> QWidget:
        page = QWidget()
        page.setProperty("role", "ground")
        self.question = Words("", "title")
        self.explained = Words("", "large")
        self.candidates = PickList("What to trace")
        self.candidates.setMaximumWidth(self._look.px(900))
        self.candidates.picked.connect(self.picked)
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        self.leads = {name: Button(words) for name, words in LEADS.items()}
        for item in (self.question, self.explained):
            layout.addWidget(item)
        layout.addWidget(self.candidates, 1)
        layout.addLayout(row(*self.leads.values(), 1))
        return page

    def _trace_page(self) -> QWidget:
        page = QWidget()
        page.setProperty("role", "ground")
        self.title = Words("", "title")
        self.state = StateSign(self._look, wrap=False)
        self.summary = Words("", "quiet")
        self.back = Button("Back")
        self.more = Button("More", name="More questions")
        self.save_picture = Button("Picture", name="Save the picture as PDF and SVG")
        self.fold = Button("Fold together")
        self.follow = Button("Trace this one")
        self.costs = Button("Cost", name="What it came to and what it cost")
        self.story = Button("Its story")
        self.print_button = BigButton("Print the trace")
        self.picture = TracePicture(self._look)
        self.balance = BalanceLine()
        self.animals = AnimalsColumn(self._look)
        self.forward = ForwardList(self._look)
        said = row(self.state, self.summary)
        said.setStretch(1, 1)
        name = column(self.title, said, gap=0)
        head = row(
            name,
            self.back,
            self.more,
            self.fold,
            self.follow,
            self.costs,
            self.story,
            self.save_picture,
            self.print_button,
        )
        head.setStretch(0, 1)
        left = column(Words("Where it is from", "heading"), self.animals, gap=4)
        right = column(Words("Where it went", "heading"), self.forward, gap=4)
        lower = _Half()
        lists = row(left, right, gap=APART)
        lists.setStretch(0, 4)
        lists.setStretch(1, 6)
        lower.setLayout(lists)
        self.picture.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(head)
        layout.addWidget(self.picture, 6)
        layout.addWidget(self.balance)
        layout.addWidget(lower, 5)
        self.picture.chosen.connect(self._take_in_hand)
        self.balance.wanted.connect(self.forward.show_only)
        self.forward.moved.connect(self._row_moved)
        self.forward.chosen.connect(self._row_chosen)
        self.back.clicked.connect(self.back_wanted)
        self.fold.clicked.connect(self._fold)
        self.follow.clicked.connect(self._follow)
        self.costs.clicked.connect(self._want_costs)
        self.story.clicked.connect(self._tell_story)
        self.print_button.clicked.connect(self.print_wanted)
        return page

    # -- what the presenter calls -----------------------------------------------------------------------

    def show_candidates(self, question: str, explained: str, choices: Sequence[Choice]) -> None:
        """Several things, or nothing yet: choose one."""
        self.question.say(question)
        self.explained.say(explained)
        self.candidates.set_choices(choices)
        self.candidates.setVisible(bool(choices))
        self.pages.setCurrentIndex(0)
        self.candidates.setFocus()

    def show_trace(
        self,
        trace: Trace,
        *,
        can_go_back: bool,
        told: Told = ((), ()),
        standing: tuple[str, str] = ("", ""),
    ) -> None:
        """`standing`: how the balance stands by the kitchen's tolerance, in one word and in a sentence."""
        self.title.say(headline(trace))
        self.state.setVisible(bool(trace.state))
        self.state.set_state(trace.state)
        self.summary.say(summary(trace))
        self.picture.set_trace(trace)
        self.back.setVisible(can_go_back)
        self._costed = trace.lot.code if trace.lot is not None else ""
        self.costs.setVisible(bool(self._costed))
        self.balance.show_balance(trace.balance, *standing)
        self.animals.show_trace(trace, told)
        self.forward.show_trace(trace)
        self._take_in_hand(trace.code)
        self.follow.setVisible(False)
        self.fold.setVisible(False)
        self.pages.setCurrentIndex(1)
        self.picture.take_focus(trace.code)

    def picture_papers(self, title: str) -> tuple[bytes, bytes]:
        """The picture as it stands, as PDF and as SVG."""
        from gametrace.desktop.parts.trace_paper import picture_pdf, picture_svg

        canvas = self.picture.canvas
        return picture_pdf(canvas, self._look, title), picture_svg(canvas, self._look, title)

    @property
    def is_showing_trace(self) -> bool:
        return self.pages.currentIndex() == 1

    # -- parts of the page ------------------------------------------------------------------------------

    def _take_in_hand(self, code: str) -> None:
        """The same thing in picture and lists; another one can be traced from here."""
        self._in_hand = code
        self.story.setVisible(looks_like_code(code))
        self.follow.setVisible(bool(code) and not self.title.text().startswith(code))
        self.follow.setAccessibleName(f"Trace {code} instead")
        self.fold.setVisible(self.picture.is_unfolded)
        self.forward.show_code(code)
        self.animals.show_code(code)

    def _row_moved(self, code: str) -> None:
        if code != self._in_hand:
            self.picture.choose(code)
            self._take_in_hand(code)

    def _row_chosen(self, code: str) -> None:
        self.picture.choose(code, focus=True)

    def _want_costs(self) -> None:
        self.costs_wanted.emit(self._costed)

    def _fold(self) -> None:
        self.picture.fold()
        self.fold.setVisible(False)

    def _tell_story(self) -> None:
        self.story_wanted.emit(self._in_hand)

    def _follow(self) -> None:
        if self._in_hand:
            self.follow_wanted.emit(self._in_hand)


class _Half(QWidget):
    """Half of a page: as high as its share, whatever is written in it; what is in it scrolls."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)

    def hasHeightForWidth(self) -> bool:
        return False


class TraceStation(Station):
    """F5."""

    name = "trace"
    title = "Trace"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = TraceView(bench.look)
        super().__init__(bench, self.view, parent)
        self.presenter = TracePresenter(self.view, bench)
        self.view.picked.connect(self.presenter.open)
        self.view.follow_wanted.connect(self.presenter.open)
        self.view.story_wanted.connect(partial(bench.go, "larder"))
        self.view.back_wanted.connect(self.presenter.go_back)
        self.view.print_wanted.connect(self.presenter.print_trace)
        self.view.costs_wanted.connect(partial(bench.go, "costs"))
        self.faces.act_wanted.connect(partial(bench.go, "delivery", ""))
        for name, button in self.view.leads.items():
            button.clicked.connect(partial(bench.go, name, ""))
        self.view.more.clicked.connect(self.presenter.start_anew)
        self.view.save_picture.clicked.connect(self.presenter.save_picture)

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "Where is this from? Where is the rest?",
                "This page answers both for anything with a code, a tag or a name. "
                "The register holds nothing yet: it begins with a delivery.",
                "Take in a delivery",
            )

    def on_scan(self, code: str) -> bool:
        self.open_code(code)
        return True

    def open_code(self, code: str) -> None:
        self.faces.show_page()
        self.presenter.open(code)

    def keyPressEvent(self, event) -> None:
        """P prints what is seen; Backspace goes back."""
        if event.key() == Qt.Key.Key_P and not event.modifiers() and self.view.is_showing_trace:
            self.presenter.print_trace()
        elif event.key() == Qt.Key.Key_Backspace:
            self.presenter.go_back()
        else:
            super().keyPressEvent(event)
