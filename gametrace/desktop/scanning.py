"""Tells a scanner that types from a person who types, whichever widget has the focus.

A scanner sends its letters no more than some 35 ms apart and ends with Enter. So each printed key is held
back for that long: if the next one comes in time the two are held together, and six or more ended by Enter
are a scan. If no more comes it was a person, and what was held goes on to where it was meant, in order and
with nothing lost. A key repeated by the keyboard itself is never a scanner.

Times are those the keys were struck at, not when the program came round to them: after a busy moment a
person's keys arrive all at once and must not pass for a scan.

This module knows nothing of lots; `frame` decides where a scan goes.
"""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from dataclasses import dataclass

import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QWidget

GAP_MS = 35
LEAST_LENGTH = 6
MOST_LENGTH = 200
SAME_SCAN_MS = 1000

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_SHIFTS = (
    Qt.Key.Key_Shift,
    Qt.Key.Key_CapsLock,
    Qt.Key.Key_NumLock,
    Qt.Key.Key_AltGr,
    Qt.Key.Key_Mode_switch,
)
_COMMANDS = (
    Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
)
_FLUSHING = (
    QEvent.Type.MouseButtonPress,
    QEvent.Type.TouchBegin,
    QEvent.Type.InputMethod,
    QEvent.Type.ApplicationDeactivate,
)


@dataclass(frozen=True, slots=True)
class _Held:
    """One key event kept back, enough to send it again."""

    kind: QEvent.Type
    key: int
    modifiers: Qt.KeyboardModifier
    text: str

    def again(self) -> QKeyEvent:
        return QKeyEvent(self.kind, self.key, self.modifiers, self.text)


def struck_at(event: QKeyEvent) -> int:
    """When the key was struck, in milliseconds; the time of processing where the platform does not say."""
    return event.timestamp() or time.monotonic_ns() // 1_000_000


def is_printed(event: QKeyEvent) -> bool:
    """A key that puts one visible character on paper, without Ctrl, Alt or Meta."""
    text = event.text()
    return len(text) == 1 and text.isprintable() and not event.modifiers() & _COMMANDS


