"""The Larder station: the stores drawn at the left, the drawer of what was chosen at the right."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QHBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.larder.drawer import Drawer
from gametrace.desktop.larder.presenter import LarderPresenter
from gametrace.desktop.larder.stores_part import StoresPart
from gametrace.desktop.look import Look
from gametrace.desktop.station import Station

NARROW, WIDE, WIDE_FROM = 420, 560, 1600  # px: the drawer, and the page it grows from


class LarderView(QWidget):
    """Stores and drawer."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.stores = StoresPart(look)
        self.drawer = Drawer(look)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(24)
        layout.addWidget(self.stores, 1)
        layout.addWidget(self.drawer)
        self.drawer.setFixedWidth(look.px(NARROW))

    def resizeEvent(self, event) -> None:
        wide = self.width() >= self._look.px(WIDE_FROM)
        self.drawer.setFixedWidth(self._look.px(WIDE if wide else NARROW))
        super().resizeEvent(event)


class LarderStation(Station):
    """F2."""

    name = "larder"
    title = "Larder"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = LarderView(bench.look)
        super().__init__(bench, self.page, parent)
        self.presenter = LarderPresenter(self.page, bench)
        self.faces.act_wanted.connect(partial(bench.go, "setup"))

    def refresh(self) -> None:
        if not self.presenter.refresh():
            self.faces.show_empty(
                "Larder",
                "No store has been written down yet. With its rails, hooks and shelves it is drawn here, and "
                "everything that hangs or lies in it.",
                "Go to Set-up",
            )

    def on_scan(self, code: str) -> bool:
        return self.presenter.scanned(code)

    def open_code(self, code: str) -> None:
        self.presenter.open(code)
