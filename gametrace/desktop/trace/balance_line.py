"""The balance of an animal as a line of buttons, each leading to its lots; and how it stands, in words."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, clear, set_role
from gametrace.domain.quantities import kg_figure
from gametrace.register.records import Balance

_SHORT = {
    "condemned and binned": "binned",
    "back to the supplier": "returned",
    "on the block, still unweighed": "unweighed",
    "issued to classes and restaurants": "issued",
    "supplied to other businesses": "supplied",
}
_ROLE = {"green": "steel", "amber": "amber", "red": "plum"}


class BalanceLine(QWidget):
    """Signals: wanted(str, object): the words of a line, and the codes of its lots."""

    wanted = Signal(str, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.buttons: dict[str, Button] = {}
        self.received = Words("", "strong", wrap=False)
        self.standing = Words("")
        self._codes: dict[str, tuple[str, ...]] = {}
        self._line = QHBoxLayout()
        self._line.setSpacing(6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self._line)
        layout.addWidget(self.standing)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_balance(self, balance: Balance | None, standing: str = "", words: str = "") -> None:
        """Nothing where nothing can be balanced; what is unaccounted is always there."""
        self.setVisible(balance is not None)
        clear(self._line)
        self.buttons, self._codes = {}, {}
        if balance is None:
            return
        self.received = Words(f"{kg_figure(balance.received_grams)} kg\nreceived =", "strong", wrap=False)
        self._line.addWidget(self.received)
        for row in balance.rows:
            if row.grams or row.words == "unaccounted":
                self._add(row.words, row.grams, row.codes)
        self._line.addStretch(1)
        self.standing.say(words)
        set_role(self.standing, _ROLE.get(standing, ""))

    def figures(self) -> tuple[tuple[str, str], ...]:
        """(words, kilograms) as they are shown."""
        return tuple((words, button.text().split()[0]) for words, button in self.buttons.items())

    def _add(self, words: str, grams: int, codes: Sequence[str]) -> None:
        lots = "1 lot" if len(codes) == 1 else f"{len(codes)} lots"
        kg = kg_figure(grams)
        button = Button(f"{kg}\n{_SHORT.get(words, words)}", name=f"{kg} kg {words}, {lots}")
        button.setEnabled(bool(codes))
        button.clicked.connect(self._pressed)
        self.buttons[words] = button
        self._codes[words] = tuple(codes)
        self._line.addWidget(button)

    def _pressed(self) -> None:
        pressed = self.sender()
        for words, button in self.buttons.items():
            if button is pressed:
                self.wanted.emit(words, self._codes[words])
