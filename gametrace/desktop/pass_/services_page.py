"""A day at the pass: its services and classes, what was served when and to whom, and how many sat down."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.pass_.file_lines import clock, portions
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.desktop.style import APART
from gametrace.domain.quantities import kg_text, pounds_text

if TYPE_CHECKING:
    from gametrace.register.plate_records import Occasion

_NONE = (
    "No service and no class on this day. A dish is made under “Dish” for the service it is for, and stands "
    "here with its plates; “Earlier” leads to the last day that had one."
)
KINDS = (("service", "Service"), ("class", "Class"))


class CoversForm(RecordForm):
    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", "Write the covers down", parent)
        self.kind = self.add("occasion_kind", "", ChoiceRow(KINDS, value="service", name="Counted for a"))
        self.line("occasion", "Which one", hint="such as Friday dinner", most=120)
        self.add("covers", "Covers", CountEdit("Covers", field="covers"))
        self.line("note", "Note", hint="may stay empty")
        self.finish()


class ServicesPage(QWidget):
    """Signals: day_wanted(date), open_wanted(str): a dish, covers_wanted()."""

    day_wanted = Signal(object)
    open_wanted = Signal(str)
    covers_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._days: tuple[date, ...] = ()
        self.title = Words("", "title", wrap=False)
        self.earlier, self.later = (
            Button("◂ Earlier", name="An earlier day"),
            Button("Later ▸", name="A later day"),
        )
        self.day = OptionalDate("Day", today)
        self.day.other.hide()
        self.list = ScrollColumn()
        self.covers = CoversForm()
        self.loud = Loud(look)
        head = row(self.earlier, self.title, self.later, 1, gap=8)
        left = column(head, self.list, gap=8)
        left.setStretch(1, 1)
        side = QWidget()
        side.setLayout(
            column(
                Words("Go to a day", "heading"), self.day, Words("Covers", "heading"), self.loud, self.covers
            )
        )
        side.layout().setStretch(4, 1)
        keep_width(look, side, 400)
        whole = row(left, side, gap=APART)
        whole.setStretch(0, 1)
        self.setLayout(whole)
        self.earlier.clicked.connect(partial(self._step, 1))
        self.later.clicked.connect(partial(self._step, -1))
        self.day.changed.connect(self._typed)
        self.covers.wanted.connect(self.covers_wanted)
        self.setFocusProxy(self.earlier)
        self.shown: date | None = None

    def _step(self, by: int) -> None:
        days = self._days
        if self.shown is None:
            return
        older = [day for day in days if day < self.shown]
        newer = [day for day in days if day > self.shown]
        if by > 0 and older:
            self.day_wanted.emit(older[0])
        elif by < 0 and newer:
            self.day_wanted.emit(newer[-1])

    def _typed(self) -> None:
        day = self.day.value_or_none()
        if day is not None and day != self.shown:
            self.day_wanted.emit(day)

    def show_day(self, day: date, occasions: Sequence[Occasion], days: Sequence[date]) -> None:
        self.shown, self._days = day, tuple(days)
        self.title.say(weekday_text(day))
        self.earlier.setEnabled(any(one < day for one in days))
        self.later.setEnabled(any(one > day for one in days))
        self.list.start_anew()
        for occasion in occasions:
            sheet = self._sheet(occasion)
            self.list.add(sheet)
            sheet.show()  # now, not with the next events: the next Tab must find its buttons
        if not occasions:
            none = Words(_NONE, "large")
            self.list.add(none)
            none.show()
        self.list.add_stretch()

    def _sheet(self, occasion: Occasion) -> Sheet:
        covers = f" · {occasion.covers} covers" if occasion.covers is not None else ""
        kind = "" if occasion.kind == "service" else " · class"
        sheet = Sheet(f"{occasion.name}{kind}{covers}")
        sheet.body.setSpacing(8)
        if occasion.note:
            sheet.add(Words(occasion.note, "quiet"))
        names = {}
        for dish in occasion.dishes:
            names[dish.code] = dish.name
            button = Button(dish.name, name=f"Open {dish.name} {dish.code}")
            button.clicked.connect(partial(self.open_wanted.emit, dish.code))
            left = dish.portions - dish.served - dish.left_over
            words = f"{dish.portions} made · {dish.served} served · {dish.left_over} left over · {left} here"
            said = column(Words(words), gap=0)
            also = " · ".join(
                part for part in (dish.state if dish.state != "served" else "", dish.allergens) if part
            )
            if also:
                said.addWidget(Words(also, "quiet" if dish.state == "served" else "amber"))
            line = row(button, said, gap=16)
            line.setStretch(1, 1)
            sheet.add(line)
        for one in occasion.servings:
            to = f" to {one.to_group}" if one.to_group else ""
            sheet.add(
                Words(f"{clock(one.at)}  {portions(one.portions)} of {names.get(one.code, one.code)}{to}")
            )
        for issue in occasion.issues:
            purpose = f" for {issue.purpose}" if issue.purpose else ""
            charged = "" if issue.pence is None else f", charged {pounds_text(issue.pence)}"
            sheet.add(
                Words(f"Issued: {kg_text(issue.grams)} {issue.name}, {issue.from_code}{purpose}{charged}")
            )
        if not (occasion.dishes or occasion.issues):
            sheet.add(Words("No dish was made for it.", "quiet"))
        return sheet
