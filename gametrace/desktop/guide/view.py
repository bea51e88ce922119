"""The guide: which kind of deer, by a key, by look-alikes, by words. Reached from a delivery and back to it.

It says what marks speak for; it never says what an animal is. The person who names it signs for it.
"""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QKeySequence, QShortcut
from PySide6.QtWidgets import QScrollArea, QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.guide.key_page import KeyPage
from gametrace.desktop.guide.kind import GUIDE_KEY, Body
from gametrace.desktop.guide.presenter import GuidePresenter
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station

if TYPE_CHECKING:
    from gametrace.desktop.guide.pairs_page import PairsPage
    from gametrace.desktop.guide.words_page import WordsPage

PAGES = (("key", "Key"), ("pairs", "Look-alikes"), ("words", "Words"))


class GuideView(QWidget):
    """Three pages under one line. Numbers, 0, Backspace, Page up and down, Escape work on all of them.

    Signals: page_wanted(str), leave_wanted(). made(str, page): one of the other pages, the first time.
    """

    page_wanted = Signal(str)
    leave_wanted = Signal()
    made = Signal(str, object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.pages = ChoiceRow(PAGES, value="key", name="Page")
        self.leave = Button("Back  Esc", name="Back to the delivery, Escape or F8")
        self.stack = QStackedWidget()
        head = row(Words("Which kind?", "title", wrap=False), 1, self.pages, self.leave)
        self.setLayout(column(head, self.stack, gap=8))
        self.layout().setStretch(1, 1)
        self.key_page = KeyPage(look)
        self.stack.addWidget(self.key_page)
        self.pages.changed.connect(self.page_wanted)
        self.leave.clicked.connect(self.leave_wanted)
        self._give_room()
        look.changed.connect(self._give_room)
        back = QShortcut(QKeySequence(GUIDE_KEY), self)
        back.activated.connect(self.leave_wanted)
        for keys, pages in (("PgUp", -1), ("PgDown", 1)):  # or the column the hand is in would take them
            turn = QShortcut(QKeySequence(keys), self)
            turn.activated.connect(partial(self._scroll, pages))

    def _give_room(self) -> None:
        """The page chosen is written bold: its button is wide enough for that from the start."""
        bold = QFontMetrics(self._look.font(bold=True))
        for value in self.pages.values():
            button = self.pages.button(value)
            button.setMinimumWidth(bold.horizontalAdvance(button.text()) + self._look.px(40))

    # Made, and read in, when first wanted: the key is there at once.

    @cached_property
    def pairs_page(self) -> PairsPage:
        from gametrace.desktop.guide.pairs_page import PairsPage

        return self._added("pairs", PairsPage(self._look))

    @cached_property
    def words_page(self) -> WordsPage:
        from gametrace.desktop.guide.words_page import WordsPage

        return self._added("words", WordsPage(self._look))

    @property
    def is_words_made(self) -> bool:
        return "words_page" in self.__dict__

    def _added(self, name: str, page):
        self.stack.addWidget(page)
        self.made.emit(name, page)
        return page

    @property
    def shown(self) -> str:
        return self.pages.value()

    def show_page(self, name: str) -> None:
        page = {"key": "key_page", "pairs": "pairs_page", "words": "words_page"}[name]
        self.stack.setCurrentWidget(getattr(self, page))
        self.pages.set_value(name)

    def focus_first(self) -> None:
        """The hand to the first thing to choose on the page on show."""
        if self.shown == "key":
            self.key_page.focus_first()
        else:
            self.stack.currentWidget().setFocus()

    def keyPressEvent(self, event) -> None:
        """Keys that no button took. Printed keys come here only once they are known to be no scan."""
        key = event.key()
        if key == Qt.Key.Key_Escape:
            self.leave_wanted.emit()
        elif self.shown == "key" and key == Qt.Key.Key_Backspace:
            self.key_page.back.emit()
        elif self.shown == "key" and event.text() == "0":
            self.key_page.passed.emit()
        elif not self._numbered(event.text()):
            super().keyPressEvent(event)

    def _numbered(self, text: str) -> bool:
        if not (text.isascii() and text.isdigit()):
            return False
        if self.shown == "key":
            return self.key_page.grid.press(int(text))
        return self.shown == "pairs" and self.pairs_page.press(int(text))

    def _scroll(self, pages: int) -> None:
        """The long part of the page on show, which no field needs to be in."""
        for area in self.stack.currentWidget().findChildren(QScrollArea):
            bar = area.verticalScrollBar()
            bar.setValue(bar.value() + pages * bar.pageStep() * 4 // 5)


class GuideStation(Station):
    """No key on the strip: F8 in a delivery."""

    name = "guide"
    title = "Guide"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = GuideView(bench.look)
        super().__init__(bench, self.page, parent)
        self.presenter = GuidePresenter(self.page, bench)
        self.setFocusProxy(self.page)
        self._is_begun = False

    def showEvent(self, event) -> None:
        super().showEvent(event)
        body = self.bench.handed(self.name)
        if isinstance(body, Body) or not self._is_begun:
            self.presenter.open(body if isinstance(body, Body) else Body())
        self._is_begun = True
        # Later, for nothing takes the focus while it is still being shown.
        QTimer.singleShot(0, self, self.page.focus_first)
