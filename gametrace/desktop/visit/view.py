"""The page for an officer's visit."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.state_sign import SignFace
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART
from gametrace.desktop.visit.presenter import PERIODS, PICTURES, VisitPresenter
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding
from gametrace.register.readiness import Found


class VisitView(QWidget):
    """Signals: asked(str): trace this. print_wanted(), list_wanted(), check_wanted(), period_chosen(str),
    line_wanted(str, str): go where a line of the readiness leads. officer_wanted(): leave them alone with it.
    one_page_wanted(str): a sheet to hand over. book_wanted(): the dealer's year. export_wanted(): everything.
    """

    asked = Signal(str)
    print_wanted = Signal()
    list_wanted = Signal()
    check_wanted = Signal()
    period_chosen = Signal(str)
    line_wanted = Signal(str, str)
    officer_wanted = Signal()
    one_page_wanted = Signal(str)
    book_wanted = Signal()
    export_wanted = Signal()

    def __init__(self, look: Look, today, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self._look = look
        left = ScrollColumn()
        left.add(self._questions())
        left.add(self._readiness())
        left.add_stretch()
        right = ScrollColumn()
        right.add(self._paper(today))
        right.add(self._seal())
        right.add_stretch()
        sides = row(left, right, gap=APART)
        sides.setStretch(0, 1)
        sides.setStretch(1, 1)
        self.setLayout(sides)

    # -- building ---------------------------------------------------------------------------------------

    def _questions(self) -> QWidget:
        sheet = Sheet()
        self.code = QLineEdit()
        self.code.setPlaceholderText("pack, tag, dish, supplier")
        self.code.setMaxLength(200)
        self.code_field = Field("", self.code, name="text")
        self.code.setAccessibleName(
            "Where is this from and where is the rest: a code, a tag, a dish, a supplier"
        )
        self.answer = BigButton("Answer both")
        self.one_page = Button("One page of it", name="One page of it to hand over")
        sheet.add(column(Words("Where is this from?", "title"), Words("Where is the rest?", "title"), gap=4))
        sheet.add(row(self.code_field, self.answer))
        self.officer = Button("Officer's view")
        explained = Words(
            "Only to be looked at: the database refuses to write, students are not named.", "quiet"
        )
        sheet.add(column(row(self.one_page, self.officer, 1), explained, gap=4))
        self.officer.clicked.connect(self.officer_wanted)
        self.one_page.clicked.connect(self._ask_for_page)
        self.code.returnPressed.connect(self._ask)
        self.answer.clicked.connect(self._ask)
        return sheet

    def _readiness(self) -> QWidget:
        sheet = self.readiness_sheet = Sheet("What an officer would find")
        self.lines = QVBoxLayout()
        self.lines.setSpacing(12)
        sheet.add(self.lines)
        return sheet

    def _paper(self, today) -> QWidget:
        sheet = Sheet("The paper for a period")
        self.period = ChoiceRow(PERIODS, name="Period", columns=2)
        self.first = OptionalDate("From", today, buttons=False)
        self.last = OptionalDate("To, that day included", today, buttons=False)
        self.lot = QLineEdit()
        self.lot.setMaxLength(200)
        self.lot.setPlaceholderText("a pack, a dish or a carcass; empty: none")
        self.first_field = Field("From", self.first, name="first")
        self.last_field = Field("To, that day included", self.last, name="last")
        self.lot_field = Field("Traced back and forth in the paper", self.lot, name="text")
        self.print_button = BigButton("Print the paper")
        self.list_button = Button("Deliveries as a list", name="Deliveries as a list: CSV for a spreadsheet")
        sheet.add(self.period)
        sheet.add(row(self.first_field, self.last_field))
        sheet.add(self.lot_field)
        sheet.add(
            Words(
                "What an officer would find, deliveries and papers, temperatures, holds, what was made, "
                "dated and supplied, by-products, corrections, suppliers, drills, traces, the seal.",
                "quiet",
            )
        )
        self.pictures = ChoiceRow(PICTURES, name="Pictures of papers and tags", columns=2)
        self.pictures.set_value("without")
        self.book_button = Button(
            "Dealer's record", name="The Scottish dealer's record, 1 April to 31 March: CSV"
        )
        self.export_button = Button(
            "Everything", name="Everything in open files: an export into a new folder"
        )
        sheet.add(self.pictures)
        sheet.add(row(self.print_button, 1))
        sheet.add(row(self.list_button, self.book_button, self.export_button, 1))
        self.book_button.clicked.connect(self.book_wanted)
        self.export_button.clicked.connect(self.export_wanted)
        self.period.changed.connect(self.period_chosen)
        for day in (self.first, self.last):  # a day typed by hand is none of the periods
            day.changed.connect(partial(self.period.set_value, ""))
        self.print_button.clicked.connect(self.print_wanted)
        self.list_button.clicked.connect(self.list_wanted)
        return sheet

    def _seal(self) -> QWidget:
        sheet = Sheet("The seal")
        self.seal = Words("")
        self.check_button = Button("Check the whole register")
        self.check_words = Words("", "strong")
        self.check_findings = FindingPanel(self._look, asks=False)
        sheet.add(self.seal)
        sheet.add(row(self.check_button, 1))
        sheet.add(self.check_words)
        sheet.add(self.check_findings)
        self.check_words.hide()
        self.check_button.clicked.connect(self.check_wanted)
        return sheet

    # -- what the presenter calls -----------------------------------------------------------------------

    def show_readiness(self, lines: Sequence[Found]) -> None:
        """Under the head of each group: what would be found, what to answer, and the record behind it."""
        clear(self.lines)
        told = QWidget(self.readiness_sheet)  # whole before it is laid in: one turn lays it all out
        inside = column(gap=12)
        group = ""
        for line in lines:
            if line.group != group:
                group = line.group
                inside.addWidget(Words(group, "heading"))
            inside.addWidget(self._line(line))
        told.setLayout(inside)
        self.lines.addWidget(told)
        told.show()

    def _line(self, line: Found) -> QWidget:
        made = QWidget()
        layout = QHBoxLayout(made)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(12)
        layout.addWidget(SignFace(self._look, line.state, size=24), 0, Qt.AlignmentFlag.AlignTop)
        said = [Words(line.sentence)]
        if below := "  ·  ".join(filter(None, (line.answer, line.record))):
            said.append(Words(below, "quiet"))
        layout.addLayout(column(*said, gap=0), 1)
        if line.station:
            button = Button(line.act, name=f"{line.act}: {line.sentence}")
            button.clicked.connect(partial(self.line_wanted.emit, line.station, line.code))
            layout.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        return made

    def show_period(self, key: str, first: date, last: date) -> None:
        self.period.set_value(key)
        self.first.set_value(first)
        self.last.set_value(last)

    def show_seal(self, words: str) -> None:
        self.seal.say(words)

    def show_check(self, words: str, findings: Sequence[Finding]) -> None:
        self.check_words.say(words)
        self.check_words.setVisible(bool(words))
        self.check_findings.set_findings(findings)

    def refuse(self, refusal: Refusal) -> None:
        """At its field; at the paper's button where no field is named."""
        for field in (self.first_field, self.last_field, self.lot_field):
            if field.name == (refusal.field or "text"):
                field.refuse(str(refusal))
                return
        self.lot_field.refuse(str(refusal))

    def refuse_code(self, refusal: Refusal) -> None:
        self.code_field.refuse(str(refusal))

    def clear_refusals(self) -> None:
        for field in (self.first_field, self.last_field, self.lot_field, self.code_field):
            field.clear_refusal()

    def _ask(self) -> None:
        self._emit(self.asked)

    def _ask_for_page(self) -> None:
        self._emit(self.one_page_wanted)

    def _emit(self, signal) -> None:
        text = self.code.text().strip()
        if text:
            signal.emit(text)
        else:
            self.code_field.refuse("Scan a label, or type a code, a tag, a dish or a supplier.")


class VisitStation(Station):
    """F6."""

    name = "visit"
    title = "Visit"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = VisitView(bench.look, bench.today)
        super().__init__(bench, self.view, parent)
        self.presenter = VisitPresenter(self.view, self.faces, bench)
        self.view.asked.connect(partial(bench.go, "trace"))
        self.view.line_wanted.connect(bench.go)
        self.view.officer_wanted.connect(bench.officer_wanted)
        self.view.period_chosen.connect(self.presenter.choose_period)
        self.view.print_wanted.connect(self.presenter.print_paper)
        self.view.list_wanted.connect(self.presenter.save_list)
        self.view.one_page_wanted.connect(self.presenter.print_one_page)
        self.view.book_wanted.connect(self.presenter.save_book)
        self.view.export_wanted.connect(self.presenter.export)
        self.view.check_wanted.connect(self.presenter.check)
        self.faces.stop_wanted.connect(self.presenter.stop)

    def refresh(self) -> None:
        self.presenter.refresh()
