"""What goes into a dish or a mix: one row a lot with its state, what is left, and the grams taken of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.state_sign import SignFace
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import GAP
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text


@dataclass(frozen=True, slots=True)
class InRow:
    """One lot as it stands: its code, what it is, its state, what is left, and one more line of words."""

    code: str
    name: str
    state: str
    left_grams: int
    also: str = ""
    also_role: str = "quiet"


class _Row(QFrame):
    changed = Signal()
    entered = Signal()
    out_wanted = Signal(str)

    def __init__(self, look: Look, one: InRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "sheet")
        self.code, self.left = one.code, one.left_grams
        self.sign = SignFace(look, one.state, size=28)
        self.name = Words(one.name, "strong")
        self.line = Words("", "quiet")
        self.also = Words(one.also, one.also_role)
        self.grams = KiloEdit(f"Weight taken of {one.code} {one.name}")
        keep_width(look, self.grams.edit, 112)
        self.grams.edit.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.grams.set_value(one.left_grams)
        self.out = Button("Out", name=f"Take {one.code} {one.name} out again")
        upper = row(self.sign, self.name, self.out, gap=8)
        upper.setStretch(1, 1)
        lower = row(column(self.line, self.also, gap=0), self.grams, gap=8)
        lower.setStretch(0, 1)
        self.setLayout(column(upper, lower, gap=4, margin=8))
        self.also.setVisible(bool(one.also))  # only now: shown before it has a parent it is a window
        self.grams.changed.connect(self._say_left)
        self.grams.changed.connect(self.changed)
        self.grams.entered.connect(self.entered)
        self.out.clicked.connect(partial(self.out_wanted.emit, one.code))
        self._say_left()

    def _say_left(self) -> None:
        taken = self.grams.value_or_none()
        left = self.left if taken is None else self.left - taken
        if left == 0:
            words = "all of it"
        elif left < 0:
            words = f"only {kg_text(self.left)} is there"
        else:
            words = f"leaves {kg_text(left)}" if taken else f"{kg_text(self.left)} there"
        self.line.say(f"{self.code} · {words}")

    def taken(self) -> int:
        grams = self.grams.value()
        return self.left if grams is None else grams


class GoingIn(ScrollColumn):
    """The rows. What a person typed in a row stays while other rows come and go.

    Signals: changed(): other lots or other grams. entered(): Enter in a row. out_wanted(str): a code.
    """

    changed = Signal()
    entered = Signal()
    out_wanted = Signal(str)

    def __init__(self, look: Look, name: str, empty: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._rows: dict[str, _Row] = {}
        self.setAccessibleName(name)
        self.empty = Words(empty, "large")
        self.empty.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.add(self.empty)
        self.list = QVBoxLayout()
        self.list.setSpacing(GAP // 2)
        self.body.setContentsMargins(0, 0, 8, 0)
        self.add(self.list)
        self.add_stretch()

    def set_rows(self, rows: Sequence[InRow]) -> None:
        """Show these lots in this order; rows already there keep what was typed."""
        wanted = {one.code for one in rows}
        for code in [code for code in self._rows if code not in wanted]:
            gone = self._rows.pop(code)
            gone.hide()
            self.list.removeWidget(gone)
            gone.deleteLater()
        for one in rows:
            if one.code not in self._rows:
                self._add(one)
        self.empty.setVisible(not rows)
        self.changed.emit()

    def _add(self, one: InRow) -> None:
        made = _Row(self._look, one)
        made.changed.connect(self.changed)
        made.entered.connect(self.entered)
        made.out_wanted.connect(self.out_wanted)
        self._rows[one.code] = made
        self.list.addWidget(made)

    def row(self, code: str) -> _Row:
        return self._rows[code]

    def show_code(self, code: str) -> None:
        """Bring a row into sight and put the hand on its weight."""
        made = self._rows[code]
        self.ensureWidgetVisible(made)
        made.grams.select()

    def taken(self) -> list[tuple[str, int]]:
        """Each code with the grams taken. Raises the Refusal of the first weight that cannot be read."""
        found = []
        for code, one in self._rows.items():
            try:
                found.append((code, one.taken()))
            except Refusal:
                one.grams.select()
                raise
        return found

    def taken_or_less(self) -> list[tuple[str, int]]:
        """The same as far as it can be read now, for what is worked out live."""
        read = [(code, one.grams.value_or_none()) for code, one in self._rows.items()]
        return [(code, grams) for code, grams in read if grams]

    def total(self) -> int:
        return sum(grams for _, grams in self.taken_or_less())
