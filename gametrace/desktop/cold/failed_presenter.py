"""Puts a failed store on hold in one act, and takes the decisions on what stands there."""

from __future__ import annotations

import uuid

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.failed_page import FailedPage
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.register.records import Hold, Lot


class FailedPresenter(QObject):
    """One page, one bench."""

    def __init__(self, page: FailedPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._holds: dict[str, Hold] = {}
        self._lots: dict[str, Lot] = {}
        page.store_chosen.connect(self.refresh)
        page.fail_wanted.connect(self._fail)
        page.release_wanted.connect(self._release)
        page.dispose_wanted.connect(self._dispose)
        page.ticked.connect(self._say_ticked)

    def refresh(self, _store: str = "") -> None:
        stores = self.bench.ask("larder_view")
        self._lots = {lot.code: lot for store in stores for lot in _lots_of(store)}
        self.page.set_stores([(store.code, store.name) for store in stores])
        chosen = self.page.store.value()
        here = [lot for lot in self._lots.values() if lot.place.split(".")[0] == chosen]
        grams = sum(lot.grams for lot in here)
        self.page.inside.say(f"{len(here)} lots stand in it, {kg_text(grams)}." if chosen else "")
        holds = self.bench.ask("holds")
        if chosen:
            names = {lot.code for lot in here}
            holds = [hold for hold in holds if hold.code in names]
        self._holds = {str(hold.id): hold for hold in holds}
        self.page.list.set_rows([(key, self._line(hold)) for key, hold in self._holds.items()])

    def _line(self, hold: Hold) -> str:
        lot = self._lots.get(hold.code)
        what = f" {lot.name}, {kg_text(lot.grams)}" if lot else ""
        return f"{hold.code}{what}: {hold.reason} ({hold.placed_by})"

    def _say_ticked(self) -> None:
        ticked = len(self.page.list.values())
        self.page.count.say(f"{len(self._holds)} on hold, {ticked} ticked")
        self.page.release.setText(f"Lift {ticked} hold{'' if ticked == 1 else 's'}")
        self.page.dispose.setText(f"{ticked} go{'es' if ticked == 1 else ''}")
        for button in (self.page.release, self.page.dispose):
            button.setAccessibleName(button.text())
            button.setEnabled(ticked > 0)

    def _fail(self) -> None:
        page = self.page
        page.clear_refusals()
        if not page.store.value():
            page.refuse("store", "Choose the store that failed.")
            return
        changes = self.bench.attempt(
            "store_failed",
            on_refusal=self._refused,
            store=page.store.value(),
            reason=page.reason.text(),
            key=uuid.uuid4().hex,
        )
        if changes is not None:
            page.reason.clear()
            self.bench.done.emit(f"{len(changes.created)} lots are on hold. Decide on each, or on several.")
            page.list.setFocus()

    def _release(self) -> None:
        """One hold after the other, each its own act; the first refusal is said and ends it."""
        why, lifted = self.page.why.text(), 0
        self.page.clear_refusals()
        for key in self.page.list.values():
            done = self.bench.attempt(
                "release_hold", on_refusal=self._refused_why, hold=int(key), reason=why, key=uuid.uuid4().hex
            )
            if done is None:
                break
            lifted += 1
        self._say_done(f"{lifted} hold{'' if lifted == 1 else 's'} lifted.", lifted)

    def _dispose(self) -> None:
        why, gone, way = self.page.why.text(), 0, self.page.way.value()
        self.page.clear_refusals()
        codes = dict.fromkeys(self._holds[key].code for key in self.page.list.values())
        for code in codes:
            done = self.bench.attempt(
                "dispose",
                on_refusal=self._refused_why,
                code=code,
                product=way,
                reason=why,
                key=uuid.uuid4().hex,
            )
            if done is None:
                break
            gone += 1
        self._say_done(f"{gone} lot{'' if gone == 1 else 's'} written off.", gone)

    def _say_done(self, said: str, count: int) -> None:
        if count:
            self.bench.done.emit(said)
            if not self.page.list.values():
                self.page.why.clear()

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))

    def _refused_why(self, refusal: Refusal) -> None:
        self.page.refuse("why", str(refusal))


def _lots_of(store) -> list[Lot]:
    hung = [hook.carcass.lot for rail in store.rails for hook in rail.hooks if hook.carcass]
    return hung + [lot for _, lots in store.shelves for lot in lots]
