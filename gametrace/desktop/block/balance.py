"""The right of the page: what is unweighed in large figures, the bar, the trays, and what may be done to one.

Two further faces: correcting a tray's weight, and closing the block.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QStackedWidget, QWidget

from gametrace.desktop.block.trays import Tray, TrayList
from gametrace.desktop.look import Look
from gametrace.desktop.parts.balance_bar import BalanceBar, BalancePart
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row, set_role
from gametrace.domain.break_down import AMBER, EVEN, RED, SORTS, BreakDown
from gametrace.domain.quantities import kg_figure, kg_text, kg_to_the_gram
from gametrace.domain.yields import percent_text

_ROLES = {EVEN: "large", AMBER: "amber", RED: "plum"}


class CorrectingFace(QWidget):
    """Signals: wanted(str): the code to correct. left()."""

    wanted = Signal(str)
    left = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._code = ""
        self.title = Words("", "heading")
        self.about = Words("The old weight stays on view with the reason.", "quiet")
        self.grams = Field("The right weight", KiloEdit("The right weight"), name="grams")
        self.reason = Field("Why", QLineEdit(), name="reason")
        self.reason.inner.setMaxLength(500)
        self.correct = BigButton("Correct it")
        self.back = Button("Leave it")
        self.setLayout(column(self.title, self.about, self.grams, self.reason, self.correct, self.back, 1))
        self.correct.clicked.connect(self._want)
        self.reason.inner.returnPressed.connect(self._want)
        self.grams.inner.entered.connect(self.reason.inner.setFocus)
        self.back.clicked.connect(self.left)

    def begin(self, tray: Tray) -> None:
        self._code = tray.code
        self.title.say(f"{tray.name}, {tray.code}: {kg_text(tray.grams)}")
        self.grams.inner.set_value(tray.grams)
        self.reason.inner.clear()
        for field in (self.grams, self.reason):
            field.clear_refusal()
        self.grams.inner.select()

    def refuse(self, field: str, sentence: str) -> None:
        (self.reason if field == "reason" else self.grams).refuse(sentence)

    def _want(self) -> None:
        self.wanted.emit(self._code)


class ClosingFace(QWidget):
    """Signals: wanted(). left()."""

    wanted = Signal()
    left = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Words("", "heading")
        self.about = Words("")
        self.reason = Field("Where it went, or why it is missing", QLineEdit(), name="reason")
        self.reason.inner.setMaxLength(500)
        self.back = Button("Go on weighing")
        self.close_it = BigButton("Close the block")
        self.setLayout(column(self.title, self.about, self.reason, self.close_it, self.back, 1))
        self.close_it.clicked.connect(self.wanted)
        self.reason.inner.returnPressed.connect(self.wanted)
        self.back.clicked.connect(self.left)

    def begin(self, left_grams: int, asks: bool, share: str) -> None:
        self.title.say("Close the block?" if left_grams else "Everything is weighed")
        if left_grams:
            about = (
                f"{kg_to_the_gram(left_grams)} has not been weighed, {share} of what went in. "
                "Is a tray still on the table? "
                "Closed now, it is unaccounted and stays on view for ever."
            )
        else:
            about = "Nothing is missing."
        self.about.say(about)
        self.reason.setVisible(asks)
        self.reason.inner.clear()
        self.reason.clear_refusal()
        (self.reason.inner if asks else self.close_it).setFocus()


class _Faces(QStackedWidget):
    """Asks for the room of the face shown, not of the highest one."""

    def minimumSizeHint(self) -> QSize:
        face = self.currentWidget()
        return face.minimumSizeHint() if face is not None else super().minimumSizeHint()


class BalanceColumn(QWidget):
    """Signals: label_wanted(str), trace_wanted(str): of the tray picked. close_asked()."""

    label_wanted = Signal(str)
    trace_wanted = Signal(str)
    close_asked = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.figure = Words("", "figure", wrap=False)
        self.figure_words = Words("unweighed", "large", wrap=False)
        self.share = Words("", "quiet")
        self.sums = Words("", "quiet")
        self.bar = BalanceBar(look)
        self.bar.show_names(False)
        keep_width(look, self.bar, 66)
        self.bar.setMinimumHeight(look.px(120))
        self.trays = TrayList(look)
        self.none = Words("No tray yet. The white is what is still to be weighed.", "quiet")
        self.none.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.label = Button("Label", name="Print the label of the tray picked")
        self.correct = Button("Correct", name="Correct the weight of the tray picked")
        self.trace = Button("Trace", name="Trace the tray picked")
        self.close_button = Button("Close the block")
        self.correcting, self.closing = CorrectingFace(look), ClosingFace(look)
        self.stack = _Faces()
        self._build()
        self.trays.picked.connect(self._picked)
        self.label.clicked.connect(self._want_label)
        self.trace.clicked.connect(self._want_trace)
        self.correct.clicked.connect(self._begin_correcting)
        self.close_button.clicked.connect(self.close_asked)
        self.correcting.left.connect(self.show_trays)
        self.closing.left.connect(self.show_trays)
        self._picked("")

    def _build(self) -> None:
        self.acts = QWidget()
        self.acts.setLayout(row(self.label, self.correct, self.trace, 1, gap=4))
        list_side = column(self.trays, self.none, gap=0)
        list_side.setStretch(0, 1)
        list_side.setStretch(1, 1)
        middle = row(self.bar, list_side, gap=8)
        middle.setStretch(1, 1)
        page = QWidget()
        page.setLayout(column(middle, self.sums, self.acts, self.close_button, gap=8))
        page.layout().setStretch(0, 1)
        for face in (page, self.correcting, self.closing):
            self.stack.addWidget(face)
        head = row(self.figure, self.figure_words, 1, gap=8)
        whole = column(column(head, self.share, gap=0), self.stack, gap=8)
        whole.setStretch(1, 1)
        self.setLayout(whole)

    def set_balance(self, balance: BreakDown, trays: Sequence[Tray], words: str, lines: str) -> None:
        """The balance and its trays; `words` says what is left, `lines` how near it is to the lines."""
        left = balance.left_grams
        self.figure.say(kg_to_the_gram(left))
        self.figure_words.say(words)
        set_role(self.figure_words, _ROLES[balance.level] if left else "large")
        self.share.say(lines)
        set_role(self.share, "quiet" if balance.level == EVEN else _ROLES[balance.level])
        parts = [BalancePart(one.name, one.grams, one.sort) for one in trays]
        self.bar.set_balance(balance.grams_in, parts, left, words, balance.level)
        self.sums.say(", ".join(f"{SORTS[sort]} {kg_figure(grams)}" for sort, grams in balance.parts))
        self.trays.set_trays(trays)
        self.none.setVisible(not trays)
        self.trays.setVisible(bool(trays))
        self.sums.setVisible(bool(trays))

    def set_closed(self, closed: bool) -> None:
        self.close_button.setVisible(not closed)

    def show_trays(self) -> None:
        self.stack.setCurrentIndex(0)

    def show_closing(self, balance: BreakDown) -> None:
        """Closing asks once; past the kitchen's line it asks for a reason."""
        self.stack.setCurrentWidget(self.closing)
        share = percent_text(balance.share_left)
        self.closing.begin(balance.left_grams, balance.level != EVEN, share)

    def _begin_correcting(self) -> None:
        if (tray := self.trays.picked_tray()) is not None:
            self.stack.setCurrentWidget(self.correcting)
            self.correcting.begin(tray)

    def _picked(self, code: str) -> None:
        self.acts.setVisible(bool(code))

    def _want_label(self) -> None:
        self.label_wanted.emit(self.trays.picked_code())

    def _want_trace(self) -> None:
        self.trace_wanted.emit(self.trays.picked_code())
