"""A quick form: fields of any kind by their name, Enter from one to the next, the act at the end."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.desktop.parts.words import Words, column, row
from gametrace.domain.errors import Refusal


class RecordForm(QWidget):
    """Fields scroll where they must; the act stands below them. Signals: wanted(): the act."""

    wanted = Signal()

    def __init__(self, hint: str, act: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self.column = ScrollColumn()
        self.column.body.setSpacing(8)
        if hint:
            self.column.add(Words(hint, "quiet"))
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.act = BigButton(act)
        self.act.clicked.connect(self.wanted)

    def add(self, name: str, label: str, inner: QWidget, hint: str = "") -> Any:
        field = Field(label, inner, name=name, hint=hint)
        self.fields[name] = field
        self.column.add(field)
        if isinstance(inner, TypedEdit):
            inner.edit.returnPressed.connect(self.go_on)
            inner.changed.connect(field.clear_refusal)
        elif isinstance(inner, ChoiceRow):
            inner.entered.connect(self.go_on)
            inner.changed.connect(field.clear_refusal)
        elif isinstance(inner, QLineEdit):
            inner.returnPressed.connect(self.go_on)
            inner.textEdited.connect(field.clear_refusal)
        return inner

    def line(self, name: str, label: str, *, hint: str = "", most: int = 200) -> QLineEdit:
        edit = QLineEdit()
        edit.setMaxLength(most)
        edit.setPlaceholderText(hint)
        made: QLineEdit = self.add(name, label, edit)
        return made

    def beside(self, *names: str) -> None:
        """Put fields that were added under each other on one line."""
        line = row(gap=8)
        for name in names:
            field = self.fields[name]
            self.column.body.removeWidget(field)
            line.addWidget(field, 1, Qt.AlignmentFlag.AlignTop)
        self.column.add(line)

    def finish(self) -> None:
        """After the last field."""
        self.column.add(self.trouble)
        self.column.add_stretch()
        self.setLayout(column(self.column, self.act, gap=8))
        self.layout().setStretch(0, 1)
        first = next(iter(self.fields.values()), None)
        self.setFocusProxy(first.inner if first else self.act)

    def value(self, name: str) -> Any:
        """What stands in a field; a Refusal that names the field where it cannot be read."""
        inner = self.fields[name].inner
        if isinstance(inner, QLineEdit):
            return inner.text().strip()
        try:
            return inner.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, name) from refusal

    def needed(self, name: str, sentence: str) -> Any:
        """The value of a field that must not be empty."""
        value = self.value(name)
        if value in (None, ""):
            raise Refusal(sentence, "Type it, then go on.", name)
        return value

    def refuse(self, refusal: Refusal) -> None:
        field = self.fields.get(refusal.field)
        if field is not None and field.isVisibleTo(self):
            field.refuse(str(refusal))
        else:
            self.trouble.say(str(refusal))
            self.trouble.show()

    def clear(self, *keep: str) -> None:
        self.trouble.hide()
        for name, field in self.fields.items():
            field.clear_refusal()
            if name not in keep and not isinstance(field.inner, ChoiceRow):
                field.inner.clear()

    def go_on(self) -> None:
        """Enter: the next field, and from the last one the act."""
        shown = [field for field in self.fields.values() if field.isVisibleTo(self)]
        at = next((i for i, field in enumerate(shown) if _has_focus(field)), len(shown) - 1)
        if at + 1 < len(shown):
            shown[at + 1].inner.setFocus()
        else:
            self.wanted.emit()


def _has_focus(field: Field) -> bool:
    inside = field.focusWidget()
    return inside is not None and inside.hasFocus()
