"""A field for how many: portions, packs, birds. Whole numbers above nothing."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.domain.errors import Refusal

MOST = 10_000


class CountEdit(TypedEdit):
    """`value()` is an int, None where nothing is typed. `most` is the largest that makes sense there."""

    def __init__(
        self, name: str, *, most: int = MOST, field: str = "count", parent: QWidget | None = None
    ) -> None:
        super().__init__(name, parent=parent)
        self._most, self._field = most, field
        self.edit.setInputMethodHints(Qt.InputMethodHint.ImhDigitsOnly)

    def _read(self, typed: str) -> int:
        plain = typed.strip()
        if not re.fullmatch(r"\d{1,9}", plain, re.ASCII):
            raise Refusal(f"'{plain[:24]}' is not a number of things.", "Write a whole number.", self._field)
        if not 1 <= int(plain) <= self._most:
            raise Refusal(f"{int(plain)} cannot be right here.", f"Write 1 to {self._most}.", self._field)
        return int(plain)

    def _written(self, value: int) -> str:
        return str(value)
