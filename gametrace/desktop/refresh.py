"""Carries what an act changed to everything on screen that may show it. Decides nothing itself."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal


class Refresh(QObject):
    """Signals: changed(object): the Changes of an act just done."""

    changed = Signal(object)

    def tell(self, changes: object) -> None:
        self.changed.emit(changes)
