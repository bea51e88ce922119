"""The outline, a list that marks the same by keyboard, and what is marked so far."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QListWidget, QSizePolicy, QWidget

from gametrace.desktop.examination.card import LookCard, Spot
from gametrace.desktop.examination.outline import KINDS, PLACE_WORDS, PLACES, Outline, middle_of, place_of
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.words import column, row

_LIST_WIDTH = 236


class MarkList(QListWidget):
    """What is marked so far. Delete, or the button under it, takes one away. Signals: taken_away(int)."""

    taken_away = Signal(int)

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and self.currentRow() >= 0:
            self.taken_away.emit(self.currentRow())
        else:
            super().keyPressEvent(event)


class MarkPart(QWidget):
    """Signals: marked(object): a Spot. unmarked(int): the one at that place in the card."""

    marked = Signal(object)
    unmarked = Signal(int)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.side = ChoiceRow((("left", "Left"), ("right", "Right")), value="left", name="Side")
        self.kind = ChoiceRow(KINDS, value="entry", name="Mark")
        self.outline = Outline(look)
        self.place = QComboBox()
        self.place.setAccessibleName("Where on the body")
        for place in PLACES:
            self.place.addItem(PLACE_WORDS.get(place, place), place)
        self.place.setCurrentIndex(PLACES.index("shoulder"))
        self.add = Button("Mark it", name="Mark it: what is chosen, at the place chosen")
        self.add.setAutoDefault(True)
        self.list = MarkList()
        self.list.setAccessibleName("Marked. Delete takes one away")
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMinimumHeight(look.px(56))
        self.away = Button("Take away", name="Take away the mark chosen in the list")
        self.away.setAutoDefault(True)
        beside = QWidget()
        beside.setFixedWidth(look.px(_LIST_WIDTH))
        for one in (self.place, self.add, self.away):
            one.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        beside.setLayout(column(self.place, row(self.add, self.away, gap=4), self.list, gap=4))
        beside.layout().setStretch(2, 1)
        lower = row(self.outline, beside, gap=8)
        lower.setStretch(0, 1)
        is_large = look.scale > 1.25
        top = column(self.side, self.kind, gap=8) if is_large else row(self.side, self.kind, gap=8)
        top.setStretch(1, 1)
        self.setLayout(column(top, lower, gap=8))
        self._card: LookCard | None = None
        self.side.changed.connect(self._side_changed)
        self.outline.marked.connect(self._pressed)
        self.add.clicked.connect(self._listed)
        self.list.taken_away.connect(self.unmarked)
        self.away.clicked.connect(self._take_away)

    def show_card(self, card: LookCard) -> None:
        self._card = card
        self.outline.show_spots(self.side.value(), card.spots, card.earlier_spots)
        at = min(self.list.currentRow(), len(card.spots) - 1)
        self.list.clear()
        for spot in card.spots:
            place = place_of(spot.x_thousandths, spot.y_thousandths)
            self.list.addItem(f"{spot.what}, {spot.side} {place}")
        self.list.setCurrentRow(at if at >= 0 else len(card.spots) - 1)
        self.away.setEnabled(bool(card.spots))

    def _side_changed(self, side: str) -> None:
        if self._card is not None:
            self.outline.show_spots(side, self._card.spots, self._card.earlier_spots)

    def _pressed(self, x: int, y: int) -> None:
        self.marked.emit(Spot(x, y, self.kind.value(), self.side.value()))

    def _listed(self) -> None:
        self._pressed(*middle_of(self.place.currentData()))

    def _take_away(self) -> None:
        if self.list.currentRow() >= 0:
            self.unmarked.emit(self.list.currentRow())
