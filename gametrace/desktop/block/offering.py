"""What lies in the tray: found by typing, by group, or by a press on the beast; and which side it is of."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLineEdit, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.block.beast_pair import BeastPair
from gametrace.desktop.block.pad import NumberPad
from gametrace.desktop.block.products import (
    GROUPS,
    PARTS,
    SIDE_CHOICES,
    Catalogue,
    Offer,
    Weighed,
    product_of_part,
)
from gametrace.desktop.block.state_box import StateBox
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import column, row

_PART_OF_PRODUCT = {product_of_part(part): part for part in PARTS}


class Offering(QWidget):
    """The product and the side chosen now.

    Signals: changed(): another product or side. settled(): chosen for good, the hand goes to the weight.
    """

    changed = Signal()
    settled = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._catalogue, self._product, self._has_beast = Catalogue(), "", True
        self._weighed: dict[str, Weighed] = {}
        self._has_pad, self._of_side = False, ""
        self._shown: tuple[Offer, ...] = ()
        self.search = QLineEdit()
        self.search.setPlaceholderText("type: haunch l, trim")
        self.search.setAccessibleName("Type the product, then l or r for its side, then Enter")
        self.search.setMaxLength(60)
        self.search.installEventFilter(self)
        self.groups = ChoiceRow(GROUPS, value="joints", name="Group")
        self.groups.layout().setSpacing(0)
        self.grid_box = ScrollColumn()
        self.grid = QGridLayout()
        self.grid.setSpacing(6)
        self.grid_box.setMinimumHeight(look.px(52))
        self.grid_box.body.setContentsMargins(0, 0, 2, 0)
        self.grid_box.setStyleSheet('QPushButton[role="choice"] { padding: 2px 2px; }')
        self.grid_box.add(self.grid)
        self.grid_box.add_stretch()
        self.buttons = QButtonGroup(self)
        self.state = StateBox()
        self.side = ChoiceRow(SIDE_CHOICES, value="", name="Side")
        self.pair = BeastPair(look)
        self.beast, self.other = self.pair.beast, self.pair.other
        self._build(look)
        self.search.textChanged.connect(self._typed)
        self.search.returnPressed.connect(self._entered)
        self.groups.changed.connect(self._group_chosen)
        self.side.changed.connect(self._side_chosen)
        self.state.activated.connect(self._state_chosen)
        self.beast.part_chosen.connect(self._part_chosen)
        self.other.part_chosen.connect(self._other_part_chosen)
        self.setFocusProxy(self.search)

    def _build(self, look: Look) -> None:
        self.pad = NumberPad(look)
        self.pad.hide()
        self.picture = QWidget()
        self.picture.setLayout(column(self.pair, self.pad, self.side, gap=8))
        self.picture.layout().setStretch(0, 1)
        self.picture.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.picture.setMinimumWidth(look.px(322))
        self.first_line = row(self.search, gap=8)
        self.last_line = row(self.state, gap=8)
        panel = column(self.first_line, self.groups, self.grid_box, self.last_line, gap=8)
        panel.setStretch(2, 1)
        whole = row(self.picture, panel)
        whole.setStretch(0, 5)
        whole.setStretch(1, 7)
        self.setLayout(whole)

    # -- what the page is told ---------------------------------------------------------------------------

    def offer(
        self, held: Catalogue, *, has_beast: bool, product: str, side: str, state: str = "", of_side: str = ""
    ) -> None:
        """Begin with a lot: what may come off it, whether it is drawn, what is likely first, and the side of
        the beast that it is itself."""
        self._catalogue, self._has_beast, self._of_side = held, has_beast, of_side
        self.state.set_value(state)
        self._show_picture()
        self.search.clear()
        self.choose(product, side)

    def show_pad(self, on: bool) -> None:
        """The number pad in the place of the beast."""
        self._has_pad = on
        self._show_picture()

    def _show_picture(self) -> None:
        self.pad.setVisible(self._has_pad)
        self.pair.setVisible(self._has_beast and not self._has_pad)
        self.side.setVisible(self._has_beast)
        self.picture.setVisible(self._has_beast or self._has_pad)

    def set_weighed(self, weighed: dict[str, Weighed]) -> None:
        self._weighed = weighed
        self._draw_beasts()

    def choose(self, product: str, side: str = "") -> None:
        """Choose without telling; shows the group it is in."""
        one = self._catalogue.get(product)
        self._product = one.id if one else ""
        self.state.setEnabled(one is None or one.is_meat)
        self.side.set_value(side)
        if one is not None:
            self.groups.set_value(one.group)
            self._fill(self._of_group(one.group))
        else:
            self._fill(self._of_group(self.groups.value() or "joints"))
        self._draw_beasts()

    def product(self) -> Offer | None:
        return self._catalogue.get(self._product) if self._product else None

    def state_value(self) -> str:
        """The state of what is chosen; '' for what has none."""
        one = self.product()
        return self.state.value() if one is not None and one.is_meat else ""

    def side_value(self) -> str:
        return self.side.value()

    # -- hands -------------------------------------------------------------------------------------------

    def _typed(self, text: str) -> None:
        if text.strip():
            self.groups.set_value("")
            self._fill(self._catalogue.find(text).offers)
        else:
            one = self.product()
            self.groups.set_value(one.group if one else "joints")
            self._fill(self._of_group(self.groups.value()))

    def _entered(self) -> None:
        text = self.search.text()
        found = self._catalogue.find(text)
        if not text.strip() and self._product:
            self.settled.emit()
        elif found.offers:
            self._take(found.offers[0], found.side, found.state)

    def _take(self, one: Offer, side: str = "", state: str = "") -> None:
        """A person chose: keep or find the side, show what a joint comes apart into, go on to the weight."""
        if state or one.id != self._product:
            self.state.set_value(state)
        if not one.is_paired:
            side = ""
        elif not side:
            side = self._likely_side(one)
        self.search.blockSignals(True)
        self.search.clear()
        self.search.blockSignals(False)
        self.choose(one.id, side)
        self._show_parts(one)
        self.changed.emit()
        self.settled.emit()

    def _show_parts(self, one: Offer) -> None:
        """The cuts of a joint, or of the joint a cut is from, so that one press leads on."""
        joint = one.id if one.group == "joints" else one.parent
        parts = self._catalogue.with_parts(joint) if joint else ()
        if len(parts) > 1:
            self.groups.set_value("")
            self._fill(parts)

    def _likely_side(self, one: Offer) -> str:
        if self._of_side or not self._has_beast:
            return self._of_side
        part = _PART_OF_PRODUCT.get(one.id, "")
        left = self._weighed.get("left")
        right = self._weighed.get("right")
        if left and right and part in left.whole and part not in right.whole:
            return "right"
        return self.side.value() or "left"

    def _group_chosen(self, group: str) -> None:
        self._fill(self._of_group(group))

    def _side_chosen(self, side: str) -> None:
        self._draw_beasts()
        self.changed.emit()

    def _state_chosen(self) -> None:
        self.changed.emit()

    def _part_chosen(self, part: str) -> None:
        self._from_part(part, self._facing())

    def _other_part_chosen(self, part: str) -> None:
        self._from_part(part, "right" if self._facing() == "left" else "left")

    def _from_part(self, part: str, side: str) -> None:
        if (one := self._catalogue.get(product_of_part(part))) is not None:
            self._take(one, side)

    # -- drawing -----------------------------------------------------------------------------------------

    def _facing(self) -> str:
        return self.side.value() or self.beast._side

    def _draw_beasts(self) -> None:
        if not self._has_beast:
            return
        part = _PART_OF_PRODUCT.get(self._product, "")
        one = self.product()
        if not part and one is not None and one.parent in PARTS:
            part = one.parent
        self.pair.show_sides(self._facing(), self._weighed, part, is_both=not self.side.value())

    def _of_group(self, group: str) -> tuple[Offer, ...]:
        return self._catalogue.group(group)

    def _fill(self, shown: Sequence[Offer]) -> None:
        """One button a product. The same ones again only get their mark."""
        if tuple(shown) != self._shown:
            self._shown = tuple(shown)
            for button in self.buttons.buttons():
                self.buttons.removeButton(button)
                self.grid.removeWidget(button)
                button.hide()
                button.deleteLater()
            across = 3 if self._has_beast else 4
            for at in range(4):
                self.grid.setColumnStretch(at, 1 if at < across else 0)
            for at, one in enumerate(self._shown):
                button = QPushButton(one.name)
                button.setProperty("role", "choice")
                button.setProperty("product", one.id)
                button.setCheckable(True)
                button.setAutoDefault(True)
                button.setAccessibleName(f"Product: {one.name}")
                button.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
                button.clicked.connect(partial(self._take, one, "", ""))
                self.buttons.addButton(button)
                self.grid.addWidget(button, at // across, at % across)
        self.buttons.setExclusive(False)
        for button in self.buttons.buttons():
            button.setChecked(button.property("product") == self._product)

    def eventFilter(self, watched, event) -> bool:
        """Down leads from the typed words into the products."""
        is_key = watched is self.search and event.type() == QEvent.Type.KeyPress
        if is_key and event.key() == Qt.Key.Key_Down and self.buttons.buttons():
            self.buttons.buttons()[0].setFocus(Qt.FocusReason.TabFocusReason)
            return True
        return super().eventFilter(watched, event)
