"""The curve of one store with the ways along it: for a hand that has no keyboard, the same as buttons."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.cold.plot import DAY, Plot
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.words import Words, column, row

SPANS = ((DAY, "Day"), (7 * DAY, "Week"), (31 * DAY, "Month"), (366 * DAY, "Year"))


class CurvePage(QWidget):
    """Signals: store_wanted(str)."""

    store_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stores = ChoiceRow([], name="Store")
        self.plot = Plot(look)
        self.summary = Words("", "large")
        self.busy = Words("Reading the temperatures…", "quiet", wrap=False)
        self.busy.hide()
        ways = [
            self._way("Earlier", partial(self.plot.move_by, -0.5)),
            self._way("Later", partial(self.plot.move_by, 0.5)),
            self._way("Closer", partial(self.plot.zoom, 0.5)),
            self._way("Wider", partial(self.plot.zoom, 2.0)),
            *(self._way(words, partial(self.show_last, seconds)) for seconds, words in SPANS),
        ]
        self.ways = {button.text(): button for button in ways}
        self.setLayout(
            column(
                row(self.stores, 1, self.busy),
                self.plot,
                self.summary,
                row(*ways, 1, gap=4),
                gap=8,
            )
        )
        self.stores.changed.connect(self.store_wanted)
        self.plot.moved.connect(self._moved)

    def _way(self, words: str, do) -> Button:
        button = Button(words)
        button.setAutoDefault(True)
        button.clicked.connect(partial(_do, do))
        return button

    def set_stores(self, stores: Sequence[tuple[str, str]], chosen: str) -> None:
        if tuple(code for code, _ in stores) != self.stores.values():
            self.stores.set_choices(stores, chosen)
        self.stores.set_value(chosen)

    def show_last(self, seconds: int) -> None:
        """The newest stretch of that length."""
        end = self.plot.series.last_at
        self.plot.show_span(end - seconds, end)

    def _moved(self) -> None:
        self.summary.say(self.plot.spoken())


def _do(call, _checked: bool = False) -> None:
    """A press says whether the button is checked; the ways along the plot do not ask."""
    call()
