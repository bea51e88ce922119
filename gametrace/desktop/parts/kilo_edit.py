"""Fields for figures: a weight, a temperature, a price. What is typed stays; the value is a whole number."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.desktop.parts.words import Words
from gametrace.domain.quantities import (
    WARMEST_TENTHS_C,
    celsius_text,
    kg_figure,
    parse_grams,
    parse_pence,
    parse_tenths_c,
    pounds_text,
)


class KiloEdit(TypedEdit):
    """A weight in whole grams. `big` for the weighing of the day (48 px)."""

    def __init__(self, name: str = "Weight", *, big: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(name, parent=parent)
        self.line.addWidget(Words("kg", "heading" if big else "", wrap=False))
        self.edit.setInputMethodHints(Qt.InputMethodHint.ImhFormattedNumbersOnly)
        if big:
            self.edit.setProperty("role", "figure")
            self.edit.setAlignment(Qt.AlignmentFlag.AlignRight)

    def _read(self, typed: str) -> int:
        return parse_grams(typed)

    def _written(self, value: int) -> str:
        return kg_figure(value)


class CelsiusEdit(TypedEdit):
    """A temperature in tenths of a degree."""

    most = WARMEST_TENTHS_C

    def __init__(self, name: str = "Temperature", parent: QWidget | None = None) -> None:
        super().__init__(name, parent=parent)
        self.line.addWidget(Words("°C", wrap=False))

    def _read(self, typed: str) -> int:
        return parse_tenths_c(typed, most=self.most)

    def _written(self, value: int) -> str:
        return celsius_text(value).removesuffix(" °C")


class CoreEdit(CelsiusEdit):
    """The core of what was cooked or kept hot: hotter than any larder."""

    most = 1200


class PenceEdit(TypedEdit):
    """A price in pence."""

    def __init__(self, name: str = "Price", unit: str = "£ a kg", parent: QWidget | None = None) -> None:
        super().__init__(name, parent=parent)
        self.line.addWidget(Words(unit, wrap=False))

    def _read(self, typed: str) -> int:
        return parse_pence(typed)

    def _written(self, value: int) -> str:
        return pounds_text(value).removeprefix("£")
