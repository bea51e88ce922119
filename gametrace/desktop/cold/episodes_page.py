"""Every time a store was warm or unmeasured, in sentences, and what was done about it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget

from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row, shown

SPANS = (("31", "A month"), ("92", "Three months"), ("366", "A year"))


@dataclass(frozen=True, slots=True)
class EpisodeTold:
    """One of them in words. `key` names it while the list is drawn anew."""

    key: str
    line: str  # in the list
    title: str
    facts: tuple[str, ...]
    lots: str  # what stood there then
    answer: str  # '' while nobody said


class EpisodesPage(QWidget):
    """Signals: span_wanted(str): days. chosen(str): a key. wanted(): write the answer down.
    hold_wanted(): hold what stood there. curve_wanted(): show it on the curve."""

    span_wanted = Signal(str)
    chosen = Signal(str)
    wanted = Signal()
    hold_wanted = Signal()
    curve_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.span = ChoiceRow(SPANS, value="31", name="How far back")
        self.count = Words("", "heading")
        self.list = QListWidget()
        self.list.setAccessibleName("Times that were warm or unmeasured")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.title = Words("", "heading")
        self.facts = Words("")
        self.lots = Words("", "quiet")
        self.answer = Words("", "steel")
        self.action = QLineEdit()
        self.result = QLineEdit()
        for edit, name in ((self.action, "What was done?"), (self.result, "What came of it?")):
            edit.setMaxLength(500)
            edit.setAccessibleName(name)
        self.fields = {
            "action": Field("What was done?", self.action, name="action"),
            "result": Field("What came of it? May stay empty", self.result, name="result"),
        }
        self.main = BigButton("Write it down")
        self.hold = Button("Hold what stood there")
        self.curve = Button("Show it on the curve")
        form = QWidget()
        form.setLayout(
            column(
                self.title, self.facts, self.lots, self.answer, *self.fields.values(), self.main,
                row(self.hold, self.curve, 1, gap=8), 1,
            )
        )  # fmt: skip
        self.form = form
        self._scroll = ScrollColumn()
        self._scroll.add(form)
        left = column(row(self.span, 1), self.count, self.list, gap=8)
        both = row(gap=24)
        both.addLayout(left, 5)
        both.addWidget(self._scroll, 4)
        self.setLayout(both)
        self._told: dict[str, EpisodeTold] = {}
        self._enter = EnterMovesOn(form)
        self._enter.left.connect(self._on)
        self._enter.watch()
        self.span.changed.connect(self.span_wanted)
        self.list.currentItemChanged.connect(self._moved)
        self.list.itemActivated.connect(self._to_form)
        self.main.clicked.connect(self.wanted)
        self.hold.clicked.connect(self.hold_wanted)
        self.curve.clicked.connect(self.curve_wanted)
        set_reading_order(self)

    def set_episodes(self, told: Sequence[EpisodeTold], count: str) -> None:
        """Show these; the chosen one stays chosen where it is still there."""
        chosen = self.key
        self._told = {one.key: one for one in told}
        self.count.say(count)
        self.list.blockSignals(True)
        self.list.clear()
        for one in told:
            item = QListWidgetItem(shown(one.line, 300))
            item.setData(Qt.ItemDataRole.UserRole, one.key)
            self.list.addItem(item)
        keys = list(self._told)
        self.list.setCurrentRow(keys.index(chosen) if chosen in keys else (0 if keys else -1))
        self.list.blockSignals(False)
        self._size_rows()
        self._show(self.key, is_other=self.key != chosen)

    @property
    def key(self) -> str:
        item = self.list.currentItem()
        return item.data(Qt.ItemDataRole.UserRole) if item is not None else ""

    def choose(self, key: str) -> None:
        keys = list(self._told)
        if key in keys:
            self.list.setCurrentRow(keys.index(key))

    def refuse(self, field: str, sentence: str) -> None:
        self.fields.get(field, self.fields["action"]).refuse(sentence)

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self._size_rows()

    def _size_rows(self) -> None:
        """As high as its words need at this width: a list does not find that out by itself."""
        room = max(self.list.viewport().width() - 40, 200)
        metrics = self.list.fontMetrics()
        for at in range(self.list.count()):
            item = self.list.item(at)
            flags = int(Qt.TextFlag.TextWordWrap)
            high = metrics.boundingRect(0, 0, room, 2000, flags, item.text()).height()
            item.setSizeHint(QSize(room, max(high + 20, self._look.px(52))))

    def _moved(self) -> None:
        self._show(self.key, is_other=True)
        self.chosen.emit(self.key)

    def _show(self, key: str, *, is_other: bool) -> None:
        one = self._told.get(key)
        self.form.setVisible(one is not None)
        if one is None:
            return
        self.title.say(one.title)
        self.facts.say("\n".join(one.facts))
        self.lots.say(one.lots)
        self.answer.say(one.answer)
        self.answer.setVisible(bool(one.answer))
        if is_other:
            self.action.clear()
            self.result.clear()
            for field in self.fields.values():
                field.clear_refusal()

    def _to_form(self) -> None:
        self.action.setFocus(Qt.FocusReason.TabFocusReason)

    def _on(self) -> None:
        self.form.focusNextPrevChild(True)
