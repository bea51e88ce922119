"""Make mince and other mixes: trays from several animals, and what is besides meat, become one lot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QStackedWidget, QWidget

from gametrace.desktop.block.mixing_besides import BesidesList, IngredientFace
from gametrace.desktop.block.trays import Tray, TrayList
from gametrace.desktop.block.weighing import PACKED, PlaceBox
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.going_in import GoingIn
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART, GAP
from gametrace.domain.quantities import kg_figure, kg_text

PRODUCTS = (
    ("mince", "Mince"),
    ("sausage-meat", "Sausage"),
    ("dice", "Dice"),
    ("cured", "Cure"),
    ("stock", "Stock"),
)


class MixingPage(QWidget):
    """Signals: add_wanted(str): a code. out_wanted(str). make_wanted(). back_wanted(). changed().

    What is besides meat is asked on a face of its own (`ingredient`) and listed under what goes in.
    """

    add_wanted = Signal(str)
    out_wanted = Signal(str)
    make_wanted = Signal()
    back_wanted = Signal()
    changed = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._all: tuple[Tray, ...] = ()
        self.search = QLineEdit()
        self.search.setPlaceholderText("find: trim, a code, a species")
        self.search.setAccessibleName("Find a tray in stock")
        self.search.setMaxLength(80)
        self.table = TrayList(look, "Trays in stock. Enter puts one in")
        self.going_in = GoingIn(
            look,
            "What goes in",
            "Scan the trays that go in, or press them in the list. All of each goes in unless you type less.",
        )
        self.besides = BesidesList()
        self.ingredient = IngredientFace(look, today)
        self.faces = QStackedWidget()
        self.loud = Loud(look)
        self.total = Words("", "heading")
        self.product = ChoiceRow(PRODUCTS, value="mince", name="What is made")
        self.grams = KiloEdit("Weight of the mix", big=True)
        self.grams_field = Field("Weight of the mix; empty for all of it", self.grams, name="grams")
        self.missing = Words("", "quiet")
        self.missing.hide()
        self.packed = ChoiceRow(PACKED, value="chilled-loose", name="How it is kept", columns=2)
        self.place = PlaceBox("Where it goes")
        self.date, self.rule = Words("", "strong"), Words("", "quiet")
        self.make = BigButton("Make the mince")
        self.back = Button("Back to the block")
        self._build(look)
        self._connect()
        self.setFocusProxy(self.search)

    def _build(self, look: Look) -> None:
        stock = column(self.search, self.table, gap=8)
        stock.setStretch(1, 1)
        middle = column(self.loud, self.going_in, self.besides, self.total, gap=8)
        middle.setStretch(1, 1)
        form = ScrollColumn()
        for part in (self.grams_field, self.missing, self.packed, self.place):
            form.add(part)
        form.add(column(self.date, self.rule, gap=0))
        form.add_stretch()
        right = QWidget()
        right.setLayout(column(form, self.make, gap=8))
        right.layout().setStretch(0, 1)
        keep_width(look, right, 350)
        body = row(stock, middle, right, gap=APART)
        body.setStretch(0, 5)
        body.setStretch(1, 6)
        head = row(Words("Make", "title", wrap=False), self.product, 1, self.back)
        whole = QWidget()
        whole.setLayout(column(head, body, gap=GAP))
        whole.layout().setStretch(1, 1)
        self.faces.addWidget(whole)
        self.faces.addWidget(self.ingredient)
        self.setLayout(column(self.faces))

    def _connect(self) -> None:
        self.search.textChanged.connect(self._show)
        self.search.returnPressed.connect(self._add_picked)
        self.table.chosen.connect(self.add_wanted)
        self.going_in.out_wanted.connect(self.out_wanted)
        self.going_in.entered.connect(self.grams.select)
        self.going_in.changed.connect(self._say_total)
        self.grams.changed.connect(self._say_total)
        self.grams.entered.connect(self.make.setFocus)
        self.packed.changed.connect(self.changed)
        self.product.changed.connect(self._product_chosen)
        self.make.clicked.connect(self.make_wanted)
        self.back.clicked.connect(self.back_wanted)
        self.besides.add.clicked.connect(self.ask_ingredient)
        self.besides.changed.connect(self._say_total)
        self.ingredient.left.connect(self.end_ingredient)

    def ask_ingredient(self) -> None:
        """Ask for one more thing besides meat."""
        self.ingredient.begin()
        self.faces.setCurrentWidget(self.ingredient)
        self.ingredient.setFocus()

    def end_ingredient(self) -> None:
        self.faces.setCurrentIndex(0)
        self.besides.add.setFocus()

    def set_stock(self, tubs: Sequence[Tray]) -> None:
        self._all = tuple(tubs)
        self._show()

    def clear(self) -> None:
        self.going_in.set_rows(())
        self.besides.set_others(())
        self.grams.clear()
        self.search.clear()
        self.loud.hush()

    def _show(self) -> None:
        words = self.search.text().casefold().split()
        self.table.set_trays(
            [one for one in self._all if all(w in f"{one.name} {one.code}".casefold() for w in words)]
        )
        self.table.scrollToTop()
        if words and self.table.count() and not self.table.picked_code():
            self.table.setCurrentRow(0)

    def _add_picked(self) -> None:
        if code := self.table.picked_code():
            self.add_wanted.emit(code)
            self.search.selectAll()

    def _product_chosen(self, product: str) -> None:
        words = {"sausage-meat": "sausage meat", "cured": "cured meat"}.get(product, product)
        self.make.setText(f"Make the {words}")
        self.make.setAccessibleName(f"Make the {words}")
        self.changed.emit()

    def _say_total(self) -> None:
        taken = self.going_in.taken_or_less()
        besides = self.besides.grams()
        total = self.going_in.total() + besides
        also = f", {kg_text(besides)} of it besides meat" if besides else ""
        self.total.say(f"{len(taken)} in, {kg_text(total)}{also}" if taken else "")
        self.grams.edit.setPlaceholderText(kg_figure(total) if total else "")
        made = self.grams.value_or_none()
        if made is None or not total:
            words = ""
        elif made > total:
            words = f"{kg_text(made - total)} more than went in"
        elif made < total:
            words = f"{kg_text(total - made)} will show as unaccounted"
        else:
            words = "as much as went in"
        self.missing.say(words)
        self.missing.setVisible(bool(words))
        self.changed.emit()
