"""Hears what other stations wrote, and lets the file settle once nobody acts here."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

from PySide6.QtCore import QObject, QTimer

from gametrace.desktop.bench import Bench
from gametrace.domain.errors import Trouble

SETTLE_MS = 3_000
LISTEN_MS = 500  # another station's act is seen here within a second


class Listening(QObject):
    """Made by the window for the register it has open."""

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._watch: Any = None
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLE_MS)
        self._settling.timeout.connect(self._settle)
        self._listening = QTimer(self)
        self._listening.setInterval(LISTEN_MS)
        self._listening.timeout.connect(self._listen)

    def start(self) -> None:
        self._watch = self._bench.guarded(self._bench.register.watch)
        self._listening.start()

    def act_was_done(self) -> None:
        self._settling.start()

    def stop(self) -> None:
        self._settling.stop()
        self._listening.stop()
        if self._watch is not None:
            self._watch.close()
            self._watch = None

    def _listen(self) -> None:
        """Show what other stations wrote; what is half typed here stays."""
        with suppress(Trouble):  # the next act will say that the server is away
            if self._watch is not None and self._watch.has_heard() and self._bench.look_for_others():
                self._bench.refresh.tell(None)

    def _settle(self) -> None:
        """Once nobody acts the file alone holds everything, for whoever copies it meanwhile."""
        with suppress(Trouble):  # it is on disk all the same, and taken over at the next chance
            self._bench.register.settle()
