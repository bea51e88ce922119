"""The look: the points at the left with the one in hand under them, outline and findings at the right."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.examination.card import LookCard
from gametrace.desktop.examination.marking import MarkPart
from gametrace.desktop.examination.point_list import LOOKS, PointList
from gametrace.desktop.look import Look as Dress
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.domain.examination import Look
from gametrace.domain.findings import Finding, rests_on
from gametrace.facts.examination import Point, never_cut
from gametrace.facts.sources import citation

ANSWERS = tuple((one.value, f"{at} {one.value[0].upper()}{one.value[1:]}") for at, one in enumerate(LOOKS, 1))
SCROLLS_OVER = 1.25  # size of type
_MARKING_TALL = 300  # px: two rows of choices, the outline and the list beside it
_NOTE_HINTS = {
    Look.NOT_SO: "What was seen, and where. Enter goes on",
    Look.NOT_PRESENT: "Why it is not there, if it should be",
    Look.NOT_LOOKED_AT: "Why it was not looked at",
}


class LookPage(QWidget):
    """Signals: answered(str, str), noted(str, str), moved(str), note_done(str): a point, with its answer or
    words; marked(object), unmarked(int); wanted(): write it down."""

    answered = Signal(str, str)
    noted = Signal(str, str)
    note_done = Signal(str)
    moved = Signal(str)
    marked = Signal(object)
    unmarked = Signal(int)
    wanted = Signal()

    def __init__(self, look: Dress, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._point = ""
        self.points = PointList(look)
        self.name = Words("", "heading", wrap=False)
        self.where = Words("")
        self.never = Words(never_cut().name, "amber")
        self.answers = ChoiceRow(ANSWERS, name="Answer", columns=0 if look.scale <= 1 else 2)
        self.note = QLineEdit()
        self.note.setMaxLength(300)
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.marking = MarkPart(look)
        self.panel = FindingPanel(look, asks=False, empty="Nothing to say about the answers so far.")
        self.stage = Words("", "strong")
        self.count = Words("", "quiet")
        self.act = BigButton("Write it down")
        self._build(look)
        self._connect()

    def _build(self, look: Dress) -> None:
        left = QWidget()
        named = row(self.name, self.never, gap=16)
        named.setStretch(1, 1)
        detail = column(named, self.where, self.answers, self.note, gap=4)
        left.setLayout(column(self.points, detail, self.trouble, gap=8))
        left.layout().setStretch(0, 1)
        scroll = ScrollColumn()
        scroll.add(self.panel)
        scroll.add_stretch()
        self.findings = scroll
        foot = row(column(self.stage, self.count, gap=0), self.act, gap=16)
        foot.setStretch(0, 1)
        right = QWidget()
        if look.scale > SCROLLS_OVER:  # outline and list do not fit over the findings
            self.marking.setMinimumHeight(look.px(_MARKING_TALL))
            scroll.body.insertWidget(0, self.marking)
            right.setLayout(column(scroll, foot, gap=8))
            right.layout().setStretch(0, 1)
        else:
            right.setLayout(column(self.marking, scroll, foot, gap=8))
            right.layout().setStretch(0, 5)
            right.layout().setStretch(1, 4)
        self._halves = row(left, right, gap=24)
        self.setLayout(self._halves)
        self._share_room()
        look.changed.connect(self._share_room)
        self.setFocusProxy(self.points)

    def _connect(self) -> None:
        self.points.answered.connect(self.answered)
        self.points.moved.connect(self.moved)
        self.points.words_wanted.connect(self._to_note)
        self.answers.changed.connect(self._answer_pressed)
        self.answers.entered.connect(self._to_note)
        self.note.textEdited.connect(self._note_typed)
        self.note.returnPressed.connect(self._note_entered)
        self.note.installEventFilter(self)
        self.marking.marked.connect(self.marked)
        self.marking.unmarked.connect(self.unmarked)
        self.act.clicked.connect(self.wanted)

    def _share_room(self) -> None:
        """In larger type the answers stand in two rows, and the marks need the breadth."""
        is_large = self._look.scale > 1
        self._halves.setStretch(0, 18 if is_large else 21)
        self._halves.setStretch(1, 22 if is_large else 19)

    # -- showing ----------------------------------------------------------------------------------------

    def show_card(self, card: LookCard) -> None:
        self.points.show_card(card)
        self.show_marks(card)
        self.show_point(card, self.points.current())
        self.stage.say(f"Looked at {card.stage}")

    def show_marks(self, card: LookCard) -> None:
        self.marking.setVisible(card.has_outline)
        self.marking.show_card(card)

    def show_point(self, card: LookCard, point_id: str) -> None:
        """The one in hand, in full."""
        point: Point = card.point(point_id)
        self._point = point_id
        self.name.say(point.name[:1].upper() + point.name[1:])
        self.never.setVisible(point.kind == "node")
        self.where.say(
            f"{point.where}. Should be: {point.as_it_should_be}. Not so: {point.not_so}."
            f"{self._source_words(point)}{_earlier_words(card, point_id)}"
        )
        self.show_answer(card, point_id)

    def _source_words(self, point: Point) -> str:
        """Where there is room for it; every finding names its source in any case."""
        return "" if self._look.scale > 1 else f" [{rests_on(citation(point.source), point.status)}]"

    def show_answer(self, card: LookCard, point_id: str) -> None:
        """One answer anew, in its row and in hand."""
        self.points.show_answer(card, point_id)
        left = len(card.left())
        self.count.say(
            f"{len(card.points) - left} of {len(card.points)} answered" if left else "Every point answered"
        )
        if point_id != self._point:
            return
        given = card.answers.get(point_id)
        self.answers.set_value(given.answer if given else "")
        for look in (Look.AS_IT_SHOULD_BE, Look.NOT_SO):
            self.answers.button(look.value).setEnabled(point_id not in card.absent)
        hint = _NOTE_HINTS.get(Look(given.answer)) if given else None
        self.note.setVisible(hint is not None)
        self.note.setPlaceholderText(hint or "")
        self.note.setAccessibleName(hint or "Words to this answer")
        words = given.note if given else ""
        if self.note.text() != words:
            self.note.setText(words)

    def show_findings(self, findings: Sequence[Finding]) -> None:
        self.panel.set_findings(findings)

    def to_note(self) -> None:
        self.note.setFocus(Qt.FocusReason.OtherFocusReason)

    def to_points(self, point_id: str = "") -> None:
        if point_id:
            self.points.go_to(point_id)
        self.points.setFocus(Qt.FocusReason.OtherFocusReason)

    def refuse(self, sentence: str) -> None:
        self.trouble.say(sentence)
        self.trouble.show()

    def clear_refusal(self) -> None:
        self.trouble.hide()

    # -- hands ------------------------------------------------------------------------------------------

    def _answer_pressed(self, answer: str) -> None:
        self.answered.emit(self._point, answer)

    def _to_note(self, _point_id: str = "") -> None:
        if not self.note.isHidden():
            self.to_note()

    def _note_typed(self, words: str) -> None:
        self.noted.emit(self._point, words.strip())

    def _note_entered(self) -> None:
        self.note_done.emit(self._point)

    def eventFilter(self, watched, event) -> bool:
        """Up and Escape lead from the words back to the list."""
        if event.type() == QEvent.Type.KeyPress and event.key() in (Qt.Key.Key_Escape, Qt.Key.Key_Up):
            self.to_points()
            return True
        return super().eventFilter(watched, event)


def _earlier_words(card: LookCard, point_id: str) -> str:
    """What the other look had said, with its words."""
    earlier = card.earlier.get(point_id)
    if earlier is None:
        return ""
    note = f", {earlier.note}" if earlier.note else ""
    return f" {card.earlier_stage[:1].upper()}{card.earlier_stage[1:]}: {earlier.answer}{note}."
