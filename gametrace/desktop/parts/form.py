"""A short form on a sheet: lines and choices by their field's name, a main act, refusals at their place."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, row
from gametrace.domain.errors import Refusal


class Form(Sheet):
    """Fields in the order they are added. Enter in the last line is the act.

    Signals: wanted(): the act.
    """

    wanted = Signal()

    def __init__(self, title: str, act: str, parent: QWidget | None = None) -> None:
        super().__init__(title, parent)
        self.fields: dict[str, Field] = {}
        self.act = BigButton(act)
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.act.clicked.connect(self.wanted)

    def line(self, name: str, label: str, *, hint: str = "", most: int = 200) -> QLineEdit:
        edit = QLineEdit()
        edit.setMaxLength(most)
        edit.setPlaceholderText(hint)
        edit.returnPressed.connect(self._go_on)
        self._add(name, label, edit)
        return edit

    def choice(
        self, name: str, label: str, choices: Iterable[tuple[str, str]], *, value: str = "", columns: int = 0
    ) -> ChoiceRow:
        made = ChoiceRow(choices, value=value, name=label, columns=columns)
        made.entered.connect(self._go_on)
        self._add(name, label, made)
        return made

    def finish(self) -> None:
        """After the last field."""
        self.add(self.trouble)
        self.add(row(self.act, 1))

    def values(self) -> dict[str, str]:
        """What is written, by field; fields that are not asked just now are left out."""
        return {
            name: field.inner.value() if isinstance(field.inner, ChoiceRow) else field.inner.text().strip()
            for name, field in self.fields.items()
            if not field.isHidden()
        }

    def set_values(self, values: dict[str, str]) -> None:
        for name, text in values.items():
            inner = self.fields[name].inner
            if isinstance(inner, ChoiceRow):
                inner.set_value(text)
            else:
                inner.setText(text)

    def ask_only(self, names: Iterable[str]) -> None:
        """Show these fields and put the others away; nothing typed in them is lost."""
        wanted = set(names)
        for name, field in self.fields.items():
            field.setVisible(name in wanted)

    def ask_all(self) -> None:
        self.ask_only(self.fields)

    def clear(self, keep: Iterable[str] = ()) -> None:
        kept = set(keep)
        self.set_values({name: "" for name in self.fields if name not in kept})
        self.clear_refusals()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        for field in self.fields.values():
            field.clear_refusal()

    def refuse(self, refusal: Refusal) -> None:
        field = self.fields.get(refusal.field)
        if field is not None and not field.isHidden():
            field.refuse(str(refusal))
        else:
            self.trouble.say(str(refusal))
            self.trouble.show()

    def focus_first(self) -> None:
        for field in self.fields.values():
            if not field.isHidden():
                field.inner.setFocus()
                return

    def _add(self, name: str, label: str, inner: QWidget) -> None:
        field = Field(label, inner, name=name)
        self.fields[name] = field
        self.add(field)

    def _go_on(self) -> None:
        """Enter goes to the next field, and from the last one does the act."""
        shown = [field.inner for field in self.fields.values() if not field.isHidden()]
        at = next((i for i, inner in enumerate(shown) if inner.hasFocus()), len(shown) - 1)
        if at + 1 < len(shown):
            shown[at + 1].setFocus()
        else:
            self.wanted.emit()
