"""A weight in other dressing states, as ranges with their source: shown and thrown away."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.words import Words, clear, column
from gametrace.domain.conversions import Estimate
from gametrace.domain.findings import rests_on

NOTHING = "No factor measured on this animal in this dressing state is held, so nothing is estimated."


class Estimates(QWidget):
    """One paragraph an estimate. None of it is recorded."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines = column(gap=8)
        self.setLayout(self._lines)
        self._shown: object = None

    def show_them(self, found: tuple[tuple[str, Estimate], ...]) -> None:
        if found == self._shown:
            return
        self._shown = found
        clear(self._lines)
        if not found:
            self.layout().addWidget(Words(NOTHING, "quiet"))
        for _, one in found:
            self.layout().addWidget(Words(one.words))
            self.layout().addWidget(Words(rests_on(one.source, one.status), "quiet"))

    def words(self) -> str:
        """All that is on show."""
        labels = (self.layout().itemAt(at).widget() for at in range(self.layout().count()))
        return "\n".join(label.text() for label in labels if isinstance(label, Words))
