"""The page of stocks: the house's own sizes by a ruler, and how far off this machine's printer feeds."""

from __future__ import annotations

import re
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import PickList
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART
from gametrace.domain.errors import Refusal

LENGTHS = (
    ("page_w_mm", "Page wide"),
    ("page_h_mm", "Page high"),
    ("label_w_mm", "Label wide"),
    ("label_h_mm", "Label high"),
    ("left_mm", "Left margin"),
    ("top_mm", "Upper margin"),
    ("gap_x_mm", "Gap across"),
    ("gap_y_mm", "Gap down"),
)
COUNTS = (("columns", "Labels across"), ("rows", "Labels down"))
DPI = (("203", "203"), ("300", "300"), ("600", "600"))
MOVES = (("right", "Move right"), ("down", "Move down"))


class MillimetreEdit(TypedEdit):
    """A length in hundredths of a millimetre, typed as 63,5 or 63.5; under nothing where `may_be_under`."""

    def __init__(
        self, name: str, field: str, *, may_be_under: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(f"{name}, millimetres", parent=parent)
        self._field, self._may_be_under = field, may_be_under
        self.line.addWidget(Words("mm", wrap=False))

    def _read(self, typed: str) -> int:
        plain = typed.strip().replace(",", ".").replace("−", "-")
        found = re.fullmatch(r"(-?)(\d{1,3})(?:\.(\d{1,2}))?", plain, re.ASCII)
        if found is None or (found[1] and not self._may_be_under):
            raise Refusal(f"'{plain[:24]}' is no length.", "Write millimetres, as 63.5.", self._field)
        whole = int(found[2]) * 100 + int((found[3] or "0").ljust(2, "0"))
        return -whole if found[1] else whole

    def _written(self, value: int) -> str:
        whole, rest = divmod(abs(value), 100)
        words = f"{whole}.{rest:02d}".rstrip("0").rstrip(".")
        return f"-{words}" if value < 0 else words


class StocksPage(QWidget):
    """Signals: chosen(str), keep_wanted(), drop_wanted(), grid_wanted(), moved(), kept(str)."""

    chosen = Signal(str)
    keep_wanted = Signal()
    drop_wanted = Signal()
    grid_wanted = Signal()
    moved = Signal()
    kept = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = PickList("Stocks", search="Find a stock")
        self.name = Field("Its name", QLineEdit(), name="name")
        self.name.inner.setMaxLength(40)
        self.lengths = {name: Field(label, MillimetreEdit(label, name), name=name) for name, label in LENGTHS}
        self.counts = {
            name: Field(label, CountEdit(label, most=99, field=name), name=name) for name, label in COUNTS
        }
        self.dpi = Field(
            "Printer's dots an inch", ChoiceRow(DPI, value="300", name="Dots an inch"), name="dpi"
        )
        self.moves = {
            name: Field(label, MillimetreEdit(label, name, may_be_under=True), name=name)
            for name, label in MOVES
        }
        self.keep = BigButton("Keep this stock  Ctrl+Enter")
        self.grid = Button("Test print", name="A test print of these sizes, with rulers")
        self.drop = Button("Drop it", name="Take this stock off the list")
        self.loud = Loud(look)
        self._build(look)
        self.list.moved.connect(self.chosen)
        self.list.picked.connect(self.chosen)
        self.keep.clicked.connect(self.keep_wanted)
        self.grid.clicked.connect(self.grid_wanted)
        self.drop.clicked.connect(self.drop_wanted)
        for field in self.moves.values():
            field.inner.edit.editingFinished.connect(self.moved)

    def _build(self, look: Look) -> None:
        left = QWidget()
        hint = Words("Begin with the one most like yours, then type what a ruler says.", "quiet")
        left.setLayout(column(hint, self.list, gap=8))
        keep_width(look, left, 400)
        sizes = QGridLayout()
        sizes.setHorizontalSpacing(16)
        sizes.setVerticalSpacing(8)
        fields = [*self.counts.values(), *self.lengths.values()]
        for at, field in enumerate(fields):
            sizes.addWidget(field, at // 4, at % 4)
        here = QGridLayout()
        here.setHorizontalSpacing(16)
        for at, field in enumerate(self.moves.values()):
            here.addWidget(field, 0, at)
        here.setColumnStretch(2, 1)
        roll = ScrollColumn()
        for item in (
            self.loud,
            row(self.name, self.dpi),
            sizes,
            Words(
                "On this machine only: how far its printer must be moved. Print a test, lay it over a sheet "
                "against the light, and type the numbers the rulers show.",
                "quiet",
            ),
            here,
        ):
            roll.add(item)
        roll.add_stretch()
        right = QWidget()
        right.setLayout(column(roll, row(self.keep, self.grid, self.drop, gap=8), gap=8))
        right.layout().setStretch(0, 1)
        whole = row(left, right, gap=APART)
        whole.setStretch(1, 1)
        self.setLayout(whole)

    # -- values -----------------------------------------------------------------------------------------

    def show_stock(self, stock: Any, name: str, *, is_own: bool) -> None:
        self.name.inner.setText(name)
        for key, field in self.lengths.items():
            field.inner.set_value(round(getattr(stock, key) * 100))
            if not getattr(stock, key):
                field.inner.edit.setText("0")
        for key, field in self.counts.items():
            field.inner.set_value(getattr(stock, key))
        self.dpi.inner.set_value(str(stock.dpi))
        self.drop.setEnabled(is_own)
        self.clear_refusals()

    def typed(self) -> dict[str, Any]:
        """The sizes as a stock is made of them; a Refusal where one cannot be read."""
        given: dict[str, Any] = {"name": self.name.inner.text().strip(), "dpi": int(self.dpi.inner.value())}
        for key, field in self.lengths.items():
            given[key] = (field.inner.value() or 0) / 100
        for key, field in self.counts.items():
            given[key] = field.inner.value() or 0
        return given

    def _fields(self) -> list[Field]:
        return [self.name, self.dpi, *self.lengths.values(), *self.counts.values(), *self.moves.values()]

    def clear_refusals(self) -> None:
        self.loud.hush()
        for field in self._fields():
            field.clear_refusal()

    def refuse(self, refusal: Refusal) -> None:
        for field in self._fields():
            if field.name == refusal.field:
                refuse_at(field, str(refusal))
                return
        self.loud.refuse(str(refusal))
