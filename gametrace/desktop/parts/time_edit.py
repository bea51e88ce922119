"""A time of day that may not be stated: 'HH:MM', or nothing."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.days import parse_time
from gametrace.desktop.parts.typed_edit import TypedEdit


class TimeEdit(TypedEdit):
    """`value()` is 'HH:MM', '' where not stated; Refusal where it cannot be read."""

    nothing = ""

    def __init__(self, name: str = "Time", parent: QWidget | None = None) -> None:
        super().__init__(name, hint="not stated", parent=parent)
        self.edit.setAccessibleName(f"{name}, as 07:40; empty is not stated")

    def _read(self, typed: str) -> str:
        return parse_time(typed)

    def _written(self, value: str) -> str:
        return value
