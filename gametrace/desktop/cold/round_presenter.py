"""Writes a round down: what was read as one act, and each 'not taken' and each thing done as its own."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.round_page import OWN_DISPLAY, RoundPage, RoundRow, RoundStore
from gametrace.desktop.cold.saying import last_words
from gametrace.domain.errors import Refusal

_LOOK_BACK = timedelta(days=14)


class RoundPresenter(QObject):
    """One page, one bench."""

    def __init__(self, page: RoundPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._last: dict[str, tuple[datetime, int]] = {}
        self._limits: dict[str, int] = {}
        self._longest_gap = 0
        page.wanted.connect(self._write)

    def refresh(self) -> None:
        bench = self.bench
        own, now, today = bench.ask("policies"), bench.now(), bench.today()
        self._last = bench.ask("last_readings")
        self._longest_gap = own.reading_minutes * 90
        stores = [place for place in bench.ask("places") if place.kind == "store"]
        self._limits = {store.code: own.limit_of(store.sort) for store in stores}
        self.page.set_probes(
            [(probe.code, probe.name) for probe in bench.ask("probes")], bench.settings.text("cold/probe")
        )
        self.page.set_stores(
            [
                RoundStore(
                    store.code,
                    store.name,
                    last_words(self._last.get(store.code), now, today, self._longest_gap),
                    self._limits[store.code],
                )
                for store in stores
            ]
        )

    def _write(self) -> None:
        self.page.trouble.hide()
        taken = self._taken()
        if taken is None:
            return
        at = self.bench.now()
        probe = self.page.probe.value()
        if taken and not self._take(taken, probe, at):
            return
        self.bench.settings.keep("cold/probe", probe)
        for code, one in self.page.rows.items():
            if one.not_taken.isChecked():
                self._answer(code, "gap", one.why.text(), at)
            elif one.is_warm() and one.why.text().strip():
                self._answer(code, "warm", one.why.text(), at)
        warm = sum(one.is_warm() for one in self.page.rows.values())
        self.page.clear_fields()
        self.refresh()
        said = f"Round written down: {len(taken)} of {len(self.page.rows)} stores read."
        if warm:
            said += f" {warm} above the kitchen's limit: read again within half an hour."
        self.bench.done.emit(said)
        self.page.start()

    def _taken(self) -> list[tuple[str, int]] | None:
        """What was read; None, with the reason at its row, where a store has no answer."""
        found = []
        for code, one in self.page.rows.items():
            if one.not_taken.isChecked():
                if not one.why.text().strip():
                    self._refuse(one, "Say why it was not taken.")
                    return None
                continue
            try:
                tenths = one.degrees.value()
            except Refusal:
                one.degrees.setFocus()
                return None
            if tenths is None:
                self._refuse(one, "Type the degrees, or say that it was not taken.")
                return None
            found.append((code, int(tenths)))
        return found

    def _refuse(self, one: RoundRow, sentence: str) -> None:
        one.refuse(sentence)
        if one.not_taken.isChecked():
            one.why.setFocus()

    def _take(self, taken: Sequence[tuple[str, int]], probe: str, at: datetime) -> bool:
        changes = self.bench.attempt(
            "take_round",
            on_refusal=self._refused,
            readings=taken,
            probe="" if probe == OWN_DISPLAY else probe,
            happened_at=at,
            key=uuid.uuid4().hex,
        )
        return changes is not None

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(str(refusal))

    def _answer(self, code: str, sort: str, words: str, at: datetime) -> None:
        self.bench.attempt(
            "answer_episode",
            on_refusal=self._refused,
            store=code,
            first_at=self._begin(code, sort, at),
            last_at=at,
            sort=sort,
            action=words,
            key=uuid.uuid4().hex,
        )

    def _begin(self, code: str, sort: str, at: datetime) -> datetime:
        """When the gap or the warm time began that goes on now, so that its answer is found with it."""
        if sort == "gap":
            last = self._last.get(code)
            return last[0] if last else at
        readings = self.bench.ask("temperatures", code, at - _LOOK_BACK, at)
        begin = begin_of_warm(readings, self._limits[code], self._longest_gap)
        return at if begin is None else datetime.fromtimestamp(begin, UTC)


def begin_of_warm(readings: Sequence[tuple[int, int]], limit: int, longest_gap: int) -> int | None:
    """The first reading of the run above the limit at the end, not across a gap; None where there is none."""
    begin: int | None = None
    for at, tenths in reversed(readings):
        if tenths <= limit or (begin is not None and begin - at > longest_gap):
            break
        begin = at
    return begin
