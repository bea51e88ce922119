"""Offers to tick off what a supplier had announced, once a body of theirs has been taken in."""

from __future__ import annotations

import uuid

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.done_page import DonePage
from gametrace.desktop.parts.days import weekday_text


class Announced(QObject):
    """One page of what was done, one bench."""

    def __init__(self, page: DonePage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._code = self._expected = ""
        page.tick_wanted.connect(self.tick)

    def offer(self, code: str) -> None:
        """The expectation this body fits best, if there is one."""
        match = self.bench.ask("expected_match", code)
        self._code, self._expected = code, match.code if match else ""
        if match is None:
            self.page.offer_tick("")
            return
        left = f", {match.left} still to come" if match.came else ""
        self.page.offer_tick(f"Expected for {weekday_text(match.on)}: {match.words}{left}.")

    def tick(self) -> None:
        done = self.bench.attempt(
            "tick_expected", expected=self._expected, code=self._code, key=uuid.uuid4().hex
        )
        if done is None:
            return
        found = self.bench.ask("expected_deliveries")
        left = next((one.left for one in found if one.code == self._expected), 0)
        words = f"Ticked off; {left} still to come." if left else "Ticked off: all that was expected is in."
        self.page.offer_tick(words, is_done=True)
        self.page.next.setFocus()
