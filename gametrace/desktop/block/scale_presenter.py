"""Joins the scale that is set up, shows what it reads, and puts its weight into the field when asked."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.scale import ScaleLink, ScalePort
from gametrace.desktop.block.scale_line import SCALE_KEY, ScaleLine
from gametrace.desktop.block.scale_page import ScalePage
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.domain.scale_text import ScaleReading

_PORT, _BAUD, _ASKS = SCALE_KEY, "scale_baud", "scale_asks"
ANSWER_MS = 3_000  # how long a scale may take to answer, or to stand still


class ScalePresenter(QObject):
    """`put(grams)` gets a weight that stands still; `refuse(sentence)` why there is none."""

    def __init__(
        self,
        page: ScalePage,
        line: ScaleLine,
        bench: Bench,
        put: Callable[[int], None],
        refuse: Callable[[str], None],
    ) -> None:
        super().__init__(page)
        self.page, self.line, self.bench = page, line, bench
        self._put, self._refuse = put, refuse
        self.link = ScaleLink(self)
        self._wants = False  # a weight was asked for and has not come to rest yet
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(ANSWER_MS)
        self._patience.timeout.connect(self._give_up)
        self.link.read.connect(self._read)
        self.link.lost.connect(self._lost)
        line.take_wanted.connect(self.take)
        line.again_wanted.connect(self.join_kept)
        page.join_wanted.connect(self._join_chosen)
        page.leave_wanted.connect(self._do_without)

    def kept(self) -> ScalePort:
        """The scale this machine was set up with; port '' for none."""
        held = self.bench.settings
        return ScalePort(held.text(_PORT), int(held.number(_BAUD, 9600)), held.text(_ASKS))

    def join_kept(self) -> None:
        """Listen to the scale that is set up, if one is."""
        if (held := self.kept()).port:
            self._join(held)

    def show_page(self) -> None:
        self.page.show_set(self.kept(), _ports())
        self.page.say("" if self.link.joined else "No scale is listened to.", "quiet")

    def close(self) -> None:
        self.link.leave()

    def take(self) -> None:
        """Put the weight that stands still into the field; ask for it, or wait for it, a moment."""
        if self.link.joined is None:
            self._refuse("No scale is listened to. Set it up, or type the weight.")
            return
        if self.link.joined.asks:
            self.link.ask()
        elif (reading := self.link.weight()) is not None:
            self._give(reading)
            return
        self._wants = True
        self._patience.start()

    def _give(self, reading: ScaleReading) -> None:
        self._wants = False
        self._patience.stop()
        if reading.grams <= 0:
            self._refuse(f"The scale shows {kg_to_the_gram(reading.grams)}. Is the tray on it?")
        else:
            self._put(reading.grams)

    def _give_up(self) -> None:
        if self._wants:
            self._wants = False
            self._refuse("The scale does not stand still, or does not answer. Try again, or type the weight.")

    def _read(self, reading: ScaleReading) -> None:
        still = self.link.weight()
        self.line.show_reading(reading, still is not None)
        self.page.say(f"It says {kg_to_the_gram(reading.grams)}.")
        if self._wants and still is not None:
            self._give(still)

    def _lost(self, why: str) -> None:
        self._wants = False
        self._patience.stop()
        self.line.show_lost()
        self._refuse(f"{why} Typing the weight still works.")
        self.page.say(why, "amber")

    def _join_chosen(self) -> None:
        chosen = self.page.chosen()
        if not chosen.port:
            self.page.say("Write the port, for example COM3 or /dev/ttyUSB0.", "amber")
            return
        for key, value in ((_PORT, chosen.port), (_BAUD, chosen.baud), (_ASKS, chosen.asks)):
            self.bench.settings.keep(key, value)
        self.page.say("Listening. Lay something on it.", "quiet")
        self._join(chosen)

    def _join(self, where: ScalePort) -> None:
        self.line.show_joined(on_demand=bool(where.asks))
        self.link.join(where)

    def _do_without(self) -> None:
        self.bench.settings.keep(_PORT, "")
        self.link.leave()
        self.line.hide()
        self.page.say("No scale is listened to.", "quiet")


def _ports() -> list[str]:
    """The serial ports this machine has now."""
    try:
        from serial.tools.list_ports import comports
    except ImportError:
        return []
    return [one.device for one in comports()]
