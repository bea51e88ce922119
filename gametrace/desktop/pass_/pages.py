"""The pages of the pass, and the row of words that leads between them.

The dish, the stock and the list of dishes are there from the start; the others are made when first shown.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.pass_.dish import DishPage
from gametrace.desktop.pass_.dishes import DishesPage
from gametrace.desktop.pass_.made import MadePage
from gametrace.desktop.pass_.stock import StockPage

PAGES = (
    ("dish", "Dish"),
    ("stock", "Stock"),
    ("dishes", "Dishes made"),
    ("services", "Services"),
    ("handing", "Issue and supply"),
)
_UNDER = {"made": "dish", "file": "dishes"}  # pages that belong to another's word


class PassView(QWidget):
    """Signals: page_wanted(str). made_page(str): a page was made, to be worked from now on."""

    page_wanted = Signal(str)
    made_page = Signal(str)

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self._today = look, today
        self.dish, self.made = DishPage(look, today), MadePage(look)
        self.stock, self.dishes = StockPage(look, today), DishesPage(look)
        self._pages: dict[str, QWidget] = {
            "dish": self.dish,
            "made": self.made,
            "stock": self.stock,
            "dishes": self.dishes,
        }
        self.stack = QStackedWidget()
        for page in self._pages.values():
            self.stack.addWidget(page)
        self.choice = ChoiceRow(PAGES, value="dish", name="Show")
        keep_width(look, self.choice, 700)
        self.words = Words("", "quiet")
        head = row(self.choice, self.words)
        head.setStretch(1, 1)
        self.setLayout(column(head, self.stack))
        self.layout().setStretch(1, 1)
        self.choice.changed.connect(self.page_wanted)
        self.show_page("dish")

    def page(self) -> str:
        """dish | made | stock | dishes | file | services | handing."""
        return next(name for name, page in self._pages.items() if page is self.stack.currentWidget())

    def has(self, name: str) -> bool:
        return name in self._pages

    def page_of(self, name: str) -> Any:
        """The page of that name, made now where nobody has seen it yet."""
        if name not in self._pages:
            self._pages[name] = self._made(name)
            self.stack.addWidget(self._pages[name])
            self.made_page.emit(name)
        return self._pages[name]

    def _made(self, name: str) -> QWidget:
        if name == "file":
            from gametrace.desktop.pass_.file_page import FilePage

            return FilePage(self._look)
        if name == "services":
            from gametrace.desktop.pass_.services_page import ServicesPage

            return ServicesPage(self._look, self._today)
        from gametrace.desktop.pass_.handing_page import HandingPage

        return HandingPage(self._look, self._today)

    def show_page(self, name: str) -> None:
        page = self.page_of(name)
        self.stack.setCurrentWidget(page)
        self.choice.set_value(_UNDER.get(name, name))
        self.setFocusProxy(page)
