"""The Larder station: not yet built, an empty page with its name."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.station import Station


class LarderStation(Station):
    name = "larder"
    title = "Larder"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, QWidget(), parent)

    def refresh(self) -> None:
        self.faces.show_empty("Larder", "This page is being built.")
