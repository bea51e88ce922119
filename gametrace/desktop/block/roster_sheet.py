"""The roster: codes for students, with a name only where one is wanted; a leaver is forgotten here."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, row


class RosterSheet(Sheet):
    """Signals: add_wanted(str): a number, or names with commas. forget_wanted(str, str): code, reason."""

    add_wanted = Signal(str)
    forget_wanted = Signal(str, str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__("Who cuts", parent)
        self.table = RecordTable(
            look,
            "The roster",
            (
                Column("code", "Code", lambda one: one.code, 90),
                Column("name", "Name", lambda one: one.name or "not given"),
                Column("group", "Group", lambda one: one.group, 130),
            ),
            lambda one: one.code,
        )
        self.table.setMinimumHeight(look.px(150))
        self.none = Words(
            "No codes yet. Give some out: what a student cuts is written under the code.", "quiet"
        )
        self.more = QLineEdit()
        self.more.setMaxLength(2000)
        self.more.setPlaceholderText("12, or: Ann, Bo, Cy")
        self.reason = QLineEdit()
        self.reason.setMaxLength(200)
        self.add_key = Button("Give out codes")
        self.forget_key = Button("Take off the roster")
        self.fields = {
            "names": Field("More: how many codes, or names with commas", self.more, name="names"),
            "reason": Field("Forget the one picked; why", self.reason, name="reason"),
        }
        self.add(self.none)
        self.add(self.table, 1)
        self.add(self.fields["names"])
        self.add(row(self.add_key, 1))
        self.add(self.fields["reason"])
        self.add(row(self.forget_key, 1))
        self.add_key.clicked.connect(self._add)
        self.more.returnPressed.connect(self._add)
        self.forget_key.clicked.connect(self._forget)

    def set_roster(self, students: Sequence[Any]) -> None:
        self.table.set_records(students)
        self.none.setVisible(not students)
        self.table.setVisible(bool(students))
        self.fields["reason"].setVisible(bool(students))
        self.forget_key.setVisible(bool(students))

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["names"]), sentence)

    def done(self) -> None:
        self.more.clear()
        self.reason.clear()
        for field in self.fields.values():
            field.clear_refusal()

    def _add(self) -> None:
        self.add_wanted.emit(self.more.text())

    def _forget(self) -> None:
        picked = self.table.current()
        if picked is None:
            self.refuse("reason", "Pick who leaves in the list first.")
            return
        self.forget_wanted.emit(picked.code, self.reason.text())


def names_from(typed: str) -> tuple[str, ...]:
    """'3' gives three empty names, 'Ann, Bo' two; nothing gives none."""
    plain = typed.strip()
    if plain.isascii() and plain.isdigit():
        return ("",) * min(int(plain), 1000)
    return tuple(name.strip() for name in plain.split(",") if name.strip())
