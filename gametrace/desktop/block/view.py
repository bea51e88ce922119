"""The Block station: one lot after another is weighed out, packed, and joined to mince."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.pages import BlockView
from gametrace.desktop.block.presenter import BlockPresenter
from gametrace.desktop.scanning import looks_like_code
from gametrace.desktop.station import Station


class BlockStation(Station):
    name = "block"
    title = "Block"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = BlockView(bench.look, bench.today)
        super().__init__(bench, self.page, parent)
        self.presenter = BlockPresenter(self.page, bench)
        self.setFocusProxy(self.page)
        self.faces.act_wanted.connect(self._to_larder)

    def showEvent(self, event) -> None:
        """The hand is on the page at once; coming back, it is where it was."""
        super().showEvent(event)
        if self.focusWidget() is None:
            self.page.setFocus()

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "Block",
                "Here a carcass is weighed out: joints, cuts, trim, bone and waste; what is missing stays in "
                "sight. Nothing lies ready: a carcass comes to the block once it is skinned in the larder.",
                "To the larder",
            )

    def on_scan(self, code: str) -> bool:
        if not looks_like_code(code):
            return False
        if self.page.page() == "mixing":
            self.presenter.mixing.add(code)
            return True
        if self.page.page() == "packing":
            self.presenter.show_packing(code)
            return True
        if not self.presenter.knows(code):
            return False
        self.presenter.open(code)
        return True

    def open_code(self, code: str) -> None:
        self.faces.show_page()
        self.presenter.open(code)

    def _to_larder(self) -> None:
        self.bench.go("larder")
