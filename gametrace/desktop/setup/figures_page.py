"""The kitchen's own figures: as they are, beside what the sources say; one opens to be set with a reason."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear, column, row, rule
from gametrace.desktop.setup.figure_editors import SORTS, editor_for
from gametrace.desktop.style import GAP
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import rests_on

GROUPS = (
    ("At the door", "At the door"),
    ("In the cold stores", "Cold stores"),
    ("Hanging", "Hanging"),
    ("On the block", "Block"),
    ("What is not for food", "Not for food"),
    ("changes", "Changes"),
)


class FigureLines(Sheet):
    """The figures of one group, or what was changed.

    Signals: wanted(str): a figure's name. group_chosen(str).
    """

    wanted = Signal(str)
    group_chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Our own figures", parent)
        self.add(Words("They never change what the law or a source says; they stand beside it.", "quiet"))
        self.groups = ChoiceRow(GROUPS, value=GROUPS[0][0], name="Figures", columns=3)
        self.groups.changed.connect(self.group_chosen)
        self.add(self.groups)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(GAP)
        self.add(self._lines)
        self.buttons: dict[str, Button] = {}

    def show_figures(self, figures: Sequence[Any]) -> None:
        """`figures` are the register's OwnFigure records."""
        self._clear()
        for at, one in enumerate(figures):
            if at:
                self._lines.addWidget(rule())
            button = Button("Set", name=f"Set: {one.title}")
            button.clicked.connect(partial(self.wanted.emit, one.name))
            own = Words(f"Our own: {one.words}", "steel") if one.value else Words(one.words)
            said = column(Words(one.title, "strong"), own, *said_words(one), gap=4)
            line = row(said, button)
            line.setStretch(0, 1)
            line.setAlignment(button, Qt.AlignmentFlag.AlignTop)
            self._lines.addLayout(line)
            self.buttons[one.name] = button
            if self.isVisible():
                button.show()  # now, not at the next event: the next Tab must find it

    def show_changes(self, changes: Sequence[Any]) -> None:
        """`changes` are PolicyChange records, newest first."""
        self._clear()
        if not changes:
            self._lines.addWidget(Words("No figure has been set yet: the program's own hold."))
        for one in changes:
            head = Words(f"{day_text(one.at.date())}, {one.by}: {one.title}", "strong")
            what = Words(f"{one.new}; before: {one.old}")
            self._lines.addLayout(column(head, what, Words(f"Why: {one.reason}", "quiet"), gap=4))

    def _clear(self) -> None:
        clear(self._lines)
        self.buttons = {}


def said_words(figure: Any) -> list[Words]:
    """What the sources say, in quiet type with the source and its standing."""
    lines = []
    for one in figure.said:
        standing = rests_on(one.source, one.status)
        lines.append(Words(f"{one.words} [{standing}]" if standing else one.words, "quiet"))
    return lines


class FigureFile(Sheet):
    """One figure, open to be set.

    Signals: kept(): with a reason. taken_back(): what the program starts with holds again. closed().
    """

    kept = Signal()
    taken_back = Signal()
    closed = Signal()

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(" ", parent)
        # All are made at once, in their place, so that Tab goes from the figure to its reason.
        self._editors = {sort: editor_for(sort, today) for sort in SORTS}
        self.editor: Any = next(iter(self._editors.values()))
        self._editor_place = QWidget()
        self._editor_place.setLayout(column(*self._editors.values(), gap=0))
        self.value_field = Field("Our own figure", self._editor_place, name="value")
        self.back = Button("All figures")
        self.back.clicked.connect(self.closed)
        self.now = Words("")
        self._said = QVBoxLayout()
        self.reason = QLineEdit()
        self.reason.setMaxLength(500)
        self.reason_field = Field("Why this figure? It is kept with it", self.reason, name="reason")
        self.act = BigButton("Keep this")
        self.take_back = Button("Take it back")
        self.starts = Words("", "quiet")
        self.trouble = Words("", "amber")
        self.trouble.hide()
        for item in (row(self.back, 1), self.now, Words("What the sources say", "heading"), self._said):
            self.add(item)
        for field in (self.value_field, self.reason_field, self.trouble, self.starts):
            self.add(field)
        self.add(row(self.act, self.take_back, 1))
        self.act.clicked.connect(self.kept)
        self.take_back.clicked.connect(self.taken_back)
        self.reason.returnPressed.connect(self.kept)

    def show_figure(self, figure: Any) -> None:
        self.say_title(figure.title)
        self.now.say(f"Now: {figure.words}")
        clear(self._said)
        for words in said_words(figure):
            self._said.addWidget(words)
        self.editor = self._editors[figure.sort]
        self.editor.set_value(figure.value)
        for sort, editor in self._editors.items():
            editor.setVisible(sort == figure.sort)
        self._editor_place.setFocusProxy(self.editor)
        self.reason.clear()
        self.starts.say(f"Taken back, this holds: {figure.starts_with}.")
        self.take_back.setAccessibleName(f"Take it back to {figure.starts_with}")
        for item in (self.starts, self.take_back):
            item.setVisible(bool(figure.value))
        self.clear_refusals()

    def refuse(self, refusal: Refusal) -> None:
        fields = {"value": self.value_field, "reason": self.reason_field}
        if (field := fields.get(refusal.field)) is not None:
            field.refuse(str(refusal))
            return
        self.trouble.say(str(refusal))
        self.trouble.show()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        for field in (self.value_field, self.reason_field):
            field.clear_refusal()