class Scanning(QObject):
    """The watcher over all keys of the program. Install with `start`.

    Signals: scanned(str): a scan, without its Enter.
    """

    scanned = Signal(str)

    def __init__(
        self,
        parent: QObject | None = None,
        *,
        gap_ms: int = GAP_MS,
        stamp: Callable[[QKeyEvent], int] = struck_at,
    ) -> None:
        super().__init__(parent)
        self._gap_ms = gap_ms
        self._stamp = stamp
        self._held: list[_Held] = []
        self._receiver: QWidget | None = None
        self._last_at = 0
        self._is_sending = False
        self._eaten_release = 0
        self._last_scan: tuple[str, int] = ("", -SAME_SCAN_MS - 1)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._gap_is_over)
        # Keys already queued by the system are looked at once more before the burst is given up.
        self._second_look = QTimer(self)
        self._second_look.setSingleShot(True)
        self._second_look.setInterval(0)
        self._second_look.timeout.connect(self.flush)

    def start(self) -> None:
        app = QCoreApplication.instance()
        if app is not None:
            app.installEventFilter(self)

    def stop(self) -> None:
        self.flush()
        app = QCoreApplication.instance()
        if app is not None:
            app.removeEventFilter(self)

    @property
    def held_text(self) -> str:
        """What is held back just now."""
        return "".join(held.text for held in self._held if held.kind == QEvent.Type.KeyPress)

    def flush(self) -> None:
        """It was a person: send on what was held, to where it was meant."""
        self._timer.stop()
        self._second_look.stop()
        held, self._held = self._held, []
        receiver, self._receiver = self._receiver, None
        if not held or receiver is None or not shiboken6.isValid(receiver):
            return
        self._is_sending = True
        try:
            for one in held:
                if shiboken6.isValid(receiver):
                    QCoreApplication.sendEvent(receiver, one.again())
        finally:
            self._is_sending = False

    # -- what Qt calls ----------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind in _FLUSHING and self._held:
            self.flush()
            return False
        if self._is_sending or kind not in (
            QEvent.Type.KeyPress,
            QEvent.Type.KeyRelease,
            QEvent.Type.ShortcutOverride,
        ):
            return False
        if not isinstance(watched, QWidget) or not isinstance(event, QKeyEvent):
            return False
        if not self._is_first_receiver(watched):
            return False
        if kind == QEvent.Type.KeyPress:
            return self._key_pressed(watched, event)
        if kind == QEvent.Type.KeyRelease:
            return self._key_released(event)
        return self._shortcut_offered(event)

    # -- one key ----------------------------------------------------------------------------------------

    def _is_first_receiver(self, watched: QWidget) -> bool:
        """An ignored key climbs to the parents: only its first stop counts. A popup keeps its keys."""
        if QApplication.activePopupWidget() is not None:
            return False
        focus = QApplication.focusWidget()
        return watched is focus if focus is not None else watched.isWindow()

    def _key_pressed(self, receiver: QWidget, event: QKeyEvent) -> bool:
        if event.key() in _SHIFTS:
            return False
        at = self._stamp(event)
        if self._held and (at - self._last_at > self._gap_ms or event.isAutoRepeat()):
            self.flush()
        if event.key() in _ENTER:
            return self._entered(event, at)
        if event.isAutoRepeat() or not is_printed(event) or len(self._held) >= 2 * MOST_LENGTH:
            self.flush()
            return False
        if not self._held:
            self._receiver = receiver
        self._held.append(_Held(event.type(), event.key(), event.modifiers(), event.text()))
        self._last_at = at
        self._second_look.stop()
        self._timer.start(self._gap_ms)
        return True

    def _entered(self, event: QKeyEvent, at: int) -> bool:
        text = self.held_text
        if len(text.strip()) < LEAST_LENGTH:
            self.flush()
            return False
        self._timer.stop()
        self._second_look.stop()
        receiver = self._receiver
        scan, self._held, self._receiver = self._held, [], None
        self._eaten_release = event.key()
        if not self.is_repeat(text, at) and not self._typed_into_field(text, receiver, scan):
            self.scanned.emit(text.strip())
        return True

    def _typed_into_field(self, text: str, receiver: QWidget | None, scan: list[_Held]) -> bool:
        """A scan that is no code of ours (a supplier's tag) belongs in the text field that has the focus."""
        if looks_like_code(text) or receiver is None or not takes_text(receiver):
            return False
        self._held, self._receiver = scan, receiver
        self.flush()
        return True

    def _key_released(self, event: QKeyEvent) -> bool:
        if event.key() in _ENTER and event.key() == self._eaten_release:
            self._eaten_release = 0
            return True
        if self._held and any(held.key == event.key() for held in self._held):
            self._held.append(_Held(event.type(), event.key(), event.modifiers(), event.text()))
            return True
        return False

    def _shortcut_offered(self, event: QKeyEvent) -> bool:
        """Printed keys are never shortcuts, or a scan would set them off before its first key is seen."""
        is_end_of_scan = event.key() in _ENTER and len(self.held_text) >= LEAST_LENGTH
        if is_printed(event) or is_end_of_scan:
            event.accept()
            return True
        return False

    def _gap_is_over(self) -> None:
        self._second_look.start()

    def is_repeat(self, text: str, at: int) -> bool:
        """The same scan again within a second; a trembling hand, not a second thing."""
        last, last_at = self._last_scan
        self._last_scan = (text.strip(), at)
        return text.strip() == last and at - last_at < SAME_SCAN_MS


def takes_text(widget: QWidget) -> bool:
    """A field a scanned tag number may be typed into. The scan field of the frame is not one of them."""
    if isinstance(widget, QLineEdit):
        return not widget.isReadOnly() and widget.property("role") not in ("scan", "weight", "figure")
    return isinstance(widget, QPlainTextEdit) and not widget.isReadOnly()


def looks_like_code(text: str) -> bool:
    """Has the shape of a lot code, '26-00417-K' or '2600417K'. Whether it fits is the register's to say."""
    plain = text.strip().replace("-", "").replace(" ", "")
    return re.fullmatch(r"[0-9]{7,11}[0-9A-Za-z*]", plain) is not None
