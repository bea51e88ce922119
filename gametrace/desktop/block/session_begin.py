"""A cutting session is begun here: the day, the group, the tutor, how many tables."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.block.state_box import CodeBox
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, row


class BeginSheet(Sheet):
    """Signals: wanted()."""

    wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__("Begin a cutting session", parent)
        self.group = QLineEdit()
        self.group.setMaxLength(60)
        self.group.setAccessibleName("Group")
        self.tutor = CodeBox("Tutor", "whoever is at the keyboard")
        self.tables = CountEdit("How many tables", most=20, field="stations")
        self.tables.set_value(2)
        self.on = OptionalDate("On which day", today)
        self.begin = BigButton("Begin the session")
        self.fields = {
            "group": Field("Group", self.group, name="group"),
            "tutor": Field("Tutor", self.tutor, name="tutor"),
            "stations": Field("How many tables", self.tables, name="stations"),
            "on": Field("On which day; nothing for today", self.on, name="on"),
        }
        self.add(
            Words(
                "Each table has its own animal and its own balance. A session may stay open overnight.",
                "quiet",
            )
        )
        self.add(self.fields["group"])
        self.add(row(self.fields["tutor"], self.fields["stations"]))
        self.add(self.fields["on"])
        self.add(row(self.begin, 1))
        self.add_stretch()
        self.begin.clicked.connect(self.wanted)
        self.group.returnPressed.connect(self.tables.edit.setFocus)
        self.tables.entered.connect(self.wanted)

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["group"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()
