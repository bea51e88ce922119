"""Calls about a declaration: what nobody can read on it, what was said on the telephone, by whom.

The card keeps saying what it says; the spoken answer stands beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.fields import DropList
from gametrace.desktop.delivery.paper_part import STATEMENTS, line_edit
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.words import Words, clear, column, row

if TYPE_CHECKING:
    from gametrace.register.animal_file import Call

ABOUT = (
    *STATEMENTS,
    ("killed_on", "The day of killing"),
    ("kill_time", "The time of killing"),
    ("kill_place", "The place of killing"),
    ("notifiable", "A notifiable sign"),
    ("other", "Something else"),
)
WORDS = dict(ABOUT)
KEEPS = "The card keeps saying what it says; the spoken answer stands beside it."


def call_words(call: Call) -> str:
    """'The time of killing: “half past seven”, said Rob Finch to AB, 20 November 2026 09:00.'"""
    from gametrace.register.clock import wall_text

    about = WORDS.get(call.about, call.about)
    return f"{about}: “{call.answer}”, said {call.spoken_by} to {call.taken_by}, {wall_text(call.at)}."


def open_words(count: int) -> str:
    """What stands behind the heading."""
    return f"{count} to make" if count else ""


class CallsPart(QWidget):
    """Signals: wanted(): write the call down."""

    wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.open = Words("", "strong")
        self.about = DropList("What the call was about", ABOUT)
        self.answer = line_edit("What was said", 500)
        self.spoken_by = line_edit("Who said it", 120)
        self.act = Button("Write down the call")
        self._made = column(gap=4)
        self.fields = {
            "about": Field("About", self.about, name="call_about"),
            "answer": Field("What was said", self.answer, name="call_answer"),
            "spoken_by": Field("Who said it", self.spoken_by, name="call_spoken_by"),
        }
        self.setLayout(
            column(
                self.open, *self.fields.values(), row(self.act, 1), self._made, Words(KEEPS, "quiet"), gap=8
            )
        )
        self.act.clicked.connect(self.wanted)

    def show_calls(self, to_make: Sequence[str], calls: Sequence[Call], speaker: str) -> None:
        """The calls still to make first; `speaker` is whom the card names."""
        names = [WORDS.get(name, name) for name in to_make]
        self.open.say(f"Nobody has rung yet about: {'; '.join(names)}." if names else "No call is waiting.")
        first = [(name, WORDS[name]) for name in to_make if name in WORDS]
        self.about.set_choices([*first, *(one for one in ABOUT if one not in first)])
        if first:
            self.about.set_value(first[0][0])
        if not self.spoken_by.text():
            self.spoken_by.setText(speaker)
        clear(self._made)
        for call in calls:
            self._made.addWidget(Words(call_words(call)))

    def start_anew(self) -> None:
        self.answer.clear()
        self.spoken_by.clear()
        self.clear_refusals()

    def refuse(self, field: str, sentence: str) -> bool:
        if field not in self.fields:
            return False
        self.fields[field].refuse(sentence)
        return True

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()
