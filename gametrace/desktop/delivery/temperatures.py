"""Core temperatures at named places of the body, as many as were taken."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.kilo_edit import CelsiusEdit
from gametrace.desktop.parts.words import Words

LARGE_GAME_PLACES = ("haunch", "shoulder", "inside ribs")
SMALL_GAME_PLACES = ("breast", "leg", "inside the body")


class Temperatures(QWidget):
    """Core temperatures at named places; more places can be added.

    Signals: changed(). grew(): there are other fields now.
    """

    changed = Signal()
    grew = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)
        self._first = QHBoxLayout()
        self._first.setSpacing(8)
        self._column.addLayout(self._first)
        self.rows: list[tuple[Any, CelsiusEdit]] = []
        for place in LARGE_GAME_PLACES:
            self._add_fixed(place)
        self.more = Button("Another place", quiet=True, name="Add a temperature at another place")
        self._column.addWidget(self.more)
        self.more.clicked.connect(self.add_place)
        self.setFocusProxy(self.rows[0][1])

    def _add_fixed(self, place: str) -> None:
        label = Words(place, "quiet", wrap=False)
        edit = CelsiusEdit(f"Temperature, {place}")
        edit.changed.connect(self.changed)
        box = QVBoxLayout()
        box.setSpacing(4)
        box.addWidget(label)
        box.addWidget(edit)
        box.addStretch(1)
        self._first.addLayout(box, 1)
        self.rows.append((label, edit))

    def add_place(self) -> None:
        """One more row, with a place to name."""
        self._add_free().setFocus()
        self.grew.emit()

    def _add_free(self) -> QLineEdit:
        place = QLineEdit()
        place.setPlaceholderText("where")
        place.setMaxLength(60)
        place.setAccessibleName("Where the temperature was taken")
        edit = CelsiusEdit("Temperature there")
        edit.changed.connect(self.changed)
        place.textEdited.connect(self.changed)
        line = QHBoxLayout()
        line.setSpacing(8)
        line.addWidget(place, 2)
        line.addWidget(edit, 1)
        for widget in (place, edit):
            widget.setParent(self)
            widget.show()
        self._column.insertLayout(self._column.count() - 1, line)
        self.rows.append((place, edit))
        return place

    def set_places(self, places: Sequence[str]) -> None:
        """Other names for the first three places; what was read stays with its field."""
        for (label, edit), place in zip(self.rows, places, strict=False):
            label.setText(place)
            edit.edit.setAccessibleName(f"Temperature, {place}")

    def value(self) -> tuple[tuple[str, int], ...]:
        """(place, tenths) of all that is filled; Refusal where one cannot be read."""
        return tuple(
            (place.text().strip(), tenths)
            for place, edit in self.rows
            if (tenths := edit.value()) is not None
        )

    def value_or_none(self) -> tuple[tuple[str, int], ...]:
        """What of it can be read."""
        read = ((place.text().strip(), edit.value_or_none()) for place, edit in self.rows)
        return tuple((place, tenths) for place, tenths in read if tenths is not None)

    def set_value(self, readings: Sequence[tuple[str, int]]) -> None:
        """Show these: at their named places, the others in rows of their own."""
        for _, edit in self.rows:
            edit.clear()
        for place, _ in self.rows[3:]:
            place.clear()
        named = {label.text(): edit for label, edit in self.rows[:3]}
        spare = iter(self.rows[3:])
        for where, tenths in readings:
            if where in named:
                named.pop(where).set_value(tenths)
                continue
            free = next(spare, None)
            if free is None:
                self._add_free()
                free = self.rows[-1]
            free[0].setText(where)
            free[1].set_value(tenths)
