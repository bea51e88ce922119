"""How long something took: '2' is minutes, '30 s' seconds, '1:30' minutes and seconds, '2 h' hours."""

from __future__ import annotations

import re

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.domain.cooking import time_text
from gametrace.domain.errors import Refusal

LONGEST = 48 * 3600
_UNITS = {"s": 1, "sec": 1, "": 60, "m": 60, "min": 60, "h": 3600}
_ONE = re.compile(r"(\d{1,5})\s*(sec|min|s|m|h)?")


class DurationEdit(TypedEdit):
    """`value()` is whole seconds, None where nothing is typed."""

    def __init__(self, name: str, *, field: str = "seconds", parent: QWidget | None = None) -> None:
        super().__init__(name, hint="2 min, 30 s", parent=parent)
        self._field = field
        self.edit.setAccessibleName(f"{name}: minutes, or as 30 s")

    def _read(self, typed: str) -> int:
        plain = typed.strip().casefold()
        if clock := re.fullmatch(r"(\d{1,4}):([0-5]\d)", plain, re.ASCII):
            seconds = int(clock[1]) * 60 + int(clock[2])
        elif re.fullmatch(rf"(?:{_ONE.pattern}\s*)+", plain, re.ASCII):
            seconds = sum(int(count) * _UNITS[unit] for count, unit in _ONE.findall(plain))
        else:
            raise Refusal(f"'{plain[:24]}' is not a time.", "Write 2 min, 30 s or 1:30.", self._field)
        if seconds > LONGEST:
            raise Refusal("That is more than two days.", "Count it again.", self._field)
        return seconds

    def _written(self, value: int) -> str:
        return time_text(value)
