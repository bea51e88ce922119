"""A day that may not be stated. No day stands in it until somebody gives one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.days import day_text, parse_day
from gametrace.desktop.parts.typed_edit import TypedEdit


class OptionalDate(TypedEdit):
    """A typed day with 'Today' and the day beside it. `value()` is None where not stated.

    `today` is asked each time, for the window may stay open over midnight. `looks_back` for what has
    happened; otherwise a day without a year is the nearest one, before or after.
    """

    def __init__(
        self,
        name: str,
        today: Callable[[], date],
        *,
        looks_back: bool = True,
        buttons: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, hint="not stated", parent=parent)
        self._today, self._looks_back = today, looks_back
        self.edit.setAccessibleName(f"{name}, as 12/11 or 12 Nov; empty is not stated")
        words = "Yesterday" if looks_back else "Tomorrow"
        self.near = Button("Today", name=f"{name}: today")
        self.other = Button(words, name=f"{name}: {words.lower()}")
        for button in (self.near, self.other):
            self.line.addWidget(button)
            button.setVisible(buttons)
        self.near.clicked.connect(self._give_today)
        self.other.clicked.connect(self._give_other)

    def _read(self, typed: str) -> date | None:
        return parse_day(typed, self._today(), looks_back=self._looks_back)

    def _written(self, value: date) -> str:
        return day_text(value)

    def _give_today(self) -> None:
        self._give(self._today())

    def _give_other(self) -> None:
        self._give(self._today() + timedelta(days=-1 if self._looks_back else 1))

    def _give(self, day: date) -> None:
        self.set_value(day)
        self.changed.emit()
