"""The ground of every field that reads what is typed: the words stay, and what is wrong is said beneath."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.words import Words, repolish
from gametrace.domain.errors import Refusal


class TypedEdit(QWidget):
    """Subclasses say how to read (`_read`) and how to write (`_written`) a value.

    What is typed is read when the field is left or Enter is pressed. What cannot be read stays as typed.
    Signals: changed(): another value, or none, or unreadable. entered(): Enter on a readable one.
    """

    changed = Signal()
    entered = Signal()

    nothing: Any = None

    def __init__(self, name: str, *, hint: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = QLineEdit()
        self.edit.setMaxLength(60)
        self.edit.setPlaceholderText(hint)
        self.edit.setAccessibleName(name)
        self.sentence = Words("", "amber")
        self.sentence.hide()
        self.line = QHBoxLayout()
        self.line.setContentsMargins(0, 0, 0, 0)
        self.line.setSpacing(8)
        self.line.addWidget(self.edit, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(self.line)
        layout.addWidget(self.sentence)
        self.setFocusProxy(self.edit)
        self.setAccessibleName(name)
        self.edit.textEdited.connect(self._edited)
        self.edit.editingFinished.connect(self._settle)
        self.edit.returnPressed.connect(self._enter)

    def _read(self, typed: str) -> Any:
        raise NotImplementedError

    def _written(self, value: Any) -> str:
        raise NotImplementedError

    def text(self) -> str:
        """What is typed, readable or not."""
        return self.edit.text()

    def value(self) -> Any:
        """The value; `nothing` where nothing is typed; Refusal where it cannot be read."""
        return self._read(self.edit.text()) if self.edit.text().strip() else self.nothing

    def value_or_none(self) -> Any:
        """The value where it can be read, for what is worked out live."""
        try:
            return self.value()
        except Refusal:
            return None

    def set_value(self, value: Any) -> None:
        self.edit.setText("" if value in (None, "") else self._written(value))
        self._tell("")

    def set_text(self, text: str) -> None:
        """Put words in as if a person had typed them and gone on."""
        self.edit.setText(text)
        self._settle()

    def clear(self) -> None:
        self.set_value(None)

    def select(self) -> None:
        self.edit.setFocus()
        self.edit.selectAll()

    def _edited(self) -> None:
        self._tell("")
        self.changed.emit()

    def _settle(self) -> None:
        try:
            self.set_value(self.value())
        except Refusal as refusal:
            self._tell(str(refusal))
        self.changed.emit()

    def _enter(self) -> None:
        if self.value_or_none() not in (None, ""):
            self.entered.emit()

    def _tell(self, sentence: str) -> None:
        self.sentence.say(sentence)
        self.sentence.setVisible(bool(sentence))
        self.edit.setProperty("wrong", bool(sentence))
        self.edit.setAccessibleDescription(sentence)
        repolish(self.edit)
