"""Enters a boar's laboratory result, by a second person; a positive one locks and prints what to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.boar_page import BoarPage
from gametrace.desktop.examination.papers import print_positive
from gametrace.desktop.parts.lot_words import why_of
from gametrace.domain.boar import AWAITED, POSITIVE, boar_findings
from gametrace.domain.findings import rests_on
from gametrace.facts.boar import BoarLine, held_until_result, positive_steps
from gametrace.facts.sources import citation
from gametrace.register.records import Hold

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

RESULT_HOLD = "result"


def waits_for_result(file: AnimalFile) -> bool:
    """A boar, or whatever else the door put on hold for a laboratory."""
    return bool(file.laboratory_result) or _waiting(file) is not None


def _waiting(file: AnimalFile) -> Hold | None:
    holds = (hold for hold in file.carcass.holds if hold.sort == RESULT_HOLD and hold.released_at is None)
    return next(holds, None)


class Laboratory(QObject):
    def __init__(self, page: BoarPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._file: AnimalFile | None = None
        page.wanted.connect(self._write)
        page.notice_wanted.connect(self._notice)
        page.trace_wanted.connect(self._trace)

    def show(self, file: AnimalFile) -> None:
        if self._file is not None and self._file.carcass.code != file.carcass.code:
            self.page.form.clear()
        self._file = file
        page, one = self.page, file.carcass
        waiting, is_positive = _waiting(file), file.laboratory_result == POSITIVE
        page.sign.set_state(one.lot.state, why_of(one.lot).split(". ")[0], one.days_hung)
        result = file.laboratory_result or AWAITED
        page.said.say(_result_words(file))
        page.form.setVisible(waiting is not None and not is_positive)
        page.notice.setVisible(is_positive)
        page.trace.setVisible(is_positive)
        page.panel.set_findings(boar_findings(result, file.laboratory_reference))
        if is_positive:
            page.show_lines("What to do, in this order", _lines(positive_steps()), numbered=True)
        else:
            page.show_lines("Held until the result", _lines(held_until_result()), numbered=False)
        self.say_person()

    def say_person(self) -> None:
        """Whether the person at the keyboard may enter it, before a word is typed."""
        file = self._file
        is_open = file is not None and file.laboratory_result != POSITIVE
        waiting = _waiting(file) if file is not None and is_open else None
        words = ""
        if waiting is not None:
            me = next((p.initials for p in self.bench.ask("people") if p.code == self.bench.person), "")
            words = f"Held by {waiting.placed_by}. "
            words += (
                "You hold it, so a second person reads the paper and enters it under their own name."
                if me == waiting.placed_by
                else "A second person enters the result."
            )
        self.page.who.say(words)
        self.page.who.setVisible(bool(words))

    def _write(self) -> None:
        assert self._file is not None
        given = self.page.form.values()
        self.page.form.clear_refusals()
        done = self.bench.attempt(
            "record_result",
            on_refusal=self.page.form.refuse,
            said=f"{self._file.carcass.code}: the result is written down.",
            code=self._file.carcass.code,
            **given,
        )
        if done is None:
            return
        self.page.form.clear()
        if given["result"] == POSITIVE:
            self._notice()
            self.page.notice.setFocus()

    def _notice(self) -> None:
        assert self._file is not None
        print_positive(self.bench, self._file)

    def _trace(self) -> None:
        assert self._file is not None
        self.bench.go("trace", self._file.carcass.code)


def _result_words(file: AnimalFile) -> str:
    if not file.laboratory_result:
        return "The laboratory has not answered yet."
    return f"Trichinella: {file.laboratory_result}, laboratory reference {file.laboratory_reference}."


def _lines(found: tuple[BoarLine, ...]) -> list[tuple[str, str]]:
    return [
        (f"{one.name.rstrip('.')}. {one.note}".strip(), rests_on(citation(one.source), one.status))
        for one in found
    ]
