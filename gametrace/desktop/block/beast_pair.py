"""Both sides of the beast: the one in hand large, the other beside it; alike where there is room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.block.beast import Beast
from gametrace.desktop.block.products import Weighed
from gametrace.desktop.look import Look
from gametrace.desktop.parts.words import Words

_NOTHING = Weighed(frozenset(), frozenset())
WIDE = 480  # from here on both are drawn alike
LABEL = 26


class BeastPair(QWidget):
    """Lays its two beasts out by hand; they tell themselves what is pressed."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.beast, self.other = Beast(look, "left", self), Beast(look, "right", self)
        self.other.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.words = Words("", "strong", wrap=False, parent=self)
        self.other_words = Words("", "quiet", wrap=False, parent=self)
        for words in (self.words, self.other_words):
            words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self._arrange)

    def show_sides(self, side: str, weighed: dict[str, Weighed], part: str, *, is_both: bool) -> None:
        """The side in hand, what is weighed of each, and the part meant, on both where no side is chosen."""
        away = "right" if side == "left" else "left"
        self.beast.show_side(side, weighed.get(side, _NOTHING), part)
        self.other.show_side(away, weighed.get(away, _NOTHING), part if is_both else "")
        self.words.say(f"{side} side")
        self.other_words.say(f"{away} side")

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(250), self._look.px(112))

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        wide, high, label = self.width(), self.height(), self._look.px(LABEL)
        is_wide = wide >= self._look.px(WIDE)
        aside = wide // 2 if is_wide else wide // 3
        low = high - label if is_wide else min(aside, high - label)
        self.words.setGeometry(0, 0, wide - aside, label)
        self.beast.setGeometry(0, label, wide - aside, high - label)
        self.other_words.setGeometry(wide - aside, high - low - label, aside, label)
        self.other.setGeometry(wide - aside, high - low, aside, low)
