"""The Trace station: not yet built, an empty page with its name."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.station import Station


class TraceStation(Station):
    name = "trace"
    title = "Trace"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, QWidget(), parent)

    def refresh(self) -> None:
        self.faces.show_empty("Trace", "This page is being built.")
