"""Shows the larder as it stands, and one lot of it with everything that may be done next."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.larder.acting import LarderActs
from gametrace.desktop.larder.reading_stores import cold_of, days_shelved, plans_of, room_of
from gametrace.desktop.larder.telling import lot_told
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS
from gametrace.register.records import Lot

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

EMPTY = "Nothing hangs here yet. What is taken in at Delivery (F1) is drawn on its hook."
_HERE = ("carcass", "batch", "part", "pack", "mix")


class LarderPresenter(QObject):
    """Keeps the chosen lot by its number while the larder is drawn anew under it."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self.code = ""
        self.place = ""
        self.acts = LarderActs(view.drawer, bench)
        self.acts.done.connect(self._act_done)
        view.stores.chosen.connect(self._chosen)
        view.drawer.act_wanted.connect(self._act_wanted)
        view.drawer.left.connect(self._form_left)
        view.drawer.page.hanging.reason_wanted.connect(self._answer_hanging)
        view.drawer.page.file.picture_wanted.connect(self._show_picture)
        view.drawer.page.file.thumbs_wanted.connect(self._show_thumbs)
        view.led.connect(bench.go)

    def refresh(self) -> bool:
        """Read and draw. False where there is no store yet."""
        stores = self.bench.ask("larder_view")
        if not stores:
            return False
        animals = {one.code: one for one in self.bench.ask("unplaced")}
        days = {code: one.days_hung for code, one in animals.items()} | days_shelved(self.bench, stores)
        loose: list[tuple[Lot, int | None]] = [(one.lot, one.days_hung) for one in animals.values()]
        loose += [
            (lot, None) for lot in self.bench.ask("stock", only_unplaced=True) if lot.code not in animals
        ]
        plans, colds = plans_of(self.bench, stores), cold_of(self.bench, stores)
        self.view.stores.show_stores(stores, loose, days, plans, colds)
        words, is_short = room_of(self.bench)
        self.view.say_room(words, is_short=is_short)
        if self.code:
            self._show(self.code)
        elif not any(hook.carcass for store in stores for rail in store.rails for hook in rail.hooks):
            self.view.drawer.show_nothing(EMPTY)
        return True

    def moved(self, codes: Sequence[str]) -> bool:
        """Something went from hook to hook: only these are drawn anew. False where that is not all."""
        found = [self.bench.ask("carcass", code) for code in codes if code in self.view.stores.hung()]
        if len(found) != len(codes):
            return False
        if not all(self.view.stores.rehang(one) for one in found):
            return False
        if self.code:
            self._show(self.code)
        return True

    # -- choosing ---------------------------------------------------------------------------------------

    def scanned(self, code: str) -> bool:
        """A scan of anything that is here chooses it; the rest is for Trace."""
        try:
            lot = self.bench.ask("lot", code)
        except Refusal:
            return False
        if lot.kind not in _HERE or lot.grams == 0:
            return False
        self.choose(code)
        return True

    def open(self, code: str) -> None:
        """Somebody was sent here with this number."""
        self.bench.guarded(partial(self.choose, code))

    def choose(self, code: str) -> None:
        if code != self.code:
            self.view.drawer.show_page()
        self._show(code)
        self.view.stores.focus_chosen(self.place, self.code)

    def _chosen(self, place: str, code: str) -> None:
        if code:
            if code != self.code or self.view.drawer.form_name:
                self.view.drawer.show_page()
            self._show(code)
            return
        self.code, self.place = "", place
        self.view.drawer.show_nothing("This hook is free.")
        self.view.stores.mark(place, "")

    def _show(self, code: str) -> None:
        lot: Lot = self.bench.ask("lot", code)
        file: AnimalFile | None = self.bench.ask("animal_file", code) if lot.kind in ANIMAL_KINDS else None
        carcass = file.carcass if file else None
        story = self.bench.ask("story", code)
        holds = [hold for hold in self.bench.ask("holds") if hold.code == lot.code and hold.sort == "hold"]
        self.code, self.place = lot.code, lot.place
        self.acts.take(lot, carcass, tuple(holds))
        self.view.drawer.show_lot(lot_told(lot, file, story, has_hold=bool(holds)))
        self.view.stores.mark(lot.place, lot.code)

    # -- acting -----------------------------------------------------------------------------------------

    def _act_wanted(self, act: str) -> None:
        if act.partition("/")[0] in ("block", "trace", "delivery", "examination"):
            self.bench.go(act, self.code)
        else:
            self.acts.start(act)

    def _answer_hanging(self, reasons: dict[str, str]) -> None:
        """Why it hangs past its day, kept with the question."""
        self.bench.attempt(
            "answer_finding",
            said=f"{self.code}: the reason is written down.",
            code=self.code,
            reasons=reasons,
            key=uuid.uuid4().hex,
        )

    def _show_thumbs(self, hashes: tuple[str, ...]) -> None:
        for one in hashes:
            answer = self.bench.ask("picture", one)
            if answer is not None:
                self.view.drawer.page.file.set_thumb(one, answer[1])

    def _show_picture(self, found: str) -> None:
        answer = self.bench.ask("picture", found)
        if answer is not None:
            self.view.drawer.page.file.show_picture(found, answer[1])

    def _act_done(self) -> None:
        """Back to the lot, its story one line longer."""
        self.view.drawer.show_page()
        self._focus_main()

    def _form_left(self) -> None:
        self.view.drawer.show_page(at_top=False)
        self._focus_main()

    def _focus_main(self) -> None:
        self.view.drawer.page.main.setFocus()
