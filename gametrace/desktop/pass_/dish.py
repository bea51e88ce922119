"""The dish being made: what it is at the left, what goes in in the middle, what may be said at the right."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.going_in import GoingIn
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.desktop.pass_.saying import Said, percent
from gametrace.desktop.style import APART
from gametrace.domain.quantities import kg_text

KINDS = (("service", "Service"), ("class", "Class"))


class DishPage(QWidget):
    """Signals: make_wanted(). stock_wanted(). out_wanted(str). changed(): grams or portions."""

    make_wanted = Signal()
    stock_wanted = Signal()
    out_wanted = Signal(str)
    changed = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = Field("Dish", _line(120), name="name")
        self.kind = ChoiceRow(KINDS, value="service", name="For a service or a class")
        self.occasion = Field("Which one", _line(120, "such as Friday dinner"), name="occasion")
        self.day = Field("Day", OptionalDate("Day", today, looks_back=False), name="on")
        self.portions = Field("Portions", CountEdit("Portions", field="portions"), name="portions")
        self.portions.inner.edit.setProperty("role", "figure")
        self.day.inner.near.hide()  # today stands in it already
        self.make = BigButton("Make the dish")
        self.loud = Loud(look)
        self.going_in = GoingIn(
            look,
            "What goes into the dish",
            "Scan the packs that go in. All of each goes in unless you type less.",
        )
        self.total = Words("", "heading")
        self.stock = Button("From the stock", name="Choose packs from the stock")
        self.said = SaidPanel(look)
        self._build(look)
        self._connect()
        self.setFocusProxy(self.name)

    def _build(self, look: Look) -> None:
        form = ScrollColumn()
        form.body.setSpacing(8)
        form.body.setContentsMargins(0, 0, 0, 0)
        for part in (self.name, self.kind, self.occasion, self.day, self.portions):
            form.add(part)
        form.add_stretch()
        left = QWidget()
        left.setLayout(column(form, self.make, gap=8))
        left.layout().setStretch(0, 1)
        keep_width(look, left, 344)
        foot = row(self.total, self.stock)
        foot.setStretch(0, 1)
        middle = column(self.loud, self.going_in, foot, gap=8)
        middle.setStretch(1, 1)
        keep_width(look, self.said, 330)
        whole = row(left, middle, self.said, gap=APART)
        whole.setStretch(1, 1)
        self.setLayout(whole)

    def _connect(self) -> None:
        self.make.clicked.connect(self.make_wanted)
        self.stock.clicked.connect(self.stock_wanted)
        self.going_in.out_wanted.connect(self.out_wanted)
        self.going_in.changed.connect(self.changed)
        self.going_in.entered.connect(self.name.inner.setFocus)
        self.portions.inner.changed.connect(self.changed)
        self.portions.inner.entered.connect(self.make.setFocus)
        self.name.inner.returnPressed.connect(self.occasion.inner.setFocus)
        self.occasion.inner.returnPressed.connect(self.day.inner.setFocus)
        self.day.inner.entered.connect(self.portions.inner.setFocus)
        for field in self.fields():
            for signal in ("textEdited", "changed"):
                if hasattr(field.inner, signal):
                    getattr(field.inner, signal).connect(field.clear_refusal)

    def fields(self) -> tuple[Field, ...]:
        return (self.name, self.occasion, self.day, self.portions)

    def refuse(self, field: str, sentence: str, state: str = "on hold") -> None:
        """Under its field where there is one, else loudly over what goes in."""
        found = next((one for one in self.fields() if one.name == field), None)
        if found is not None:
            found.refuse(sentence)
        else:
            self.loud.refuse(sentence, state)

    def say_total(self, count: int, grams: int, portions: int | None) -> None:
        if not count:
            self.total.say("")
            return
        words = f"{count} in, {kg_text(grams)}"
        if portions:
            words += f"; {grams // portions} g a portion"
        self.total.say(words)

    def next_dish(self) -> None:
        """Clear what belongs to one dish; the service and its day stay for the next."""
        self.name.inner.clear()
        self.portions.inner.clear()
        self.loud.hush()
        for field in self.fields():
            field.clear_refusal()


def _line(most: int, hint: str = "") -> QLineEdit:
    made = QLineEdit()
    made.setMaxLength(most)
    made.setPlaceholderText(hint)
    return made


class SaidPanel(ScrollColumn):
    """What the records show of the dish, with shares so far."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.setAccessibleName("What the records show of this dish")
        self.body.setSpacing(8)
        self.add(Words("Shown by the records", "heading"))
        self.nothing = Words("Animals and their shares appear here as packs go in.", "quiet")
        self.add(self.nothing)
        self.lines = column(gap=4)
        self.add(self.lines)
        self.add_stretch()

    def show_said(self, said: Said) -> None:
        clear(self.lines)
        self.nothing.setVisible(not said.animals)
        for title, shares in (("", said.species), ("Origin", said.origins), ("Animals", said.animals)):
            if shares and title:
                self.lines.addSpacing(12)
                self.lines.addWidget(Words(title, "quiet"))
            for one in shares:
                self._add_line(one.words, one.percent, large=not title)
                if one.also:
                    self.lines.addWidget(Words(one.also, "quiet"))
        if said.not_shown > 0:
            self._add_line("no animal on record", percent(said.not_shown))

    def _add_line(self, words: str, figure: str, *, large: bool = False) -> None:
        name, share = Words(words, "heading" if large else "strong"), Words(figure, "heading", wrap=False)
        share.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        line = row(name, share, gap=8)
        line.setStretch(0, 1)
        self.lines.addLayout(line)
