"""The page on which a part or a mix on the block is frozen, thawed, packed again or dated."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtWidgets import QWidget

from gametrace.desktop.keeping.form import KeepingForm
from gametrace.desktop.look import Look
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import row


class KeepingPage(QWidget):
    """The form in the middle of the page, as wide as a hand reaches."""

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.form = KeepingForm(today)
        roll = ScrollColumn()
        roll.add(self.form)
        keep_width(look, roll, 560)
        self.setLayout(row(1, roll, 1))
        self.setFocusProxy(self.form)
