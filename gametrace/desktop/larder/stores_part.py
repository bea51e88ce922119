"""The stores as they stand: what lies nowhere yet first, then each store with its rails and its shelves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from gametrace.desktop.larder.lot_button import LotButton
from gametrace.desktop.larder.reading_stores import hook_space
from gametrace.desktop.larder.store_line import StoreCold, StoreLine
from gametrace.desktop.look import Look
from gametrace.desktop.parts.rail_scene import RailScene
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.domain.hanging import HangingPlan
from gametrace.register.records import Carcass, Lot, StoreView

ACROSS = 3
MOST_SHOWN = 120  # of one shelf: more buttons than anybody looks through, and quick to draw
_FROM_WIDTH = ((ACROSS, 900), (2, 470))  # px: so many beside each other from that breadth
Shelved = tuple[Lot, int | None]  # a lot, and the days since the kill where it is an animal


class LotGrid(QWidget):
    """Some lots in rows; of very many the first ones. Signals: chosen(str): a lot's code."""

    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.buttons: dict[str, LotButton] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(8)
        self._across = ACROSS
        self._lots: tuple[Shelved, ...] = ()
        self._more: Words | None = None

    def set_lots(self, lots: Sequence[Shelved]) -> None:
        """Show these; where they are the same as before nothing is touched."""
        if tuple(lots) == self._lots:
            return
        self._lots = tuple(lots)
        focused = next((code for code, button in self.buttons.items() if button.hasFocus()), "")
        chosen = next((code for code, button in self.buttons.items() if button.isChecked()), "")
        clear(self._grid)
        self.buttons = {}
        for lot, days in lots[:MOST_SHOWN]:
            button = LotButton(self._look, lot, days)
            button.setChecked(lot.code == chosen)
            button.clicked.connect(self._clicked)
            self.buttons[lot.code] = button
        left = len(lots) - len(self.buttons)
        words = f"And {left:,} more lie here: scan one to see it, or look in the stock." if left else ""
        self._more = Words(words, "quiet") if left else None
        self._arrange()
        if focused in self.buttons:
            self.buttons[focused].setFocus()

    def _arrange(self) -> None:
        """As many in a row as there is room for."""
        for button in self.buttons.values():
            self._grid.removeWidget(button)
        for at, button in enumerate(self.buttons.values()):
            self._grid.addWidget(button, at // self._across, at % self._across)
        if self._more is not None:
            self._grid.addWidget(self._more, len(self.buttons), 0, 1, ACROSS)
        for across in range(ACROSS):
            self._grid.setColumnStretch(across, 1 if across < self._across else 0)

    def resizeEvent(self, event) -> None:
        fits = next((at for at, least in _FROM_WIDTH if self.width() >= self._look.px(least)), 1)
        if fits != self._across:
            self._across = fits
            self._arrange()
        super().resizeEvent(event)

    def choose(self, code: str) -> None:
        for name, button in self.buttons.items():
            button.setChecked(name == code)

    def _clicked(self) -> None:
        button = self.sender()
        if isinstance(button, LotButton):
            self.chosen.emit(button.lot.code)


class StorePart(QWidget):
    """One store. Signals: chosen(str, str): place and code ('' on an empty hook)."""

    chosen = Signal(str, str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.title = Words("", "heading", wrap=False)
        self.sort = Words("", "quiet")
        self.line = StoreLine(look)
        self.scene = RailScene(look)
        self.shelves = column(gap=8)
        self.grids: list[LotGrid] = []
        self._codes: tuple[str, ...] = ()
        self._sort = ""
        head = row(self.title, self.sort)
        head.setStretch(1, 1)
        self.setLayout(column(head, self.line, self.scene, self.shelves, gap=4))
        self.scene.chosen.connect(self.chosen)

    def show_store(
        self,
        store: StoreView,
        days: Mapping[str, int | None],
        plans: Mapping[str, HangingPlan],
        cold: StoreCold | None,
    ) -> None:
        self.title.say(store.name)
        self._sort = store.sort
        self.line.set_cold(cold)
        self.scene.setVisible(bool(store.rails))
        ahead = f"{store.name} · "
        rails = [replace(rail, name=rail.name.removeprefix(ahead)) for rail in store.rails]
        self.scene.set_rails(rails, plans)
        self.say_free()
        codes = tuple(place.code for place, _ in store.shelves)
        if codes != self._codes:
            self._build_shelves(store, codes)
        for grid, (_, lots) in zip(self.grids, store.shelves, strict=True):
            grid.set_lots([(lot, days.get(lot.code)) for lot in lots])

    def say_free(self) -> None:
        """How many hooks are free, in words."""
        hung, hooks = len(self.scene.hung()), self.scene.hook_count()
        self.sort.say(hook_space(hooks - hung, hooks) or self._sort)

    def _build_shelves(self, store: StoreView, codes: tuple[str, ...]) -> None:
        clear(self.shelves)
        self._codes = codes
        self.grids = []
        for place, _ in store.shelves:
            grid = LotGrid(self._look)
            grid.chosen.connect(self._lot_chosen)
            name = place.name.removeprefix(f"{store.name} · ")
            self.shelves.addWidget(Words(name, "quiet"))
            self.shelves.addWidget(grid)
            self.grids.append(grid)

    def _lot_chosen(self, code: str) -> None:
        self.chosen.emit("", code)

    def mark(self, place: str, code: str) -> None:
        """Mark what is chosen, without telling."""
        self.scene.choose_place(place)
        for grid in self.grids:
            grid.choose(code)


class StoresPart(ScrollColumn):
    """Signals: chosen(str, str): place and code ('' on an empty hook)."""

    chosen = Signal(str, str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.loose = LotGrid(look)
        self.loose.chosen.connect(self._loose_chosen)
        self.loose_part = QWidget()
        self.loose_part.setLayout(
            column(
                Words("In the house, but on no hook or shelf: say where they are", "amber"), self.loose, gap=8
            )
        )
        self.stores: dict[str, StorePart] = {}
        self._chosen = ("", "")
        # A moment later: what was just drawn has no place on the page before.
        self._into_sight = QTimer(self)
        self._into_sight.setSingleShot(True)
        self._into_sight.setInterval(0)
        self._into_sight.timeout.connect(self._bring_into_sight)
        self.add(self.loose_part)
        self.add_stretch()

    def show_stores(
        self,
        stores: Sequence[StoreView],
        loose: Sequence[Shelved],
        days: Mapping[str, int | None],
        plans: Mapping[str, HangingPlan],
        colds: Mapping[str, StoreCold],
    ) -> None:
        self.loose_part.setVisible(bool(loose))
        self.loose.set_lots(loose)
        for store in stores:
            part = self.stores.get(store.code)
            if part is None:
                part = self.stores[store.code] = StorePart(self._look)
                part.chosen.connect(self.chosen)
                self.body.insertWidget(self.body.count() - 1, part)
            part.show_store(store, days, plans, colds.get(store.code))

    def hung(self) -> set[str]:
        """Numbers of everything on a hook."""
        return {code for part in self.stores.values() for code in part.scene.hung()}

    def rehang(self, carcass: Carcass) -> bool:
        """Draw it on its other hook; False where that is no free hook here."""
        target = next(
            (part for part in self.stores.values() if part.scene.hook_button(carcass.lot.place)), None
        )
        if target is None:
            return False
        plan = None
        for part in self.stores.values():
            plan = plan or part.scene.take_down(carcass.code)
        target.scene.hang(carcass, plan)
        for part in self.stores.values():
            part.say_free()
        return True

    def mark(self, place: str, code: str) -> None:
        """Show what is chosen, and bring it into sight."""
        self.loose.choose(code)
        for part in self.stores.values():
            part.mark(place, code)
        self._chosen = (place, code)
        self._into_sight.start()

    def _bring_into_sight(self) -> None:
        target = self.button_of(*self._chosen)
        if target is not None:
            self.ensureWidgetVisible(target, 0, 24)

    def button_of(self, place: str, code: str) -> QWidget | None:
        """The hook or the shelf's button of what is chosen."""
        for part in self.stores.values():
            if place and (hook := part.scene.hook_button(place)) is not None:
                return hook
            for grid in part.grids:
                if code in grid.buttons:
                    return grid.buttons[code]
        return self.loose.buttons.get(code)

    def focus_chosen(self, place: str, code: str) -> None:
        button = self.button_of(place, code)
        if button is not None:
            button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _loose_chosen(self, code: str) -> None:
        self.chosen.emit("", code)
