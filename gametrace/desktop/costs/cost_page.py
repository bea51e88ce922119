"""The picture of one beast's cost, with the three ways of spreading it to switch between."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.costs.area_picture import AreaPicture
from gametrace.desktop.costs.bars import CutBar
from gametrace.desktop.costs.share_bars import ShareBars
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row

METHODS = (("weight", "1 by weight"), ("points", "2 by value points"), ("sales value", "3 by sales value"))
DEPTHS = (("joint", "Joints"), ("cut", "Cuts"))


class CostPage(QWidget):
    """Signals: method_wanted(str), depth_wanted(str)."""

    method_wanted = Signal(str)
    depth_wanted = Signal(str)
    moved = Signal(str)  # the key of the cut chosen

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.headline = Words("", "large")
        self.method = ChoiceRow(METHODS, value="weight", name="Spread")
        self.detail = ChoiceRow(DEPTHS, value="joint", name="Show")
        self.picture = AreaPicture(look)
        self.bars = ShareBars(look)
        self.unknown = Words("", "large")
        self.summary = Words("", "large")
        self.test = Words("", "quiet")
        self.notes = Words("", "quiet")
        right = ScrollColumn()
        right.body.setContentsMargins(0, 0, 0, 0)
        right.add(self.bars)
        right.add_stretch()
        right.setFixedWidth(look.px(420))
        self.right = right
        both = row(self.picture, right)
        both.setStretch(0, 1)
        page = column(
            self.headline,
            row(self.method, self.detail, 1),
            both,
            self.unknown,
            self.summary,
            self.test,
            self.notes,
            gap=8,
        )
        page.setStretch(2, 1)
        self.setLayout(page)
        self.setFocusProxy(self.picture)
        self.method.changed.connect(self.method_wanted)
        self.detail.changed.connect(self.depth_wanted)
        self.picture.moved.connect(self._picture_moved)
        self.bars.moved.connect(self._bars_moved)

    def show_bars(self, bars: Sequence[CutBar], bought: Fraction | None, why_unknown: str) -> None:
        """The picture, or why there is none this way."""
        is_known = not why_unknown
        self.picture.setVisible(is_known)
        self.right.setVisible(is_known)
        self.summary.setVisible(is_known)
        self.unknown.setVisible(not is_known)
        self.unknown.say(why_unknown)
        self.picture.set_bars(bars if is_known else (), bought)
        self.bars.set_bars(bars if is_known else (), bought)
        self._say()

    def _picture_moved(self, at: int) -> None:
        if self.bars.chosen != at and at < self.bars.count:
            self.bars.choose(at)
        self._say()

    def _bars_moved(self, at: int) -> None:
        if self.picture.chosen != at and at < len(self.picture.bars):
            self.picture.choose(at)

    def _say(self) -> None:
        bars = self.picture.bars
        self.summary.say(bars[self.picture.chosen].words(self.picture.bought) if bars else "")
        self.moved.emit(bars[self.picture.chosen].key if bars else "")

    def say_test(self, words: str) -> None:
        """A butcher's test of the cut chosen, where one can be made."""
        self.test.say(words)
        self.test.setVisible(bool(words))
