"""The Pass station: dishes from scanned packs, the stock by use-first, and the dishes made."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.pass_.pages import PassView
from gametrace.desktop.pass_.presenter import PassPresenter
from gametrace.desktop.scanning import looks_like_code
from gametrace.desktop.station import Station


class PassStation(Station):
    name = "pass"
    title = "Pass"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = PassView(bench.look, bench.today)
        super().__init__(bench, self.page, parent)
        self.presenter = PassPresenter(self.page, bench)
        self.setFocusProxy(self.page)
        self.faces.act_wanted.connect(self._to_block)

    def showEvent(self, event) -> None:
        """The hand is on the page at once; coming back, it is where it was."""
        super().showEvent(event)
        if self.focusWidget() is None:
            self.page.setFocus()

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "Pass",
                "Here packs become a dish for a service or a class, and each plate stays joined to its "
                "animals. Nothing is packed yet: packs come from the block.",
                "To the block",
            )

    def on_scan(self, code: str) -> bool:
        if not looks_like_code(code):
            return False
        self.faces.show_page()
        self.presenter.scanned(code)
        return True

    def open_code(self, code: str) -> None:
        """Today sends a pack here that is due, or past its date: it is shown in the stock. A dish opens."""
        if self.presenter.opens(code):
            return
        self.presenter.show_page("stock")
        self.page.stock.search.clear()
        self.page.stock.table.choose_id(code)

    def _to_block(self) -> None:
        self.bench.go("block")
