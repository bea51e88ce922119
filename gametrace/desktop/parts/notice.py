"""What went wrong, said where it belongs: a refusal under its field, trouble as a banner over the page.

No dialogs: nothing has to be clicked away before the next carcass.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, Qt, QTimer, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.state_sign import SignFace
from gametrace.desktop.parts.words import Words, repolish, set_role
from gametrace.desktop.style import GAP

READ_MS = 8_000  # by then a sentence was read


class Field(QWidget):
    """A question, its field, and the room under it where a refusal is shown. Nothing typed is lost by one.

    `name` is the field's name in a Refusal ("grams", "tag").
    """

    def __init__(
        self, label: str, inner: QWidget, *, name: str = "", hint: str = "", parent: QWidget | None = None
    ):
        super().__init__(parent)
        self.name = name
        self.inner: Any = inner  # each has its own value(), text() or the like
        # Children from the start: a label shown before it has a parent is a window for a moment.
        self.label = Words(label, "quiet", parent=self)
        self.label.setVisible(bool(label))
        self.hint = Words(hint, "quiet", parent=self)
        self.hint.setVisible(bool(hint))
        self.trouble = Words("", "amber", parent=self)
        self.trouble.hide()
        if label and not inner.accessibleName():
            inner.setAccessibleName(label)
        self.setFocusProxy(inner)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for item in (self.label, inner, self.hint, self.trouble):
            layout.addWidget(item)

    def refuse(self, sentence: str) -> None:
        """Show why, and put the hand there."""
        self.trouble.say(sentence)
        self.trouble.show()
        self._mark(True)
        self.inner.setFocus(Qt.FocusReason.OtherFocusReason)

    def clear_refusal(self) -> None:
        self.trouble.hide()
        self._mark(False)

    def _mark(self, wrong: bool) -> None:
        target = getattr(self.inner, "edit", self.inner)
        target.setProperty("wrong", wrong)
        repolish(target)


class Banner(QFrame):
    """One line over the page: done, refused, or trouble with a way to try again.

    It pushes the page down, so it never goes by itself while a hand may be on its way to a button: what was
    done goes with the first key struck, or the next station, after it was there long enough to be read.

    Signals: again_wanted(), more_wanted().
    """

    again_wanted = Signal()
    more_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "banner")
        self.sign = SignFace(look, "ready", size=28)
        self.words = Words("", "strong")
        self.more = Button("What happened")
        self.again = Button("Try again")
        self.away = Button("Put away")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP, 4, GAP, 4)
        layout.setSpacing(GAP)
        layout.addWidget(self.sign)
        layout.addWidget(self.words, 1)
        for button in (self.more, self.again, self.away):
            layout.addWidget(button)
        self.again.clicked.connect(self._again)
        self.more.clicked.connect(self.more_wanted)
        self.away.clicked.connect(self.hide)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._was_read)
        self._may_go = False
        self.hide()

    def done(self, sentence: str) -> None:
        """What was done; nothing hangs on it."""
        self._show(sentence, "ready", again=False, more=False)
        self._timer.start(READ_MS)

    def let_go(self, _page: int = 0) -> None:
        """The page changes anyway: what was read may go."""
        if self._may_go:
            self.hide()

    def let_go_of(self, sentence: str) -> None:
        """What this spoke of was put right since; anything else stays."""
        if sentence and self.accessibleName() == sentence:
            self.hide()

    def refused(self, sentence: str) -> None:
        self._show(sentence, "on hold", again=False, more=False)

    def trouble(self, sentence: str, *, can_retry: bool) -> None:
        self._show(sentence, "rejected", again=can_retry, more=False)

    def bug(self, sentence: str) -> None:
        self._show(sentence, "rejected", again=False, more=True)

    def _show(self, sentence: str, state: str, *, again: bool, more: bool) -> None:
        self._timer.stop()
        self._may_go = False
        self.sign.set_state(state)
        says = {"ready": "steel", "on hold": "amber"}.get(state, "plum")
        set_role(self.words, "strong" if says == "steel" else says)
        self.setProperty("says", says)
        repolish(self)
        self.words.say(sentence)
        self.setAccessibleName(sentence)
        self.again.setVisible(again)
        self.more.setVisible(more)
        self.show()

    def _was_read(self) -> None:
        self._may_go = True
        QCoreApplication.instance().installEventFilter(self)

    def eventFilter(self, watched, event) -> bool:
        if event.type() == QEvent.Type.KeyPress:
            self.let_go()
        return False

    def hideEvent(self, event) -> None:
        super().hideEvent(event)
        if (app := QCoreApplication.instance()) is not None:
            app.removeEventFilter(self)

    def _again(self) -> None:
        self.hide()
        self.again_wanted.emit()
