"""The scale beside the weight: what it reads now, whether it stands still, and one key to take it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, set_role
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.domain.scale_text import ScaleReading

SCALE_KEY = "scale_port"  # in the settings: the port of the scale this machine listens to; '' for none
TAKE, AGAIN = "Take it", "Try again"


class ScaleLine(QWidget):
    """Hidden until a scale is joined.

    Signals: take_wanted(). again_wanted(): join it once more.
    """

    take_wanted = Signal()
    again_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = Words("", "quiet")
        self.key = Button(TAKE, name="Take the weight from the scale")
        keep_width(look, self, 132)
        self.setLayout(column(1, self.words, self.key, 1, gap=4))
        self.key.clicked.connect(self._pressed)
        self.hide()

    def show_joined(self, *, on_demand: bool) -> None:
        self._say("scale: ask it" if on_demand else "scale: listening", "quiet", TAKE)

    def show_reading(self, reading: ScaleReading, is_still: bool) -> None:
        told = "still" if is_still else "moving"
        self._say(f"{kg_to_the_gram(reading.grams)}, {told}", "steel" if is_still else "quiet", TAKE)

    def show_lost(self) -> None:
        self._say("scale gone", "amber", AGAIN)

    def _say(self, words: str, role: str, key: str) -> None:
        self.words.say(words)
        set_role(self.words, role)
        self.key.setText(key)
        names = {TAKE: "Take the weight from the scale", AGAIN: "Join the scale again"}
        self.key.setAccessibleName(names[key])
        self.show()

    def _pressed(self) -> None:
        (self.take_wanted if self.key.text() == TAKE else self.again_wanted).emit()
