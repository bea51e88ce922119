"""Between the page of stocks and the register, and the settings of this machine."""

from __future__ import annotations

from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.paper import choices
from gametrace.desktop.paper.labels_presenter import stock_words
from gametrace.desktop.paper.stocks_page import StocksPage
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal

_KEYS = {"right": choices.RIGHT_KEY, "down": choices.DOWN_KEY}


class StocksPresenter:
    """The chosen stock is a pattern to begin with; what is typed is kept under the name it is given."""

    def __init__(self, page: StocksPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self._own: frozenset[str] = frozenset()
        page.chosen.connect(self.choose)
        page.keep_wanted.connect(self.keep)
        page.drop_wanted.connect(self.drop)
        page.grid_wanted.connect(self.grid)
        page.moved.connect(self.keep_moves)

    def refresh(self) -> None:
        """The list as it is now; what is typed stays."""
        self._own = frozenset(one.name for one in self.bench.ask("label_stocks"))
        known = choices.stocks(self.bench)
        was = self.page.list.value()
        self.page.list.set_choices([Choice(name, stock_words(stock)) for name, stock in known.items()])
        if not was:
            kept = choices.chosen_stock(self.bench).name
            self.page.list.set_value(kept)
            self.choose(kept)
            for name, key in _KEYS.items():
                self.page.moves[name].inner.set_value(int(self.bench.settings.number(key, 0)) or None)

    def choose(self, name: str) -> None:
        stock = choices.stocks(self.bench).get(name)
        if stock is not None:
            is_own = name in self._own
            self.page.show_stock(stock, name if is_own else "", is_own=is_own)

    def _typed(self) -> Any:
        from gametrace.domain.label_stock import LabelStock, check_stock

        return check_stock(LabelStock(**self.page.typed()))

    def keep(self) -> None:
        self.page.clear_refusals()
        try:
            stock = self._typed()
        except Refusal as refusal:
            self.page.refuse(refusal)
            return
        done = self.bench.attempt("keep_label_stock", on_refusal=self.page.refuse, stock=stock)
        if done is not None:
            self.bench.settings.keep(choices.STOCK_KEY, stock.name)
            self.page.list.set_value(stock.name)
            self.choose(stock.name)
            self.page.kept.emit(stock.name)
            self.page.loud.done(f"“{stock.name}” is kept for the house, and is what this machine prints on.")

    def drop(self) -> None:
        self.page.clear_refusals()
        name = self.page.list.value()
        done = self.bench.attempt("drop_label_stock", on_refusal=self.page.refuse, name=name)
        if done is not None:
            self.page.loud.done(f"“{name}” is off the list.")

    def grid(self) -> None:
        from gametrace.documents.label_grid import grid_pdf

        self.page.clear_refusals()
        self.keep_moves()
        try:
            stock = choices.moved(self.bench, self._typed())
        except Refusal as refusal:
            self.page.refuse(refusal)
            return
        name = stock.name or "new-stock"
        self.bench.to_paper(partial(grid_pdf, stock), f"test-print-{name}.pdf", "The test print:")

    def keep_moves(self) -> None:
        """How far off this machine's printer feeds, where it can be read."""
        for name, key in _KEYS.items():
            try:
                self.bench.settings.keep(key, self.page.moves[name].inner.value() or 0)
            except Refusal:
                continue  # said at the field
