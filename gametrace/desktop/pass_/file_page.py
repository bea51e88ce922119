"""One dish with all its records at the left, and at the right one quick form for what is written next."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.state_sign import SignFace
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.pass_.besides_form import BesidesForm
from gametrace.desktop.pass_.file_lines import (
    Line,
    besides_words,
    counted,
    heat_lines,
    input_lines,
    none_said,
    plate_lines,
)
from gametrace.desktop.pass_.heat_forms import cook_form, cool_form, hold_form, reheat_form
from gametrace.desktop.pass_.menu_form import MenuForm
from gametrace.desktop.pass_.plate_forms import ChangeForm, LeftOverForm, ServeForm
from gametrace.desktop.style import APART

if TYPE_CHECKING:
    from gametrace.register.plate_records import DishFile

FORMS = (
    ("cook", "Cooked"),
    ("hold", "Kept hot"),
    ("serve", "Served"),
    ("cool", "Cooled"),
    ("left", "Left over"),
    ("reheat", "Reheated"),
    ("besides", "Also in it"),
    ("menu", "Menu"),
    ("change", "Changed"),
)


class FilePage(QWidget):
    """Signals: wanted(str): the form of that name is to be written down. menu_changed().
    trace_wanted(str), story_wanted(str), label_wanted(str), price_wanted(str): the code. back_wanted()."""

    wanted = Signal(str)
    menu_changed = Signal()
    trace_wanted = Signal(str)
    story_wanted = Signal(str)
    label_wanted = Signal(str)
    price_wanted = Signal(str)
    back_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.code = look, ""
        self.name, self.about = Words("", "title"), Words("", "quiet")
        self.counted = Words("", "heading")
        self.why_not = Loud(look)
        self.loud = Loud(look)
        self.findings = FindingPanel(look, asks=False)
        self.forms: dict[str, Any] = {  # each with its own given() and act_name
            "cook": cook_form(),
            "hold": hold_form(),
            "serve": ServeForm(),
            "cool": cool_form(),
            "left": LeftOverForm(),
            "reheat": reheat_form(),
            "besides": BesidesForm(),
            "menu": MenuForm(look),
            "change": ChangeForm(),
        }
        self.choice = ChoiceRow(FORMS, value="cook", name="Write down", columns=1)
        self.stack = QStackedWidget()
        self.trace, self.label = Button("Trace it"), Button("Label", name="Print its label")
        self.story = Button("Its story", name="Its story, where an entry is struck")
        self.cost = Button("Cost", name="What it cost and its price")
        self.back = Button("Dishes made")
        self.lines = ScrollColumn()
        self._build(look)
        self._connect()
        self.setFocusProxy(self.choice)

    def _build(self, look: Look) -> None:
        for form in self.forms.values():
            self.stack.addWidget(form)
        self.lines.body.setSpacing(4)
        foot = row(self.trace, self.story, self.label, self.cost, self.back, 1, gap=8)
        left = column(self.name, self.about, self.counted, self.why_not, self.lines, foot, gap=4)
        left.setStretch(4, 1)
        side = QWidget()
        keep_width(look, self.choice, 124)
        form = column(self.loud, self.findings, self.stack, gap=8)
        form.setStretch(2, 1)
        both = row(column(self.choice, 1), form)
        both.setStretch(1, 1)
        side.setLayout(both)
        keep_width(look, side, 520)
        whole = row(left, side, gap=APART)
        whole.setStretch(0, 1)
        self.setLayout(whole)

    def _connect(self) -> None:
        for name, form in self.forms.items():
            form.wanted.connect(partial(self.wanted.emit, name))
        self.forms["menu"].changed.connect(self.menu_changed)
        self.choice.changed.connect(self.show_form)
        self.choice.entered.connect(self._into_form)
        self.trace.clicked.connect(self._trace)
        self.story.clicked.connect(self._story)
        self.label.clicked.connect(self._label)
        self.cost.clicked.connect(self._cost)
        self.back.clicked.connect(self.back_wanted)

    def show_form(self, name: str) -> None:
        self.choice.set_value(name)
        self.stack.setCurrentWidget(self.forms[name])
        self.setFocusProxy(self.forms[name])
        self.loud.hush()
        self.findings.forget()
        if name == "menu":
            self.menu_changed.emit()

    def _into_form(self) -> None:
        self.stack.currentWidget().setFocus()

    def form(self) -> str:
        """The name of the form in sight."""
        return next(name for name, form in self.forms.items() if form is self.stack.currentWidget())

    def show_file(self, file: DishFile) -> None:
        """The page of a dish as it stands now; what is being typed is not touched."""
        self.code = file.lot.code
        self.name.say(file.lot.name)
        kind = "class " if file.occasion_kind == "class" else ""
        self.about.say(f"{file.lot.code} · {kind}{file.occasion}, {weekday_text(file.on)}")
        self.counted.say(counted(file))
        if file.why_not:
            state = file.lot.state if file.lot.state_reason else "on hold"
            self.why_not.refuse(f"Not to be served. {file.why_not}", state)
        else:
            self.why_not.hush()
        self._fill(file)

    def _fill(self, file: DishFile) -> None:
        self.lines.start_anew()
        self.lines.body.setSpacing(4)
        self._section("Heat and time", none_said(list(heat_lines(file)), "No temperature written down yet."))
        self._section("Plates", none_said(list(plate_lines(file)), "Nothing served or left over yet."))
        self._section("Went in", list(input_lines(file)))
        names, allergens = besides_words(file)
        also = [Line(allergens or "Nothing besides game is written down; allergens not known.", names)]
        self._section("Allergens", also)
        menu = Line(f"“{file.menu_line}”") if file.menu_line else Line("", "No line for the menu kept yet.")
        self._section("Menu", [menu])
        self.lines.add_stretch()

    def _section(self, title: str, lines: Iterable[Line]) -> None:
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 8)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(2)
        grid.setColumnMinimumWidth(0, self._look.px(118))
        grid.setColumnStretch(1, 1)
        grid.addWidget(Words(title, "quiet", wrap=False), 0, 0, Qt.AlignmentFlag.AlignTop)
        for at, line in enumerate(lines):
            grid.addLayout(self._line(line), at, 1)
        self.lines.add(grid)

    def _line(self, line: Line) -> QVBoxLayout:
        lay = column(gap=0)
        if line.words:
            words = Words(line.words, "strong")
            if line.sign:
                both = row(words, SignFace(self._look, line.sign, size=22), gap=8)
                both.setStretch(0, 1)
                lay.addLayout(both)
            else:
                lay.addWidget(words)
        if line.also:
            lay.addWidget(Words(line.also, "quiet"))
        return lay

    def _trace(self) -> None:
        self.trace_wanted.emit(self.code)

    def _story(self) -> None:
        self.story_wanted.emit(self.code)

    def _label(self) -> None:
        self.label_wanted.emit(self.code)

    def _cost(self) -> None:
        self.price_wanted.emit(self.code)
