"""A round by hand: one field a store, Enter moves on. 'Not taken because' is an answer like any other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QPushButton, QSizePolicy, QWidget

from gametrace.desktop.cold.saying import beside_limit
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import CelsiusEdit
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row, set_role

OWN_DISPLAY = "display"


@dataclass(frozen=True, slots=True)
class RoundStore:
    """A store to be read: its last reading in words, and the kitchen's limit."""

    code: str
    name: str
    last: str
    limit_tenths_c: int


class RoundRow(QWidget):
    """One store. Signals: passed(): Enter, on to the next."""

    passed = Signal()

    def __init__(self, store: RoundStore, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.store = store
        self.name = Words(store.name, "heading")
        self.last = Words(store.last, "quiet")
        self.degrees = CelsiusEdit(f"{store.name}, degrees")
        self.degrees.setFixedWidth(190)
        self.not_taken = QPushButton("Not taken")
        self.not_taken.setProperty("role", "choice")
        self.not_taken.setCheckable(True)
        self.not_taken.setAccessibleName(f"{store.name}: not taken")
        self.why = QLineEdit()
        self.why.setMaxLength(300)
        self.said = Words("", "amber")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(3, 1)
        grid.addWidget(_half(self.name, self.last), 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.degrees, 0, 1, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.not_taken, 0, 2, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(_half(self.said, self.why), 0, 3, Qt.AlignmentFlag.AlignTop)
        self.degrees.changed.connect(self._changed)
        self.degrees.edit.returnPressed.connect(self._enter)
        self.why.returnPressed.connect(self.passed)
        self.not_taken.toggled.connect(self._turned)
        self._changed()

    def is_warm(self) -> bool:
        tenths = self.degrees.value_or_none()
        return tenths is not None and tenths > self.store.limit_tenths_c

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence)
        set_role(self.said, "amber")
        self.said.show()
        self.degrees.setFocus(Qt.FocusReason.OtherFocusReason)

    def _turned(self, is_not_taken: bool) -> None:
        if is_not_taken:
            self.degrees.clear()
        self.degrees.setEnabled(not is_not_taken)
        self._changed()
        if is_not_taken:
            self.why.setFocus(Qt.FocusReason.OtherFocusReason)

    def _changed(self) -> None:
        tenths = self.degrees.value_or_none()
        warm, gap = self.is_warm(), self.not_taken.isChecked()
        self.said.say("" if tenths is None else beside_limit(tenths, self.store.limit_tenths_c))
        set_role(self.said, "amber" if warm else "quiet")
        self.said.setVisible(tenths is not None)
        self.why.setVisible(warm or gap)
        label = "Why was it not taken?" if gap else "What was done? May stay empty"
        self.why.setPlaceholderText(label)
        self.why.setAccessibleName(f"{self.store.name}: {label}")

    def _enter(self) -> None:
        if self.is_warm() and not self.why.text():
            self.why.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.passed.emit()


def _half(upper: QWidget, lower: QWidget) -> QWidget:
    """As wide as every other one, whatever is in it, so that the fields stand under each other."""
    made = QWidget()
    made.setLayout(column(upper, lower, gap=4))
    made.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
    return made


class RoundPage(QWidget):
    """Signals: wanted(): write it down."""

    wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.probe = ChoiceRow([(OWN_DISPLAY, "The store's own display")], name="Read with")
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.rows: dict[str, RoundRow] = {}
        self._rows = column(gap=20)
        self.main = BigButton("Write the round down")
        scroll = ScrollColumn()
        scroll.add(row(Words("Read with", wrap=False), self.probe, 1))
        scroll.add(self._rows)
        scroll.add(self.trouble)
        scroll.add(row(self.main, 1))
        scroll.add_stretch()
        self.setLayout(column(scroll))
        self.main.clicked.connect(self.wanted)
        self._stores: tuple[RoundStore, ...] = ()

    def set_probes(self, probes: Sequence[tuple[str, str]], chosen: str) -> None:
        choices = [*probes, (OWN_DISPLAY, "The store's own display")]
        if tuple(value for value, _ in choices) != self.probe.values():
            self.probe.set_choices(choices, chosen or choices[0][0])
            set_reading_order(self)

    def set_stores(self, stores: Sequence[RoundStore]) -> None:
        """Fields stay as typed while the stores are the same."""
        if [store.code for store in stores] != list(self.rows):
            clear(self._rows)
            self.rows = {store.code: RoundRow(store) for store in stores}
            for code, one in self.rows.items():
                self._rows.addWidget(one)
                one.passed.connect(partial(self.go_on, code))
            set_reading_order(self)
        for store in stores:
            self.rows[store.code].store = store
            self.rows[store.code].last.say(store.last)

    @property
    def first_field(self) -> QWidget | None:
        """Where a hand begins."""
        first = next(iter(self.rows.values()), None)
        return first.degrees if first else None

    def start(self) -> None:
        """The hand on the first field."""
        if self.first_field is not None:
            self.first_field.setFocus(Qt.FocusReason.TabFocusReason)

    def go_on(self, code: str) -> None:
        """Enter in a store's row: to the next, after the last to the main act."""
        codes = list(self.rows)
        at = codes.index(code) + 1
        if at < len(codes):
            self.rows[codes[at]].degrees.select()
        else:
            self.main.setFocus(Qt.FocusReason.TabFocusReason)

    def clear_fields(self) -> None:
        for one in self.rows.values():
            one.not_taken.setChecked(False)
            one.degrees.clear()
            one.why.clear()
            one._changed()
        self.trouble.hide()

    def refuse(self, sentence: str) -> None:
        self.trouble.say(sentence)
        self.trouble.show()
