"""Writes down calls about a declaration, each an act of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.calls_part import open_words
from gametrace.desktop.delivery.finish_page import FinishPage
from gametrace.domain.errors import Refusal

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile


class Calls(QObject):
    """The calls of the carcass on show."""

    def __init__(self, page: FinishPage, bench: Bench) -> None:
        super().__init__(page)
        self._page, self._bench = page, bench
        self._file: AnimalFile | None = None
        self._is_wired = False
        page.calls.grew.connect(self._grew)

    def show_file(self, file: AnimalFile) -> None:
        """Fold or not, the heading says how many calls are still to make."""
        if self._file is not None and self._file.carcass.code != file.carcass.code:
            self._page.calls.set_open(False)
            if self._page.calls.is_made:
                self._page.calls.inner.start_anew()
        self._file = file
        self._page.calls.say(open_words(len(file.calls_to_make)))
        self._fill()

    def _grew(self) -> None:
        if self._page.calls.is_made and not self._is_wired:
            self._is_wired = True
            self._page.calls.inner.wanted.connect(self.write_down)
            self._fill()

    def _fill(self) -> None:
        file = self._file
        if file is not None and self._page.calls.is_made:
            card = file.delivery
            self._page.calls.inner.show_calls(file.calls_to_make, file.calls, card.trained_person)

    def write_down(self) -> None:
        """What was said, beside what the card says."""
        part, file = self._page.calls.inner, self._file
        if file is None:
            return
        part.clear_refusals()
        done = self._bench.attempt(
            "record_call",
            on_refusal=self._refused,
            said="The call is written down.",
            code=file.carcass.code,
            about=part.about.value(),
            answer=part.answer.text().strip(),
            spoken_by=part.spoken_by.text().strip(),
        )
        if done is not None:
            part.answer.clear()
            self.show_file(self._bench.ask("animal_file", file.carcass.code))
            part.about.setFocus()

    def _refused(self, refusal: Refusal) -> None:
        if not self._page.calls.inner.refuse(refusal.field, str(refusal)):
            self._bench.refused.emit(str(refusal))
