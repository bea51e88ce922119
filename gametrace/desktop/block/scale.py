"""A scale on a serial port, read off the GUI thread: continuous or on demand, plain ASCII lines.

What a line says is `gametrace.domain.scale_text`'s; this opens the port, keeps the last lines, and says in a
sentence when the scale is gone. Typing a weight never waits for it. pyserial is imported when a port is
first opened.
"""

from __future__ import annotations

import threading
from collections import deque
from contextlib import suppress
from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, Signal

from gametrace.domain.scale_text import LONGEST_LINE, ScaleReading, read_line, settled

BAUDS = (1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)
ASKS = {  # what is sent to ask for one weight; '' for a scale that speaks by itself
    "": "it sends by itself",
    "P\\r\\n": "P and Enter",
    "S\\r\\n": "S and Enter",
    "SI\\r\\n": "SI and Enter",
    "W\\r\\n": "W and Enter",
    "Q\\r\\n": "Q and Enter",
    "\\x05": "ENQ",
}
_WAIT_SECONDS = 0.2  # how long one read waits, and how soon a closed link ends
_KEPT = 5
_ENDS = b"\r\n\x03"


@dataclass(frozen=True, slots=True)
class ScalePort:
    """How a scale is joined. `asks` as typed: '' or, for example, 'P\\r\\n'."""

    port: str
    baud: int = 9600
    asks: str = ""

    @property
    def ask_bytes(self) -> bytes:
        """What is sent, with \\r, \\n and \\x05 read as the characters they name."""
        plain = self.asks.replace("\\r", "\r").replace("\\n", "\n").replace("\\x05", "\x05")
        return plain.encode("ascii", "ignore")


class ScaleLink(QObject):
    """One scale, or none. Signals come on the GUI thread.

    Signals: opened(): the port is open. read(object): a ScaleReading, each time one comes. lost(str): why
    nothing more will come.
    """

    opened = Signal()
    read = Signal(object)
    lost = Signal(str)
    _began = Signal(int)
    _heard = Signal(int, object)
    _ended = Signal(int, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.joined: ScalePort | None = None
        self._last: deque[ScaleReading] = deque(maxlen=_KEPT)
        self._number = 0  # of the link, so that what an old one still says is not taken for the new one's
        self._stop = threading.Event()
        self._ask = threading.Event()
        self._thread: threading.Thread | None = None
        self._began.connect(self._begin, Qt.ConnectionType.QueuedConnection)
        self._heard.connect(self._take, Qt.ConnectionType.QueuedConnection)
        self._ended.connect(self._end, Qt.ConnectionType.QueuedConnection)

    def join(self, where: ScalePort) -> None:
        """Begin to listen there; what was joined before is let go."""
        self.leave()
        self._number += 1
        self.joined = where
        self._stop, self._ask = threading.Event(), threading.Event()
        self._thread = threading.Thread(
            target=self._listen, args=(self._number, where, self._stop, self._ask), name="scale", daemon=True
        )
        self.destroyed.connect(self._stop.set)
        self._thread.start()

    def leave(self) -> None:
        """Let the port go."""
        self._stop.set()
        if self._thread is not None:
            self._thread.join(timeout=2)
        self._thread, self.joined = None, None
        self._last.clear()

    def ask(self) -> None:
        """Ask a scale that speaks on demand for one weight."""
        self._last.clear()
        self._ask.set()

    def weight(self) -> ScaleReading | None:
        """The weight that stands still now; None while it moves or where nothing came."""
        return settled(tuple(self._last))

    # -- in the thread ------------------------------------------------------------------------------------

    def _listen(self, number: int, where: ScalePort, stop: threading.Event, ask: threading.Event) -> None:
        with suppress(RuntimeError):  # the window is gone, and this object with it
            try:
                import serial
            except ImportError:
                self._ended.emit(number, "The part that speaks to scales (pyserial) is not installed.")
                return
            try:
                with serial.Serial(where.port, where.baud, timeout=_WAIT_SECONDS, write_timeout=1) as port:
                    self._began.emit(number)
                    self._follow(number, where, port, stop, ask)
            except (serial.SerialException, OSError, ValueError):
                if not stop.is_set():
                    self._ended.emit(number, f"The scale on {where.port} does not answer: look at its cable.")

    def _follow(self, number: int, where: ScalePort, port, stop, ask) -> None:
        held = b""
        is_whole = bool(where.asks)  # a scale that speaks by itself may be in the middle of a line
        while not stop.is_set():
            if ask.is_set() and where.ask_bytes:
                ask.clear()
                port.write(where.ask_bytes)
            held += port.read(max(1, port.in_waiting))
            *lines, held = _split(held)
            if lines and not is_whole:
                is_whole = True
                lines = lines[1:]
            for line in lines:
                if (reading := read_line(line)) is not None:
                    self._heard.emit(number, reading)
            held = held[-2 * LONGEST_LINE :]  # noise without an end is not kept

    # -- on the GUI thread --------------------------------------------------------------------------------

    def _begin(self, number: int) -> None:
        if number == self._number and self.joined is not None:
            self.opened.emit()

    def _take(self, number: int, reading: ScaleReading) -> None:
        if number == self._number and self.joined is not None:
            self._last.append(reading)
            self.read.emit(reading)

    def _end(self, number: int, why: str) -> None:
        if number == self._number and self.joined is not None:
            self.joined = None
            self._last.clear()
            self.lost.emit(why)


def _split(held: bytes) -> list[bytes]:
    """Whole lines, and what has no end yet as the last."""
    for end in _ENDS[1:]:
        held = held.replace(bytes([end]), _ENDS[:1])
    return held.split(_ENDS[:1])
