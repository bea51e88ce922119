"""The scale as one line over the weight: what it reads now, whether it stands still, and a key to take it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, row, set_role
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.domain.scale_text import ScaleReading


class ScaleLine(QWidget):
    """Hidden until a scale is joined.

    Signals: take_wanted(). again_wanted(): join it once more. set_up_wanted().
    """

    take_wanted = Signal()
    again_wanted = Signal()
    set_up_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = Words("", "large")
        self.take = Button("Take it", name="Take the weight from the scale")
        self.again = Button("Try again", name="Join the scale again")
        self.set_up = Button("Set up", name="Set the scale up")
        line = row(self.words, self.take, self.again, self.set_up, gap=8)
        line.setStretch(0, 1)
        self.setLayout(line)
        self.take.clicked.connect(self.take_wanted)
        self.again.clicked.connect(self.again_wanted)
        self.set_up.clicked.connect(self.set_up_wanted)
        self.hide()

    def show_joined(self, port: str, *, on_demand: bool) -> None:
        self._say(f"Scale on {port}: {'it is asked when you take it' if on_demand else 'listening'}", "quiet")
        self.take.show()
        self.again.hide()

    def show_reading(self, reading: ScaleReading, is_still: bool) -> None:
        told = "stands still" if is_still else "moves"
        self._say(f"Scale: {kg_to_the_gram(reading.grams)}, {told}", "large" if is_still else "quiet")

    def show_lost(self, sentence: str) -> None:
        self._say(f"{sentence} Typing the weight still works.", "amber")
        self.take.hide()
        self.again.show()

    def _say(self, words: str, role: str) -> None:
        self.words.say(words)
        set_role(self.words, role)
        self.show()
