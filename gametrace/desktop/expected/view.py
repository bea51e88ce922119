"""The station of what is expected: a form at the left, what is to come and its hooks at the right."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.expected.coming_list import ComingList, HookTable
from gametrace.desktop.expected.entry_form import EntryForm
from gametrace.desktop.expected.presenter import ExpectedPresenter
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART


class ExpectedView(QWidget):
    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = Button("Back to the larder")
        self.form = EntryForm(bench.today)
        self.coming = ComingList()
        self.hooks = HookTable()
        left, right = ScrollColumn(), ScrollColumn()
        left.add(self.form)
        left.add_stretch()
        right.add(self.coming)
        right.add(self.hooks)
        right.add_stretch()
        sides = row(left, right, gap=APART)
        sides.setStretch(0, 4)
        sides.setStretch(1, 5)
        self.setLayout(column(row(self.back, 1), sides, gap=8))
        self.setFocusProxy(self.form)


class ExpectedStation(Station):
    """Not on the strip: the larder and the page of the day lead here."""

    name = "expected"
    title = "Expected"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = ExpectedView(bench)
        super().__init__(bench, self.page, parent)
        self.presenter = ExpectedPresenter(self.page, bench)
        self.page.back.clicked.connect(partial(bench.go, "larder", ""))
        self.faces.act_wanted.connect(partial(bench.go, "setup", "suppliers"))

    def refresh(self) -> None:
        if not self.bench.ask("suppliers"):
            self.faces.show_empty(
                "Expected",
                "What suppliers announce is written down here, and held against the free hooks. The register "
                "knows no supplier yet.",
                "Go to Set-up",
            )
            return
        self.presenter.refresh()

    def open_code(self, code: str) -> None:
        self.presenter.open(code)
