"""A row of large buttons of which one is chosen: decisions, answers, sexes. Arrows walk along it.

Where they do not fit beside each other, they stand in as many rows as they need: no word is cut.
"""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QPushButton, QSizePolicy, QWidget

# The four answers a declaration can give.
ANSWERS = (("yes", "Yes"), ("no", "No"), ("not stated", "Not stated"), ("can't read", "Can't read"))


class ChoiceRow(QWidget):
    """Choices as (value, words). `value()` is '' until one is chosen, unless a first one is given.

    Signals: changed(str): another value, by a person. entered(): Enter on what is chosen.
    """

    changed = Signal(str)
    entered = Signal()

    def __init__(
        self,
        choices: Iterable[tuple[str, str]],
        *,
        value: str = "",
        name: str = "",
        columns: int = 0,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._columns = columns
        self._across = 0
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._buttons: dict[str, QPushButton] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(8)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._name = name
        self.setAccessibleName(name)
        self._group.buttonClicked.connect(self._clicked)
        self.set_choices(choices, value)

    def set_choices(self, choices: Iterable[tuple[str, str]], value: str = "") -> None:
        """Other choices, for words that depend on another answer."""
        for button in self._buttons.values():
            self._group.removeButton(button)
            self._grid.removeWidget(button)
            button.hide()
            button.deleteLater()
        self._buttons = {}
        for key, words in choices:
            button = QPushButton(words)
            button.setProperty("role", "choice")
            button.setCheckable(True)
            button.setAutoDefault(True)
            button.setAccessibleName(f"{self._name}: {words}" if self._name else words)
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.installEventFilter(self)
            self._buttons[key] = button
            self._group.addButton(button)
        self._lay_out()
        for button in self._buttons.values():
            if self.isVisible():
                button.show()  # now, not at the next event: the next Tab must find it
        self.set_value(value)

    # -- room -------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self._across = self._fitting()
        for at, button in enumerate(self._buttons.values()):
            self._grid.addWidget(button, at // self._across, at % self._across)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """Room for the words bold, as they are on the one chosen, beside each other as was asked for."""
        needs = [_bold_width(button) for button in self._buttons.values()]
        across = min(self._columns or 99, len(needs)) or 1
        wide = sum(max(needs[at::across]) for at in range(across)) if needs else 0
        hint = super().sizeHint()
        return QSize(max(hint.width(), wide + (across - 1) * self._grid.spacing()), hint.height())

    def _fitting(self) -> int:
        """As many beside each other as were asked for, or as find room for their words."""
        wanted = min(self._columns or 99, len(self._buttons)) or 1
        if not self.isVisible():
            return wanted
        needs = [button.sizeHint().width() for button in self._buttons.values()]
        for across in range(wanted, 1, -1):
            wide = sum(max(needs[at::across]) for at in range(across))
            if wide + (across - 1) * self._grid.spacing() <= self.width():
                return across
        return 1

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        if self._fitting() != self._across:
            self._lay_out()

    def showEvent(self, event) -> None:
        super().showEvent(event)
        if self._fitting() != self._across:
            self._lay_out()

    def button(self, value: str) -> QPushButton:
        return self._buttons[value]

    def set_drawing(self, value: str, icon, size: int) -> None:
        """A drawing over or beside the words of one choice."""
        self._buttons[value].setIcon(icon)
        self._buttons[value].setIconSize(QSize(size, size))

    def values(self) -> tuple[str, ...]:
        return tuple(self._buttons)

    def value(self) -> str:
        return next((key for key, button in self._buttons.items() if button.isChecked()), "")

    def set_value(self, value: str) -> None:
        """Choose without telling; an unknown value chooses none."""
        self._group.setExclusive(False)
        for key, button in self._buttons.items():
            button.setChecked(key == value)
        self._group.setExclusive(True)
        chosen = self._buttons.get(value) or next(iter(self._buttons.values()), None)
        if chosen is not None:
            self.setFocusProxy(chosen)

    def choose(self, value: str) -> None:
        """Choose as a person does, telling."""
        self._buttons[value].click()

    def eventFilter(self, watched, event) -> bool:
        """Arrows walk along the row and choose. Enter chooses; on what is chosen already it goes on."""
        if event.type() == QEvent.Type.KeyPress and watched in self._buttons.values():
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and watched.isChecked():
                self.entered.emit()
                return True
            rows = self._across if self._across < len(self._buttons) else 1
            step = {
                Qt.Key.Key_Left: -1,
                Qt.Key.Key_Right: 1,
                Qt.Key.Key_Up: -rows,
                Qt.Key.Key_Down: rows,
            }.get(event.key())
            if step is not None:
                buttons = list(self._buttons.values())
                to = buttons.index(watched) + step
                if 0 <= to < len(buttons):
                    buttons[to].setFocus(Qt.FocusReason.OtherFocusReason)
                    buttons[to].click()
                return True
        return super().eventFilter(watched, event)

    def _clicked(self, button) -> None:
        self.setFocusProxy(button)
        self.changed.emit(self.value())


def _bold_width(button: QPushButton) -> int:
    bold = button.font()
    bold.setWeight(QFont.Weight.DemiBold)
    more = QFontMetrics(bold).horizontalAdvance(button.text()) - button.fontMetrics().horizontalAdvance(
        button.text()
    )
    return button.sizeHint().width() + max(0, more)
