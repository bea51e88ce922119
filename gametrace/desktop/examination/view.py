"""The examination: one animal looked at, stopped, answered by the laboratory, decided again.

Reached from Delivery, the Larder and Today, and by a scan while it is shown; it is not on the strip.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.boar_page import BoarPage
from gametrace.desktop.examination.look_page import SCROLLS_OVER, LookPage
from gametrace.desktop.examination.presenter import ExaminationPresenter
from gametrace.desktop.examination.second_page import SecondPage
from gametrace.desktop.examination.stop_page import StopPage
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station

LOOK, LABORATORY, SECOND = "look", "laboratory", "second"
PAGES = ((LOOK, "Look"), (SECOND, "Decision, claim"))
BOAR_PAGES = ((LOOK, "Look"), (LABORATORY, "Laboratory"), (SECOND, "Decision, claim"))

WHICH = "Which animal is looked at? Choose it, or scan its tag."
NONE_HERE = "No animal is in the house. Take one in at Delivery (F1), then examine it here."


class ExaminationView(QWidget):
    """Signals: page_wanted(str), stop_wanted(), larder_wanted(), animal_chosen(str)."""

    page_wanted = Signal(str)
    stop_wanted = Signal()
    larder_wanted = Signal()
    animal_chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.code = Words("", "title", wrap=False)
        self.title = Words("", "large")
        self.sign = StateSign(look, wrap=False)
        self.pages_row = ChoiceRow(PAGES, value=LOOK, name="Page")
        self.stop = Button("The stop page")
        self.larder = Button("Larder", name="To the larder")
        self.look_page = LookPage(look)
        self.stop_page = StopPage(look)
        self.boar_page = BoarPage(look)
        self.second_page = SecondPage(look)
        self.animals = PickList("Animals in the house")
        self.which = Words("", "large")
        choosing = QWidget()
        choosing.setLayout(column(self.which, self.animals))
        choosing.layout().setStretch(1, 1)
        choosing.setFocusProxy(self.animals)
        self._choosing = choosing
        self._by_name = {
            LOOK: self.look_page,
            LABORATORY: self.boar_page,
            SECOND: self.second_page,
            "stop": self.stop_page,
            "": choosing,
        }
        self.stack = QStackedWidget()
        for page in self._by_name.values():
            self.stack.addWidget(page)
        self.head = QWidget()
        marked = row(self.code, self.sign, gap=16)
        marked.setAlignment(self.sign, Qt.AlignmentFlag.AlignVCenter)
        is_large = look.scale > SCROLLS_OVER
        named = column(marked, self.title, gap=0) if is_large else row(marked, self.title, gap=16)
        named.setStretch(1, 1)
        line = row(named, self.pages_row, self.stop, self.larder, gap=16)
        line.setStretch(0, 1)
        self.head.setLayout(line)
        self.setLayout(column(self.head, self.stack, gap=8))
        self.layout().setStretch(1, 1)
        self._give_room()
        look.changed.connect(self._give_room)
        self.pages_row.changed.connect(self.page_wanted)
        self.stop.clicked.connect(self.stop_wanted)
        self.larder.clicked.connect(self.larder_wanted)
        self.animals.picked.connect(self.animal_chosen)
        for button in (self.stop, self.larder):
            button.setAutoDefault(True)

    def _give_room(self) -> None:
        """The page chosen is written bold: its button is made wide enough for that from the start."""
        bold = QFontMetrics(self._look.font(bold=True))
        for value in self.pages_row.values():
            button = self.pages_row.button(value)
            button.setMinimumWidth(bold.horizontalAdvance(button.text()) + self._look.px(40))

    @property
    def shown(self) -> str:
        """The page on show: look, laboratory, second, stop, or '' for the choosing of an animal."""
        current = self.stack.currentWidget()
        return next(name for name, page in self._by_name.items() if page is current)

    def show_page(self, name: str) -> None:
        """The stop page and the choosing stand alone, without the head over them."""
        self.stack.setCurrentWidget(self._by_name[name])
        self.head.setVisible(name in (LOOK, LABORATORY, SECOND))
        self.setFocusProxy(self._by_name[name])
        if name in self.pages_row.values():
            self.pages_row.set_value(name)

    def show_animal(self, *, code: str, title: str, state: str, why: str, days: int | None) -> None:
        self.code.say(code)
        self.title.say(title)
        self.sign.set_state(state, "", days)
        self.sign.setToolTip(why)

    def show_pages(self, *, with_laboratory: bool, with_stop: bool) -> None:
        wanted = BOAR_PAGES if with_laboratory else PAGES
        if self.pages_row.values() != tuple(value for value, _ in wanted):
            self.pages_row.set_choices(wanted, self.pages_row.value())
            self._give_room()
        self.stop.setVisible(with_stop)

    def show_animals(self, choices: Sequence[Choice]) -> None:
        self.animals.set_choices(choices)
        self.animals.begin()
        self.animals.setVisible(bool(choices))
        self.which.say(WHICH if choices else NONE_HERE)


class ExaminationStation(Station):
    """No key of its own."""

    name = "examination"
    title = "Examination"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = ExaminationView(bench.look)
        super().__init__(bench, self.page, parent)
        self.presenter = ExaminationPresenter(self.page, bench)
        self.setFocusProxy(self.page)

    def refresh(self) -> None:
        self.presenter.refresh()

    def on_scan(self, code: str) -> bool:
        return self.presenter.scanned(code)

    def open_code(self, code: str) -> None:
        self.presenter.open(code, "")

    def open_page(self, code: str, page: str) -> None:
        self.presenter.open(code, page)

    def set_person(self, code: str) -> None:
        self.presenter.laboratory.say_person()
