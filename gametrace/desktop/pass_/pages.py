"""The pages of the pass: the dish, the stock, the dishes made; a row of words leads between them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

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

PAGES = (("dish", "Dish"), ("stock", "Stock"), ("dishes", "Dishes made"))


class PassView(QWidget):
    """Signals: page_wanted(str)."""

    page_wanted = Signal(str)

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.dish, self.made = DishPage(look, today), MadePage(look)
        self.stock, self.dishes = StockPage(look, today), DishesPage(look)
        self._pages = {"dish": self.dish, "made": self.made, "stock": self.stock, "dishes": self.dishes}
        self.stack = QStackedWidget()
        for page in self._pages.values():
            self.stack.addWidget(page)
        self.choice = ChoiceRow(PAGES, value="dish", name="Show")
        keep_width(look, self.choice, 420)
        self.words = Words("", "quiet")
        head = row(self.choice, self.words)
        head.setStretch(1, 1)
        self.setLayout(column(head, self.stack))
        self.layout().setStretch(1, 1)
        self.choice.changed.connect(self.page_wanted)
        self.show_page("dish")

    def page(self) -> str:
        """dish | made | stock | dishes."""
        return next(name for name, page in self._pages.items() if page is self.stack.currentWidget())

    def show_page(self, name: str) -> None:
        self.stack.setCurrentWidget(self._pages[name])
        self.choice.set_value("dish" if name == "made" else name)
        self.setFocusProxy(self._pages[name])
