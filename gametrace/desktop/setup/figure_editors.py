"""A field for each sort of figure. `value()` is as the act takes it, or a Refusal at the field 'value'."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from PySide6.QtWidgets import QCheckBox, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import CelsiusEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.words import Words, row
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import tenths_percent_text
from gametrace.facts.origins import ORIGINS

SORTS = ("origins", "celsius", "days", "minutes", "grams", "percent", "range", "category")


class _Editor(QWidget):
    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setSpacing(8)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    def value(self) -> str:
        raise NotImplementedError

    def set_value(self, value: str) -> None:
        raise NotImplementedError


class OriginsEditor(_Editor):
    """Which origins are bought: a tick each. Unknown is never bought, so it is not offered."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.boxes = {key: QCheckBox(words) for key, words in ORIGINS.items() if key != "unknown"}
        for key, box in self.boxes.items():
            box.setAccessibleName(f"We buy: {ORIGINS[key]}")
            self.body.addWidget(box)
        self.setFocusProxy(next(iter(self.boxes.values())))

    def value(self) -> str:
        chosen = [key for key, box in self.boxes.items() if box.isChecked()]
        if not chosen:
            raise Refusal("Nothing is ticked.", "Tick what this kitchen buys.", "value")
        return ",".join(sorted(chosen))

    def set_value(self, value: str) -> None:
        chosen = value.split(",") if value else list(self.boxes)
        for key, box in self.boxes.items():
            box.setChecked(key in chosen)


class DegreesEditor(_Editor):
    """A temperature."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = CelsiusEdit("Degrees")
        self.body.addWidget(self.edit)
        self.setFocusProxy(self.edit)

    def value(self) -> str:
        try:
            tenths = self.edit.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, "value") from refusal
        if tenths is None:
            raise Refusal("No temperature has been given.", "Write degrees Celsius, for example 5.", "value")
        return str(tenths)

    def set_value(self, value: str) -> None:
        self.edit.set_value(int(value) if value else None)


class WholeEditor(_Editor):
    """Days, minutes or grams."""

    def __init__(self, unit: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = QLineEdit()
        self.edit.setMaxLength(6)
        self.edit.setAccessibleName(unit)
        self.body.addLayout(row(self.edit, Words(unit, wrap=False)))
        self.setFocusProxy(self.edit)

    def value(self) -> str:
        plain = self.edit.text().strip()
        if not re.fullmatch("[0-9]{1,6}", plain):
            raise Refusal("Write a whole number.", "For example 30.", "value")
        return str(int(plain))

    def set_value(self, value: str) -> None:
        self.edit.setText(value)


class PercentEditor(_Editor):
    """A share in per cent, to a tenth; its value is in tenths."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = QLineEdit()
        self.edit.setMaxLength(5)
        self.edit.setAccessibleName("Per cent")
        self.body.addLayout(row(self.edit, Words("%", wrap=False)))
        self.setFocusProxy(self.edit)

    def value(self) -> str:
        match = re.fullmatch(r"([0-9]{1,2})(?:[.,]([0-9]))?", self.edit.text().strip())
        if match is None:
            raise Refusal("Write per cent, to a tenth at most.", "For example 2.5.", "value")
        return str(int(match[1]) * 10 + int(match[2] or 0))

    def set_value(self, value: str) -> None:
        self.edit.setText(tenths_percent_text(int(value)).removesuffix(" %") if value else "")


class RangeEditor(_Editor):
    """Days from the kill: ready from, and by."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.first, self.last = QLineEdit(), QLineEdit()
        for edit, words in ((self.first, "Ready from day"), (self.last, "By day")):
            edit.setMaxLength(3)
            edit.setAccessibleName(words)
        self.body.addLayout(row(Field("Ready from day", self.first), Field("By day", self.last)))
        self.first.returnPressed.connect(self.last.setFocus)
        self.setFocusProxy(self.first)

    def value(self) -> str:
        days = [edit.text().strip() for edit in (self.first, self.last)]
        if not all(re.fullmatch("[0-9]{1,2}", day) for day in days):
            raise Refusal("Write both days as whole numbers.", "For example 7 and 10.", "value")
        if int(days[0]) > int(days[1]):
            raise Refusal("The first day lies after the last.", "Swap them.", "value")
        return f"{int(days[0])}-{int(days[1])}"

    def set_value(self, value: str) -> None:
        first, _, last = value.partition("-")
        self.first.setText(first)
        self.last.setText(last)


class CategoryEditor(_Editor):
    """The category the authority confirmed, who said so and when."""

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self.category = ChoiceRow([("1", "1"), ("2", "2"), ("3", "3")], name="Category")
        self.said_by = QLineEdit()
        self.said_by.setMaxLength(120)
        self.on = OptionalDate("On which day", today)
        self.body.addWidget(Field("Category", self.category))
        self.body.addWidget(Field("Who at the authority or the collector said so?", self.said_by))
        self.body.addWidget(Field("On which day", self.on))
        self.setFocusProxy(self.category)

    def value(self) -> str:
        said_by = self.said_by.text().replace("|", " ").strip()
        try:
            on = self.on.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, "value") from refusal
        if not self.category.value() or not said_by or on is None:
            raise Refusal("A confirmed category has its number, who said so, and the day.", "", "value")
        return f"{self.category.value()}|{said_by}|{on.isoformat()}"

    def set_value(self, value: str) -> None:
        category, said_by, on = value.split("|") if value else ("", "", "")
        self.category.set_value(category)
        self.said_by.setText(said_by)
        self.on.set_value(date.fromisoformat(on[:10]) if on else None)


def editor_for(sort: str, today: Callable[[], date]) -> _Editor:
    """A new field for that sort of figure."""
    match sort:
        case "origins":
            return OriginsEditor()
        case "celsius":
            return DegreesEditor()
        case "percent":
            return PercentEditor()
        case "range":
            return RangeEditor()
        case "category":
            return CategoryEditor(today)
    return WholeEditor(sort)
