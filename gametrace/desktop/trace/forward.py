"""Where it went, as a list: one line each, and under it the line in the hand, uncut."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words
from gametrace.desktop.trace.wording import lot_sentence, nowhere
from gametrace.domain.quantities import kg_figure
from gametrace.register.records import Trace, TraceLot


class ForwardList(QWidget):
    """Signals: moved(str): the code under the hand. chosen(str): Enter or a press on it."""

    moved = Signal(str)
    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._trace: Trace | None = None
        self._only = ""
        self.table = RecordTable(look, "Where it went", _COLUMNS, _code_of)
        self.nowhere = Words("", "quiet")
        self.detail = Words("")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.nowhere)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.detail)
        layout.addStretch()
        self.table.moved.connect(self._moved)
        self.table.chosen.connect(self._chosen)

    def show_only(self, words: str, codes: Sequence[str]) -> None:
        """The lots behind one line of the balance; the same line again shows all of them."""
        if self._trace is None:
            return
        self._only = "" if self._only == words else words
        if not self._only:
            self.show_trace(self._trace)
            return
        lots = [lot for lot in self._trace.forward if lot.code in set(codes)]
        itself = ", ".join(code for code in codes if code not in {lot.code for lot in lots})
        more = f" {itself} itself." if itself else ""
        self.nowhere.say(f"Only {words}.{more} Press it again for all.")
        self.nowhere.show()
        self.table.setVisible(bool(lots))
        self.table.set_records(lots)

    def show_trace(self, trace: Trace) -> None:
        self._trace, self._only = trace, ""
        self.table.setVisible(bool(trace.forward))
        self.nowhere.setVisible(not trace.forward)
        self.nowhere.say(nowhere(trace))
        self.table.set_records(trace.forward)

    def codes(self) -> tuple[str, ...]:
        return tuple(lot.code for lot in self.table.records_model.records())

    def show_code(self, code: str) -> None:
        """The line of this code, if it is on the list."""
        row = self.table.records_model.row_of(code) if code else -1
        self.detail.say(lot_sentence(self.table.records_model.record(row)) if row >= 0 else "")
        self.table.choose_id(code)

    def _moved(self, lot: TraceLot) -> None:
        self.moved.emit(lot.code)

    def _chosen(self, lot: TraceLot) -> None:
        self.chosen.emit(lot.code)


def _code_of(lot: TraceLot) -> str:
    return lot.code


def _what(lot: TraceLot) -> str:
    return f"{lot.code} {lot.name}"


def _grams(lot: TraceLot) -> str:
    return kg_figure(lot.grams_from)


def _grams_number(lot: TraceLot) -> int:
    return lot.grams_from


def _where(lot: TraceLot) -> str:
    if lot.kind == "dish":
        return lot.detail or lot.where
    return lot.where or lot.detail or day_text(lot.when.date())


def _state(lot: TraceLot) -> str:
    return lot.state


_COLUMNS = (
    Column("what", "What", _what, 264),
    Column("grams", "kg of it", _grams, 88, sort=_grams_number, is_figure=True),
    Column("state", "State", _state, 104),
    Column("where", "Where, when", _where),
)
