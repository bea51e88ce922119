"""What became of the delivery: the house number to write on the tag, and what comes next."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import GAP

PRINT = "Print the tag"


class DonePage(QWidget):
    """The number takes the focus, so that a second Enter does nothing. One Tab leads to the tag.

    Signals: tag_wanted(), body_wanted(): another body on the same card. next_wanted(), finish_wanted(),
    examine_wanted(), larder_wanted(), tick_wanted(): it is what was expected.
    """

    tag_wanted = Signal()
    body_wanted = Signal()
    next_wanted = Signal()
    finish_wanted = Signal()
    examine_wanted = Signal()
    larder_wanted = Signal()
    tick_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Words("", "title")
        self.number = Words("", "number", wrap=False)
        font = look.font(120 / look.scale, bold=True)  # as large as it gets in any size of type
        self.number.setFont(font)
        self.number.setStyleSheet(f"font-size: {font.pixelSize()}px; font-weight: 600;")
        self.number.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFocusProxy(self.number)
        self.sign = StateSign(look)
        self.sentence = Words("", "large")
        self.waiting = Words("", "quiet")
        self.card = Words("", "quiet")
        self.announced = Words("", "quiet")
        self.tick = Button("Tick it off")
        self.announced.hide()
        self.tick.hide()
        self.tag = BigButton(PRINT)
        self.body = Button("Next body", name="Next body on this card")
        self.next = Button("Next delivery")
        self.finish = Button("Fill in the rest", name="Fill in what is missing")
        self.examine = Button("Examine it", name="Examine it now")
        self.larder = Button("Larder", name="To the larder")
        for button in (self.tick, self.body, self.next, self.examine, self.finish, self.larder):
            button.setAutoDefault(True)  # Enter presses it, as it does the main action
        expected = row(self.tick, self.announced, gap=12)
        expected.setStretch(1, 1)
        # The width is bounded around the words: a label bounded itself is given too few lines.
        said = QWidget()
        said.setMaximumWidth(look.px(980))
        said.setLayout(
            column(
                self.title, self.number, self.sign, self.sentence, self.waiting, self.card, expected, gap=8
            )
        )
        across = row(said, 0)
        across.setStretch(0, 1)
        told = ScrollColumn()
        told.add(across)
        told.add_stretch()
        acts = row(self.tag, self.body, self.next, self.examine, self.finish, self.larder, 1, gap=8)
        self.setLayout(column(told, acts, margin=GAP))
        self.layout().setStretch(0, 1)
        self.tag.clicked.connect(self.tag_wanted)
        self.body.clicked.connect(self.body_wanted)
        self.next.clicked.connect(self.next_wanted)
        self.finish.clicked.connect(self.finish_wanted)
        self.examine.clicked.connect(self.examine_wanted)
        self.larder.clicked.connect(self.larder_wanted)
        self.tick.clicked.connect(self.tick_wanted)

    def show_done(
        self,
        *,
        code: str,
        title: str,
        state: str,
        reason: str,
        days: int | None,
        sentence: str,
        waiting: str,
        card: str = "",
    ) -> None:
        """What was taken in, as what it landed, and what is still to be filled in."""
        self.title.say(title)
        self.number.setText(code)
        self.number.setAccessibleName(f"House number {code}")
        self.sign.set_state(state, reason, days)
        self.sentence.say(sentence)
        self.sentence.setVisible(bool(sentence))
        self.waiting.say(waiting)
        self.waiting.setVisible(bool(waiting))
        self.finish.setVisible(bool(waiting))
        self.card.say(card)
        self.card.setVisible(bool(card))
        self.body.setVisible(bool(card))
        self.tag.setText(PRINT)
        self.tag.show()

    def offer_tick(self, words: str, *, is_done: bool = False) -> None:
        """What was expected from this supplier and may be this; '' offers nothing."""
        self.announced.say(words)
        self.announced.setVisible(bool(words))
        self.tick.setVisible(bool(words) and not is_done)
        self.tick.setAccessibleName(f"Tick it off: {words}")

    def say_printed(self) -> None:
        self.tag.setText("Print it again")
        onwards = self.body if self.body.isVisibleTo(self) else self.next
        onwards.setFocus(Qt.FocusReason.OtherFocusReason)
