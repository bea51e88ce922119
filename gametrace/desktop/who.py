"""The page that asks who is at the keyboard: a large list of names, one press; then the PIN if there is one.

Typing initials finds the name in the list, Enter takes it, the PIN and Enter: six to ten keys for a change of
hands. The same page lies over the whole window while it is locked; then there is no way back.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.style import APART, GAP
from gametrace.domain.errors import Refusal

_PAD = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "", "0", "⌫")


class PinPart(QWidget):
    """One PIN, by keys or by finger. Signals: entered()."""

    entered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = QLineEdit()
        self.edit.setEchoMode(QLineEdit.EchoMode.Password)
        self.edit.setMaxLength(8)
        self.edit.setInputMethodHints(Qt.InputMethodHint.ImhDigitsOnly | Qt.InputMethodHint.ImhHiddenText)
        self.field = Field("PIN", self.edit, name="pin")
        self.go_on = BigButton("Go on")
        pad = QGridLayout()
        pad.setSpacing(8)
        for at, digit in enumerate(_PAD):
            if digit:
                key = Button(digit, name="Take the last digit back" if digit == "⌫" else digit)
                key.setMinimumWidth(72)
                key.setFocusPolicy(Qt.FocusPolicy.NoFocus)
                key.clicked.connect(partial(self._pressed, digit))
                pad.addWidget(key, at // 3, at % 3)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.field)
        layout.addLayout(row(pad, 1))
        layout.addLayout(row(self.go_on, 1))
        self.setFocusProxy(self.edit)
        self.edit.returnPressed.connect(self.entered)
        self.go_on.clicked.connect(self.entered)

    def ask(self, whose: str) -> None:
        self.field.label.say(f"PIN of {whose}")
        self.edit.setAccessibleName(f"PIN of {whose}")
        self.field.clear_refusal()
        self.edit.clear()
        self.edit.setFocus()

    def refuse(self, refusal: Refusal) -> None:
        self.edit.clear()
        self.field.refuse(str(refusal))

    def _pressed(self, digit: str) -> None:
        if digit == "⌫":
            self.edit.backspace()
        else:
            self.edit.insert(digit)
        self.edit.setFocus()


class WhoPage(QWidget):
    """Signals: chosen(str): the code of who is here now, '' for nobody new."""

    chosen = Signal(str)

    def __init__(self, bench: Bench, parent: QWidget | None = None, *, is_lock: bool = False) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._bench = bench
        self._people = {one.code: one for one in bench.ask("people") if one.is_active}
        choices = [
            Choice(one.code, f"{one.initials}   {one.name}, {one.role}{' · PIN' if one.has_pin else ''}")
            for one in self._people.values()
        ]
        self.list = PickList("Who is at the keyboard", choices)
        self.list.set_value(bench.person)
        self.pin = PinPart()
        self.pin.setMaximumWidth(bench.look.px(440))
        self.pin.hide()
        self.back = Button("Back")
        if is_lock:
            self.back.hide()
        self._is_lock = is_lock
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.setSpacing(GAP)
        title = "Locked. Who is at the keyboard?" if is_lock else "Who is at the keyboard?"
        quiet = "Every entry carries the initials of who wrote it."
        layout.addWidget(Words(title, "title"))
        layout.addWidget(
            Words(f"{quiet} What was being typed is still there." if is_lock else quiet, "quiet")
        )
        right = QVBoxLayout()
        right.addWidget(self.pin)
        right.addStretch(1)
        middle = QWidget()  # bounded as one, so that the list begins where the title does
        middle.setMaximumWidth(bench.look.px(1120))
        both = row(self.list, right, gap=APART)
        both.setContentsMargins(0, 0, 0, 0)
        both.setStretch(0, 3)
        both.setStretch(1, 2)
        middle.setLayout(both)
        across = row(middle)
        across.setStretch(0, 1)
        across.addStretch(0)
        layout.addLayout(across, 1)
        layout.addWidget(self.back)
        self.setFocusProxy(self.list)
        self.list.picked.connect(self._picked)
        self.list.moved.connect(self._moved)
        self.pin.entered.connect(self._pin_given)
        self.back.clicked.connect(self._back)

    def choose(self, code: str) -> None:
        """A name that was here before: its PIN is asked at once."""
        if code in self._people:
            self.list.set_value(code)
            if self._people[code].has_pin:
                self._picked(code)

    def _picked(self, code: str) -> None:
        if self._people[code].has_pin:
            self.pin.show()
            self.pin.ask(self._people[code].initials)
        else:
            self._sign_in(code, "")

    def _moved(self, _code: str) -> None:
        self.pin.hide()

    def _pin_given(self) -> None:
        self._sign_in(self.list.value(), self.pin.edit.text())

    def _sign_in(self, code: str, pin: str) -> None:
        call = partial(self._bench.acts.sign_in, self._bench.register, person=code, pin=pin)
        if self._bench.guarded(partial(_done, call), on_refusal=self.pin.refuse):
            self.chosen.emit(code)

    def _back(self) -> None:
        if not self._is_lock:
            self.chosen.emit("")

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            if self.pin.isVisible():
                self.pin.hide()
                self.list.setFocus()
            else:
                self._back()
            return
        super().keyPressEvent(event)


def _done(call) -> bool:
    call()
    return True
