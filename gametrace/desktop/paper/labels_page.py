"""The page of labels: which lots, which stock, from which place, how often, to what; and how they print.

It knows values and signals. What labels say and where they go is the presenter's to find out.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QStackedWidget, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.paper.preview import Preview
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART


class LabelsPage(QWidget):
    """Signals: changed(): another stock, place or number. added(str), cleared(), print_wanted(),
    hand_wanted(), grid_wanted()."""

    changed = Signal()
    added = Signal(str)
    cleared = Signal()
    last_wanted = Signal()
    print_wanted = Signal()
    hand_wanted = Signal()
    grid_wanted = Signal()
    hand_paper_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.what = Words("", "strong")
        self.code = QLineEdit()
        self.code.setMaxLength(40)
        self.code.setPlaceholderText("scan a lot, or type its code, then Enter")
        self.code_field = Field("One more lot", self.code, name="codes")
        self.clear = Button("None of these", name="Take all lots off")
        self.last = Button("The last ones", name="The lots whose labels were printed last")
        self.stock = PickList("Label stock", search="Find a stock")
        self.place = Field(
            "First empty place", CountEdit("First empty place", field="start_at"), name="start_at"
        )
        self.copies = Field("Of each", CountEdit("How many of each", most=50, field="copies"), name="copies")
        self.copies.inner.set_value(1)
        self.to = PickList("Where to", search="Find a printer")
        self.print = BigButton("Print")
        self.hand = Button("Write by hand", name="The printer is dead: what to write by hand")
        self.grid = Button("Test print", name="A test print of this stock, with rulers")
        self.loud = Loud(look)
        self.missing = Words("", "amber")
        self.missing.hide()
        self.preview = Preview(look)
        self.by_hand = HandFace(look)
        self._build()
        self._connect()

    def _build(self) -> None:
        look = self._look
        self.stock.setFixedHeight(look.px(160))
        self.to.setFixedHeight(look.px(108))
        asked = ScrollColumn()
        for item in (
            self.what,
            self.missing,
            row(self.place, self.copies, gap=8),
            self.stock,
            self.to,
            row(self.code_field, self.clear, self.last, gap=8),
        ):
            asked.add(item)
        asked.body.setSpacing(8)
        asked.add_stretch()
        left = QWidget()
        left.setLayout(column(asked, self.print, row(self.hand, self.grid, 1, gap=8), gap=8))
        left.layout().setStretch(0, 1)
        keep_width(look, left, 440)
        self.right = QStackedWidget()
        self.right.addWidget(self.preview)
        self.right.addWidget(self.by_hand)
        side = QWidget()
        side.setLayout(column(self.loud, self.right, gap=8))
        side.layout().setStretch(1, 1)
        whole = row(left, side, gap=APART)
        whole.setStretch(1, 1)
        self.setLayout(whole)

    def _connect(self) -> None:
        self.code.returnPressed.connect(self._add)
        self.clear.clicked.connect(self.cleared)
        self.last.clicked.connect(self.last_wanted)
        self.stock.moved.connect(self._changed)
        self.stock.picked.connect(self._changed)
        self.place.inner.changed.connect(self.changed)
        self.copies.inner.changed.connect(self.changed)
        self.print.clicked.connect(self.print_wanted)
        self.hand.clicked.connect(self.hand_wanted)
        self.grid.clicked.connect(self.grid_wanted)
        self.by_hand.back.clicked.connect(self.show_preview)
        self.by_hand.paper.clicked.connect(self.hand_paper_wanted)

    def _add(self) -> None:
        self.added.emit(self.code.text().strip())

    def _changed(self, _value: str) -> None:
        self.changed.emit()

    # -- said -------------------------------------------------------------------------------------------

    def say_what(self, codes: Sequence[str], many: int, *, has_last: bool = False) -> None:
        """Which lots, and how many labels that makes."""
        few = ", ".join(codes[:4]) + (f" and {len(codes) - 4} more" if len(codes) > 4 else "")
        self.what.say(few or "No lot yet: scan one, or come here from where its label is wanted.")
        self.clear.setVisible(bool(codes))
        self.last.setVisible(has_last and not codes)
        words = "Print" if not many else f"Print {many} label{'' if many == 1 else 's'}"
        self.print.setText(f"{words}  Ctrl+Enter")
        self.print.setEnabled(bool(codes))
        self.hand.setEnabled(bool(codes))

    def show_stocks(self, choices: Sequence[Choice], value: str) -> None:
        self.stock.set_choices(choices)
        self.stock.set_value(value)

    def show_printers(self, choices: Sequence[Choice], value: str) -> None:
        self.to.set_choices(choices)
        self.to.set_value(value)

    def say_boxes(self, are_there: bool) -> None:
        self.missing.say("Signs the type does not hold are printed as □." if are_there else "")
        self.missing.setVisible(are_there)

    def ask_place(self, wanted: bool) -> None:
        self.place.setVisible(wanted)

    def clear_refusals(self) -> None:
        for field in (self.code_field, self.place, self.copies):
            field.clear_refusal()

    def refuse(self, name: str, sentence: str) -> None:
        for field in (self.code_field, self.place, self.copies):
            if field.name == name:
                field.refuse(sentence)
                return
        self.loud.refuse(sentence)

    def show_preview(self) -> None:
        self.right.setCurrentWidget(self.preview)
        self.hand.setFocus()

    def show_by_hand(self, labels: Sequence[Sequence[str]]) -> None:
        self.by_hand.show_lines(labels)
        self.right.setCurrentWidget(self.by_hand)
        self.by_hand.back.setFocus()


class HandFace(QWidget):
    """What to write on each tag, as large as can be read from the bench."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.advice = Words("", "quiet")
        self.roll = ScrollColumn()
        self.paper = Button("On paper", name="These lines on paper, from another printer")
        self.back = Button("Back to the preview")
        self.setLayout(column(self.advice, self.roll, row(self.paper, self.back, 1, gap=8), gap=8))
        self.layout().setStretch(1, 1)

    def show_lines(self, labels: Sequence[Sequence[str]]) -> None:
        self.roll.start_anew()
        for lines in labels:
            self.roll.add(Words(lines[0], "figure"))
            for line in lines[1:]:
                self.roll.add(Words(line, "large"))
        self.roll.add_stretch()
