"""What came off: one beast's shares, its left and right, and the larder's beasts in groups."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.costs.sides_plot import SideRow, SidesPlot
from gametrace.desktop.costs.yield_plot import YieldPlot, YieldRow
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.domain.yields import NEWEST

MODES = (
    ("shares", "Shares of the carcass"),
    ("meat", "Meat and bone"),
    ("sides", "Left and right"),
    ("groups", "In groups"),
)
GROUPS = (
    ("supplier", "Supplier"),
    ("age", "Age"),
    ("sex", "Sex"),
    ("species", "Species"),
    ("cutter", "Cutter"),
    ("side", "Side"),
)
REACHES = (("newest", f"Newest {NEWEST}"), ("year", "One year"), ("all", "All years"))


class YieldPage(QWidget):
    """Signals: mode_wanted(str), group_wanted(str), reach_wanted(str), print_wanted()."""

    mode_wanted = Signal(str)
    group_wanted = Signal(str)
    reach_wanted = Signal(str)
    print_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.headline = Words("", "large")
        self.mode = ChoiceRow(MODES, value="shares", name="Yields")
        self.group = ChoiceRow(GROUPS, value="supplier", name="In groups by")
        self.reach = ChoiceRow(REACHES, value="newest", name="Of which animals")
        self.reading = Words("", "quiet")
        self.print_button = Button("Print the yield sheet")
        self.shares, self.meat, self.groups = YieldPlot(look), YieldPlot(look), YieldPlot(look)
        self.sides = SidesPlot(look)
        self._plots: dict[str, YieldPlot | SidesPlot] = {
            "shares": self.shares,
            "meat": self.meat,
            "sides": self.sides,
            "groups": self.groups,
        }
        self.none = Words("", "large")
        self.stack = QStackedWidget()
        self._scrolls = {}
        for name, plot in self._plots.items():
            scroll = ScrollColumn()
            scroll.body.setContentsMargins(0, 0, 0, 0)
            scroll.add(plot)
            scroll.add_stretch()
            scroll.setFocusProxy(plot)
            self._scrolls[name] = scroll
            self.stack.addWidget(scroll)
        self.words = Words("", "large")
        self.notes = Words("", "quiet")
        page = column(
            self.headline,
            row(self.mode, 1, self.print_button),
            row(self.group, self.reach, 1),
            self.reading,
            self.none,
            self.stack,
            self.words,
            self.notes,
            gap=8,
        )
        page.setStretch(5, 100)
        page.addStretch(1)  # where there is no plot the words stay together at the top
        self.setLayout(page)
        self.mode.changed.connect(self.mode_wanted)
        self.group.changed.connect(self.group_wanted)
        self.reach.changed.connect(self.reach_wanted)
        self.print_button.clicked.connect(self.print_wanted)
        for plot in self._plots.values():
            plot.moved.connect(self._say)
        self.show_mode("shares")

    def show_mode(self, name: str) -> None:
        self.mode.set_value(name)
        for only_in_groups in (self.group, self.reach, self.reading):
            only_in_groups.setVisible(name == "groups")
        self.notes.setVisible(name != "groups")  # they are about the one beast
        self.stack.setCurrentWidget(self._scrolls[name])
        self.setFocusProxy(self._plot())
        self._say()

    def set_rows(
        self, shares: Sequence[YieldRow], meat: Sequence[YieldRow], sides: Sequence[SideRow]
    ) -> None:
        self.shares.set_rows(shares)
        self.meat.set_rows(meat)
        self.sides.set_rows(sides)
        self._say()

    def set_groups(self, rows: Sequence[YieldRow]) -> None:
        self.groups.set_rows(rows)
        self._say()

    def _plot(self) -> YieldPlot | SidesPlot:
        return self._plots[self.mode.value()]

    def _say(self, _at: int = 0) -> None:
        plot = self._plot()
        self.stack.setVisible(bool(plot.count))
        self.words.say(plot.spoken(plot.chosen) if plot.count else "")
        self.none.setVisible(not plot.count)
        self.none.say("" if plot.count else _NONE[self.mode.value()])


_NONE = {
    "shares": "Nothing can be said yet: the break-down is not finished.",
    "meat": "No joint has been boned to its end: weigh its meat and its bone out of it.",
    "sides": "Nothing was weighed off both sides: weigh the left and the right of a joint by themselves.",
    "groups": "Nothing to put side by side in this way yet. Cutters are here once a session names them.",
}
