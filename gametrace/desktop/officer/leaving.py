"""The way out of the officer's view: a person of the house, by name and by PIN where they have one."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.style import APART, GAP
from gametrace.domain.errors import Refusal


class LeavingPage(QWidget):
    """Signals: left(str, str): this person, with what was typed as PIN. stayed()."""

    left = Signal(str, str)
    stayed = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        people = [
            one for one in bench.ask("people") if one.is_active and one.role not in ("officer", "student")
        ]
        self._choices = [Choice(one.code, f"{one.initials}   {one.name}, {one.role}") for one in people]
        self.people = PickList("Who takes the register back", self._choices)
        self.people.begin()
        self.people.setMaximumWidth(bench.look.px(640))
        self.pin = QLineEdit()
        self.pin.setEchoMode(QLineEdit.EchoMode.Password)
        self.pin.setMaxLength(8)
        self.pin.setMaximumWidth(bench.look.px(320))
        self.pin_field = Field("PIN, where this name has one", self.pin, name="pin")
        self.leave = BigButton("Leave the officer's view")
        self.stay = Button("Stay")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.setSpacing(GAP)
        layout.addWidget(Words("Who takes the register back?", "title"))
        layout.addWidget(Words("A tutor or a technician, under their own name.", "quiet"))
        layout.addWidget(self.people, 1)
        layout.addWidget(self.pin_field)
        layout.addLayout(row(self.leave, self.stay, 1))
        self.setFocusProxy(self.people)
        self.people.picked.connect(self._picked)
        self.pin.returnPressed.connect(self._leave)
        self.leave.clicked.connect(self._leave)
        self.stay.clicked.connect(self.stayed)

    def _picked(self) -> None:
        self.pin.setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        self.pin_field.clear_refusal()
        person = self.people.value()
        if person or not self._choices:  # a register with nobody enrolled yet
            self.left.emit(person, self.pin.text())
        else:
            self.pin_field.refuse("Choose a name first.")

    def refuse(self, refusal: Refusal) -> None:
        self.pin.clear()
        self.pin_field.refuse(str(refusal))

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.stayed.emit()
            return
        super().keyPressEvent(event)
