"""The page of small papers: cutting sheets, empty or of a lot, and a student's evidence sheet."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART
from gametrace.domain.errors import Refusal


class SmallPage(QWidget):
    """Signals: cutting_wanted(), evidence_wanted()."""

    cutting_wanted = Signal()
    evidence_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.loud = Loud(look)
        self.code = Field("The lot, or nothing for an empty sheet", QLineEdit(), name="code")
        self.code.inner.setMaxLength(40)
        self.species = PickList("Kind of animal, for an empty sheet", search="Find a kind")
        self.cutting = BigButton("Cutting sheet")
        self.student = Field("The student's code", QLineEdit(), name="student")
        self.student.inner.setMaxLength(20)
        self.student.inner.setPlaceholderText("R001")
        self.first = Field("From", OptionalDate("First day", today), name="first")
        self.last = Field("To", OptionalDate("Last day", today), name="last")
        self.evidence = BigButton("Evidence sheet")
        cutting = Sheet("Cutting sheet")
        about = "To weigh and write on where there is no computer; keyed in later."
        for item in (Words(about, "quiet"), self.code):
            cutting.add(item)
        cutting.add(self.species, 1)
        cutting.add(self.cutting)
        told = Sheet("Evidence of a student")
        about = "Days, animals, cuts and weights under a code of the roster, with a line for the tutor."
        for item in (Words(about, "quiet"), self.student, self.first, self.last):
            told.add(item)
        told.add_stretch()
        told.add(self.evidence)
        right = ScrollColumn()
        right.add(told, 1)
        sides = row(cutting, right, gap=APART)
        sides.setStretch(0, 1)
        sides.setStretch(1, 1)
        whole = column(self.loud, sides, gap=8)
        whole.setStretch(1, 1)
        self.setLayout(whole)
        self.cutting.clicked.connect(self.cutting_wanted)
        self.evidence.clicked.connect(self.evidence_wanted)
        self.code.inner.returnPressed.connect(self.cutting_wanted)
        self.student.inner.returnPressed.connect(self.evidence_wanted)

    def show_species(self, choices: Sequence[Choice]) -> None:
        if not self.species.value():
            self.species.set_choices(choices)

    def clear_refusals(self) -> None:
        self.loud.hush()
        for field in (self.code, self.student, self.first, self.last):
            field.clear_refusal()

    def refuse(self, refusal: Refusal) -> None:
        for field in (self.code, self.student, self.first, self.last):
            if field.name == refusal.field:
                refuse_at(field, str(refusal))
                return
        self.loud.refuse(str(refusal))
