"""What is to come, a line each, with the ways to settle it; and the hooks for it, day by day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear, column, row


@dataclass(frozen=True, slots=True)
class Coming:
    """One line: its number, what in words, whether it is late, and bodies that may be it."""

    code: str
    words: str
    is_late: bool
    bodies: tuple[tuple[str, str], ...] = ()  # (house number, words)


class ComingList(Sheet):
    """Signals: ticked(str, str): this expectation, that body. cancelled(str, str): it does not come, why.
    taken(str): take it in now.
    """

    ticked = Signal(str, str)
    cancelled = Signal(str, str)
    taken = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("To come", parent)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(12)
        self.add(self._lines)
        self.buttons: dict[tuple[str, str], Button] = {}
        self.reason = QLineEdit()
        self.reason.setMaxLength(500)
        self.reason_field = Field("Why does it not come?", self.reason, name="reason")
        self.confirm = Button("Cancel it")
        self.leave = Button("Leave it", quiet=True)
        self.asking = QWidget()
        self.asking.setLayout(column(self.reason_field, row(self.confirm, self.leave, 1)))
        self.add(self.asking)
        self.asking.hide()
        self._asked = ""
        self.reason.returnPressed.connect(self._confirmed)
        self.confirm.clicked.connect(self._confirmed)
        self.leave.clicked.connect(self.put_away)

    def show_coming(self, lines: Sequence[Coming]) -> None:
        clear(self._lines)
        self.buttons = {}
        for line in lines:
            ask = partial(self.ask_why, line.code)
            acts = [
                self._button(line.code, "take", "Take it in", partial(self.taken.emit, line.code), line),
                self._button(line.code, "cancel", "It does not come", ask, line),
            ]
            for code, words in line.bodies:
                tick = partial(self.ticked.emit, line.code, code)
                acts.append(self._button(line.code, code, f"It is {words}", tick, line))
            said = Words(line.words, "amber" if line.is_late else "strong")
            self._lines.addLayout(column(said, *_in_rows(acts), gap=4))
            if self.isVisible():
                for button in acts:
                    button.show()  # now, not at the next event: the next Tab must find it
        if not lines:
            self._lines.addWidget(
                Words("Nothing is announced. Write down who said what on the telephone.", "quiet")
            )
        if self._asked and self._asked not in {line.code for line in lines}:
            self.put_away()

    def _button(self, code: str, name: str, words: str, call: object, line: Coming) -> Button:
        made = Button(words, name=f"{words}: {line.words}")
        made.clicked.connect(call)
        self.buttons[code, name] = made
        return made

    def ask_why(self, code: str) -> None:
        self._asked = code
        self.reason_field.label.say(f"Why does {code} not come?")
        self.reason_field.clear_refusal()
        self.asking.show()
        self.reason.setFocus()

    def put_away(self) -> None:
        self._asked = ""
        self.reason.clear()
        self.asking.hide()

    def focus_line(self, code: str) -> None:
        if (button := self.buttons.get((code, "take"))) is not None:
            button.setFocus()

    def _confirmed(self) -> None:
        if self._asked:
            self.cancelled.emit(self._asked, self.reason.text().strip())


def _in_rows(buttons: Sequence[Button]) -> list[QHBoxLayout]:
    """Two beside each other: words of bodies are long."""
    return [row(*buttons[at : at + 2], 1, gap=8) for at in range(0, len(buttons), 2)]


class HookTable(Sheet):
    """A line a day: free now, due out, expected in, free then; too few in words and amber."""

    HEADS = ("Day", "Free now", "Due out", "Expected in", "Free then")

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Hooks for what comes", parent)
        self._stores = QVBoxLayout()
        self._stores.setSpacing(16)
        self.add(self._stores)
        self.add(
            Words(
                "Due out is the hanging plan's last day; what is on hold or has no plan is not counted out, "
                "and small game takes no hook.",
                "quiet",
            )
        )
        self.said: list[tuple[str, ...]] = []

    def show_stores(self, stores: Sequence[tuple[str, Sequence[tuple[tuple[str, ...], bool]]]]) -> None:
        """(store's name, its days): each day as its five cells, and whether hooks are short."""
        clear(self._stores)
        self.said = []
        for name, days in stores:
            grid = QGridLayout()
            grid.setHorizontalSpacing(24)
            grid.setVerticalSpacing(4)
            for at, head in enumerate(self.HEADS):
                grid.addWidget(Words(head, "quiet", wrap=False), 0, at)
            for down, (cells, is_short) in enumerate(days, 1):
                self.said.append(cells)
                for at, cell in enumerate(cells):
                    role = "amber" if is_short and at == len(cells) - 1 else ""
                    grid.addWidget(Words(cell, role, wrap=False), down, at)
            grid.setColumnStretch(len(self.HEADS), 1)
            self._stores.addLayout(column(Words(name, "strong"), grid, gap=4))
