"""The officer's page: a large box, the two questions answered side by side, a day told in full."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.officer.day_part import DayPart
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.desktop.style import APART, GAP
from gametrace.desktop.trace.wording import (
    animal_lines,
    animal_share,
    animal_title,
    balance_figures,
    headline,
    lot_sentence,
    nowhere,
)
from gametrace.domain.quantities import kg_figure
from gametrace.register.day_page import DayPage
from gametrace.register.records import Trace, TraceAnimal

TYPING_MS = 200
MOST_ANIMALS, MOST_LOTS = 60, 150  # drawn in full; a larger answer is printed


class OfficerView(QWidget):
    """Signals: asked(str), typed(str), print_answer_wanted(), day_wanted(): back to the day."""

    asked = Signal(str)
    typed = Signal(str)
    print_answer_wanted = Signal()
    day_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._look = look
        self.box = QLineEdit()
        self.box.setProperty("role", "scan")
        self.box.setMaxLength(200)
        self.box.setMinimumHeight(look.px(64))
        font = self.box.font()
        font.setPixelSize(look.px(26))
        self.box.setFont(font)
        self.box.setPlaceholderText("scan a label, or type a code, a tag, a dish, a supplier")
        self.box.setAccessibleName(
            "Where is this from and where is the rest: a code, a tag, a dish, a supplier"
        )
        self.answer = BigButton("Answer both")
        self.pages = QStackedWidget()
        self.day = DayPart(look)
        self.candidates_page = self._candidates_page()
        self.answer_page = self._answer_page()
        for page in (self.day, self.candidates_page, self.answer_page):
            self.pages.addWidget(page)
        asking = row(self.box, self.answer)
        asking.setStretch(0, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(row(Words("Where is this from? Where is the rest?", "title", wrap=False), 1))
        layout.addLayout(asking)
        layout.addWidget(self.pages, 1)
        self._typing = QTimer(self)
        self._typing.setSingleShot(True)
        self._typing.setInterval(TYPING_MS)
        self._typing.timeout.connect(self._typed)
        self.box.textEdited.connect(self._edited)
        self.box.returnPressed.connect(self._ask)
        self.answer.clicked.connect(self._ask)
        self.setFocusProxy(self.box)

    def _candidates_page(self) -> QWidget:
        page = QWidget()
        page.setProperty("role", "ground")
        self.question = Words("", "heading")
        self.explained = Words("", "quiet")
        self.candidates = PickList("What to trace")
        self.to_day = Button("Back to the day")
        self.to_day.clicked.connect(self.day_wanted)
        self.candidates.picked.connect(self.asked)
        layout = column(self.question, self.explained, self.candidates, row(self.to_day, 1))
        layout.setStretch(2, 1)
        page.setLayout(layout)
        return page

    def _answer_page(self) -> QWidget:
        page = QWidget()
        page.setProperty("role", "ground")
        self.title = Words("", "title", wrap=False)
        self.state = StateSign(self._look, wrap=False)
        self.back = Button("Back to the day")
        self.print_button = BigButton("Print the answer")
        self.balance = QGridLayout()
        self.balance.setHorizontalSpacing(APART)
        self.balance.setVerticalSpacing(0)
        self.animals = ScrollColumn()
        self.rest = ScrollColumn()
        head = row(self.title, self.state, 1, self.back, self.print_button)
        head.setAlignment(self.state, Qt.AlignmentFlag.AlignVCenter)
        right = column(Words("Where is the rest?", "heading"), self.rest, gap=4)
        sides = row(column(Words("Where is this from?", "heading"), self.animals, gap=4), right, gap=APART)
        sides.setStretch(0, 1)
        sides.setStretch(1, 1)
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(head)
        layout.addLayout(row(self.balance, 1))
        layout.addLayout(sides, 1)
        self.back.clicked.connect(self.day_wanted)
        self.print_button.clicked.connect(self.print_answer_wanted)
        return page

    # -- what the presenter calls -----------------------------------------------------------------------

    def show_day(self, page: DayPage, *, is_last: bool) -> None:
        self.day.show_page(page, is_last=is_last)
        self.pages.setCurrentWidget(self.day)

    def show_candidates(self, question: str, explained: str, choices: Sequence[Choice]) -> None:
        self.question.say(question)
        self.explained.say(explained)
        self.candidates.set_choices(choices)
        self.candidates.setVisible(bool(choices))
        self.pages.setCurrentWidget(self.candidates_page)

    def show_answer(self, trace: Trace) -> None:
        self._typing.stop()
        self.title.say(headline(trace))
        self.state.setVisible(bool(trace.state))
        self.state.set_state(trace.state)
        clear(self.balance)
        for at, (words, grams) in enumerate(balance_figures(trace.balance) if trace.balance else ()):
            role = "amber" if words == "unaccounted" and grams else ""
            self.balance.addWidget(Words(kg_figure(grams), role or "heading", wrap=False), 0, at)
            self.balance.addWidget(Words(words, role or "quiet", wrap=False), 1, at)
        self.animals.start_anew()
        for animal in trace.animals[:MOST_ANIMALS]:
            self.animals.add(self._animal(animal, is_asked=animal.code == trace.code))
        if len(trace.animals) > MOST_ANIMALS:
            self.animals.add(
                Words(f"and {len(trace.animals) - MOST_ANIMALS} more animals: print the answer.")
            )
        self.animals.add_stretch()
        self.rest.start_anew()
        for lot in trace.forward[:MOST_LOTS]:
            line = row(Words(lot_sentence(lot)), self._follow(lot.code, "Trace it"))
            line.setStretch(0, 1)
            sheet = QWidget()
            sheet.setLayout(line)
            self.rest.add(sheet)
        if len(trace.forward) > MOST_LOTS:
            self.rest.add(Words(f"and {len(trace.forward) - MOST_LOTS} more lots: print the answer."))
        if not trace.forward:
            self.rest.add(Words(nowhere(trace), "quiet"))
        self.rest.add_stretch()
        self.pages.setCurrentWidget(self.answer_page)
        self.box.selectAll()

    def _animal(self, animal: TraceAnimal, *, is_asked: bool) -> Sheet:
        sheet = Sheet()
        sheet.add(column(Words(animal_title(animal), "strong"), Words(animal_share(animal)), gap=0))
        sheet.add(column(*(Words(line, "quiet") for line in animal_lines(animal)), gap=2))
        if not is_asked:
            sheet.add(row(self._follow(animal.code, "Trace this animal"), 1))
        return sheet

    def _follow(self, code: str, words: str) -> Button:
        button = Button(words, name=f"Trace {code}")
        button.clicked.connect(partial(self.asked.emit, code))
        return button

    # -- the box ----------------------------------------------------------------------------------------

    def _edited(self) -> None:
        self._typing.start()

    def _typed(self) -> None:
        self.typed.emit(self.box.text())

    def _ask(self) -> None:
        self._typing.stop()
        if text := self.box.text().strip():
            self.asked.emit(text)
        else:
            self.box.setFocus()
