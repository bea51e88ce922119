"""Small fields only a delivery needs: a plain drop list, toggles for the basis of a weight, a count."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRect, Qt, Signal
from PySide6.QtGui import QPainter, QPalette, QPen
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QWidget,
)

from gametrace.domain.deliveries import Basis
from gametrace.domain.errors import Refusal

_DROP_SIDE, _DROP_ARROW = 11, 36  # px beside the words, and for the arrow
_WRAPPED = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap


class DropList(QComboBox):
    """One of a few fixed words. The wheel does not change it, for a page is scrolled with wet hands.

    Signals: picked(str): another value, by a person.
    """

    picked = Signal(str)

    def __init__(
        self, name: str, choices: Iterable[tuple[str, str]] = (), parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.setMaxVisibleItems(12)
        self.set_choices(choices)
        self.activated.connect(self._activated)
        self.currentIndexChanged.connect(self._give_room)

    def set_choices(self, choices: Iterable[tuple[str, str]]) -> None:
        """Other choices; the one chosen stays so where it is still among them, else the first."""
        kept = self.value()
        self.blockSignals(True)
        self.clear()
        for value, words in choices:
            self.addItem(words, value)
        self.blockSignals(False)
        self.set_value(kept)

    def values(self) -> tuple[str, ...]:
        return tuple(self.itemData(at) for at in range(self.count()))

    def value(self) -> str:
        return self.currentData() or ""

    def set_value(self, value: str) -> None:
        self.setCurrentIndex(max(0, self.findData(value)))

    def _activated(self, index: int) -> None:
        self.picked.emit(self.value())

    def _lines(self) -> QRect:
        """The room the chosen words take, in as many lines as the breadth asks for."""
        room = self.width() - 2 * _DROP_SIDE - _DROP_ARROW
        return self.fontMetrics().boundingRect(0, 0, room, 1000, _WRAPPED, self.currentText())

    def _give_room(self) -> None:
        """Words too long for one line take two: in large type no route is cut."""
        least = self._lines().height() + 2 * _DROP_SIDE
        self.setMinimumHeight(max(least, self.sizeHint().height()))

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self._give_room()

    def keyPressEvent(self, event) -> None:
        before = self.currentIndex()
        super().keyPressEvent(event)
        if self.currentIndex() != before:
            self.picked.emit(self.value())

    def wheelEvent(self, event) -> None:
        event.ignore()

    def paintEvent(self, event) -> None:
        """The style sheet takes the arrow away; this draws one that can be seen at arm's length."""
        painter, option = QStylePainter(self), QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        room = self.rect().adjusted(_DROP_SIDE, 0, -_DROP_SIDE - _DROP_ARROW, 0)
        ink = self.palette().color(QPalette.ColorRole.Text)
        painter.setPen(ink)
        painter.drawText(room, _WRAPPED, self.currentText())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(ink, 2.5))
        across, down = self.width() - 26, self.height() / 2 - 3
        painter.drawPolyline(
            [QPointF(across, down), QPointF(across + 7, down + 7), QPointF(across + 14, down)]
        )


class BasisToggles(QWidget):
    """What is on the scale: skin, head, feet, pluck. Each button says what is so now.

    Signals: changed().
    """

    changed = Signal()

    WORDS = (
        ("in_skin", "In the skin", "Skinned"),
        ("head_on", "Head on", "Head off"),
        ("feet_on", "Feet on", "Feet off"),
        ("pluck_in", "Pluck in", "Pluck out"),
    )

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        self.buttons: dict[str, QPushButton] = {}
        for at, (name, _, _) in enumerate(self.WORDS):
            button = QPushButton()
            button.setProperty("role", "choice")
            button.setCheckable(True)
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.toggled.connect(self._say)
            button.clicked.connect(self.changed)
            self.buttons[name] = button
            grid.addWidget(button, at // 2, at % 2)
        self.setFocusProxy(self.buttons["in_skin"])
        self.set_value(Basis())

    def value(self) -> Basis:
        return Basis(**{name: button.isChecked() for name, button in self.buttons.items()})

    def set_value(self, basis: Basis) -> None:
        for name, button in self.buttons.items():
            button.setChecked(getattr(basis, name))
        self._say()

    def _say(self) -> None:
        for name, when_on, when_off in self.WORDS:
            button = self.buttons[name]
            words = when_on if button.isChecked() else when_off
            button.setText(words)
            button.setAccessibleName(f"On the scale: {words.lower()}. Press to change")


class Count(QLineEdit):
    """How many bodies. `value()` raises Refusal for what is no count."""

    def __init__(self, name: str = "How many", parent: QWidget | None = None) -> None:
        super().__init__("1", parent)
        self.setMaxLength(6)
        self.setAccessibleName(name)

    def value(self) -> int:
        text = self.text().strip()
        if not text:
            return 1
        if not (text.isascii() and text.isdigit()):
            raise Refusal(f"'{text}' is not a count.", "Write the number of bodies, for example 12.", "count")
        return int(text)

    def value_or_none(self) -> int | None:
        try:
            return self.value()
        except Refusal:
            return None

    def set_value(self, count: int) -> None:
        self.setText(str(count))


class Notes(QPlainTextEdit):
    """A longer text. Tab leaves it; Shift+Enter makes a line."""

    def __init__(self, name: str, lines: int = 2, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setTabChangesFocus(True)
        self.setFixedHeight(self.fontMetrics().lineSpacing() * lines + 28)

    def value(self) -> str:
        return self.toPlainText().strip()[:5000]

    def set_value(self, text: str) -> None:
        self.setPlainText(text)
