"""Costs and yields: reached from the block for a beast, from the pass for a dish, from a trace for either."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.costs.cost_page import CostPage
from gametrace.desktop.costs.dish_page import DishPage
from gametrace.desktop.costs.money_presenter import DishPresenter, ValuesPresenter
from gametrace.desktop.costs.presenter import CostPresenter, YieldPresenter
from gametrace.desktop.costs.values_page import ValuesPage
from gametrace.desktop.costs.yield_page import YieldPage
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import column, row
from gametrace.desktop.scanning import looks_like_code
from gametrace.desktop.station import Station
from gametrace.domain.errors import Refusal

PAGES = (("cost", "Cost"), ("yields", "Yields"), ("dish", "Dish and price"), ("values", "Values"))
_RECENT = 60


class CostsView(QWidget):
    """Signals: picked(str): a code."""

    picked = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.choice = ChoiceRow(PAGES, value="cost", name="Costs and yields")
        self.other = Button("Choose another", name="Choose another beast or dish")
        self.trace = Button("Trace it")
        self.cost, self.yields = CostPage(look), YieldPage(look)
        self.dish, self.values = DishPage(look), ValuesPage(look)
        self.picks = PickList("Beast or dish")
        self.stack = QStackedWidget()
        for page in (self.cost, self.yields, self.dish, self.values, self.picks):
            self.stack.addWidget(page)
        head = row(self.choice, 1, self.other, self.trace)
        whole = column(head, self.stack, gap=12)
        whole.setStretch(1, 1)
        self.setLayout(whole)
        self.picks.picked.connect(self.picked)

    def show_page(self, name: str) -> None:
        self.choice.set_value(name)
        page = getattr(self, name)
        self.stack.setCurrentWidget(page)
        self.setFocusProxy(page)


class CostsStation(Station):
    """Not on the strip."""

    name = "costs"
    title = "Costs and yields"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = CostsView(bench.look)
        super().__init__(bench, self.page, parent)
        page = self.page
        self.presenters: dict[str, Any] = {
            "cost": CostPresenter(page.cost, bench),
            "yields": YieldPresenter(page.yields, bench),
            "dish": DishPresenter(page.dish, bench),
        }
        self.values = ValuesPresenter(page.values, bench)
        self.codes = {"cost": "", "dish": ""}  # the beast (or joint) and the dish in hand
        self._is_choosing = False
        page.choice.changed.connect(self.show_page)
        page.other.clicked.connect(self.choose)
        page.picked.connect(self.open_code)
        page.trace.clicked.connect(self._trace)
        self.faces.act_wanted.connect(partial(bench.go, "delivery", ""))

    def refresh(self) -> None:
        if not self._take_newest():
            self.faces.show_empty(
                "Costs and yields",
                "Here it is seen what a beast came to and why the loin costs what it costs. Nothing has been "
                "bought yet: it begins with a delivery and its price a kilo.",
                "Take in a delivery",
            )
            return
        if not self._is_choosing:
            self._fill()

    def _take_newest(self) -> bool:
        """What is in hand, or the newest beast cut and the newest dish. False where there is no beast."""
        if not self.codes["dish"]:
            dishes = self.bench.ask("dishes", limit=1)
            self.codes["dish"] = dishes[0].code if dishes else ""
        if not self.codes["cost"]:
            animals = self.bench.ask("deliveries", limit=_RECENT)
            cut = [one for one in animals if not one.lot.grams and one.count == 1]
            animals = cut or list(animals)
            self.codes["cost"] = animals[0].code if animals else ""
        return bool(self.codes["cost"])

    def show_page(self, name: str) -> None:
        self._is_choosing = False
        self.page.show_page(name)
        self.bench.guarded(self._fill)

    def _fill(self) -> None:
        name = self.page.choice.value()
        self.page.trace.setEnabled(name != "values")
        if name == "values":
            self.values.refresh()
            return
        code = self._code()
        if not code:
            self.choose()
            return
        self.presenters[name].show(code)

    def _code(self) -> str:
        return self.codes["dish" if self.page.choice.value() == "dish" else "cost"]

    # -- what is looked at ------------------------------------------------------------------------------

    def choose(self) -> None:
        """Another one, by its name or code."""
        name = self.page.choice.value()
        if name == "dish":
            picks = [Choice(one.code, f"{one.code}   {one.name}") for one in self.bench.ask("dishes")]
        else:
            animals = self.bench.ask("deliveries", limit=_RECENT * 4)
            picks = [Choice(one.code, f"{one.code}   {one.title}, {one.supplier.name}") for one in animals]
        self._is_choosing = True
        self.page.picks.set_choices(picks)
        self.page.stack.setCurrentWidget(self.page.picks)
        self.page.picks.setFocus()

    def open_code(self, code: str) -> None:
        """A dish opens its price, anything else the picture of its cost; a page by its name opens itself."""
        if code in dict(PAGES):
            self.show_page(code)
            return
        self._is_choosing = False
        lot = self.bench.guarded(partial(self.bench.ask, "lot", code))
        if lot is None:
            return
        self.faces.show_page()
        is_dish = lot.kind == "dish"
        self.codes["dish" if is_dish else "cost"] = lot.code
        now = self.page.choice.value()
        self.show_page("dish" if is_dish else now if now in ("cost", "yields") else "cost")
        self.page.setFocus()

    def on_scan(self, code: str) -> bool:
        if not looks_like_code(code):
            return False
        try:
            self.bench.ask("lot", code)
        except Refusal:
            return False
        self.open_code(code)
        return True

    def _trace(self) -> None:
        if code := self._code():
            self.bench.go("trace", code)

    def keyPressEvent(self, event) -> None:
        """1, 2 and 3 switch the way of spreading on the picture of cost."""
        ways = {Qt.Key.Key_1: 1, Qt.Key.Key_2: 2, Qt.Key.Key_3: 3}
        if (
            event.key() in ways
            and not event.modifiers()
            and self.page.stack.currentWidget() is self.page.cost
        ):
            self.presenters["cost"].switch(ways[event.key()])
        else:
            super().keyPressEvent(event)
