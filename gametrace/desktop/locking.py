"""Locks the window after a time without keys: a page is laid over it, and what is half typed stays beneath.

Only made where somebody has a PIN. Who may come in is the register's to say; here is only the lid.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QShortcut
from PySide6.QtWidgets import QWidget

from gametrace.desktop.who import WhoPage

if TYPE_CHECKING:
    from gametrace.desktop.frame import Window

_HANDS = (QEvent.Type.KeyPress, QEvent.Type.MouseButtonPress, QEvent.Type.TouchBegin, QEvent.Type.Wheel)


class Locking(QObject):
    """The lid over the window's whole inside, which is only put to sleep: hidden pages would begin anew."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window, self._inside = window, window.centralWidget()
        self._lid: WhoPage | None = None
        self._asleep: list[QShortcut] = []
        self._cursor: QWidget | None = None
        self.rest = QTimer(self)
        self.rest.setSingleShot(True)
        self.rest.timeout.connect(self.lock)
        handle = window.windowHandle()
        if handle is not None:  # all hands come by way of it
            handle.installEventFilter(self)
        self._inside.installEventFilter(self)  # the lid is as large as the inside
        self.read_policy()

    @property
    def is_locked(self) -> bool:
        return self._lid is not None

    @property
    def lid(self) -> WhoPage | None:
        return self._lid

    def read_policy(self) -> None:
        """How long it waits is the kitchen's own figure; 0 is for ever."""
        minutes = self._window.bench.ask("policies").lock_minutes
        self.rest.setInterval(minutes * 60_000)
        if minutes:
            self.rest.start()
        else:
            self.rest.stop()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._inside:
            if event.type() in (QEvent.Type.Resize, QEvent.Type.Move) and self._lid is not None:
                self._lid.setGeometry(self._inside.geometry())
        elif event.type() in _HANDS and self.rest.interval():
            self.rest.start()
        return super().eventFilter(watched, event)

    def lock(self, whose: str = "") -> None:
        """Cover the window. Without `whose` only where the one at the keyboard has a PIN to come back by."""
        bench = self._window.bench
        if self.is_locked:
            return
        was = whose or bench.person
        has_pin = any(one.code == was and one.has_pin for one in bench.ask("people"))
        if not has_pin:
            return
        self._cursor = self._window.focusWidget()
        bench.acts.sign_out(bench.register)
        bench.person = ""
        self._asleep = [one for one in self._window.findChildren(QShortcut) if one.isEnabled()]
        for shortcut in self._asleep:
            shortcut.setEnabled(False)
        self._inside.setEnabled(False)
        self._lid = WhoPage(bench, self._window, is_lock=True)
        self._lid.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._lid.chosen.connect(self._open)
        self._lid.setGeometry(self._inside.geometry())
        self._lid.show()
        self._lid.raise_()
        self._lid.setFocus()
        self._lid.choose(was)

    def _open(self, code: str) -> None:
        lid, self._lid = self._lid, None
        assert lid is not None
        self._inside.setEnabled(True)
        lid.hide()
        lid.deleteLater()
        for shortcut in self._asleep:
            shortcut.setEnabled(True)
        self._window.bench.set_person(code)
        if self._cursor is not None:
            self._cursor.setFocus()
