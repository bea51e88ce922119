"""A sentence said large on the page itself, with the sign of what it is: refused, stopped, or done."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import SignFace, role_of
from gametrace.desktop.parts.words import Words, row, set_role

_SAYS = {"amber": "amber", "plum": "plum"}


class Loud(QFrame):
    """Hidden until it has something to say. `state` is a lot state; 'ready' for what was done."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sign = SignFace(look, "ready", size=32)
        self.words = Words("", "steel")
        self.words.setMinimumHeight(look.px(32))
        self.words.setAlignment(Qt.AlignmentFlag.AlignVCenter)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        line = row(self.sign, self.words, gap=8)
        line.setStretch(1, 1)
        self.setLayout(line)
        self.hide()

    def refuse(self, sentence: str, state: str = "on hold") -> None:
        self._say(sentence, state)

    def done(self, sentence: str) -> None:
        self._say(sentence, "ready")

    def hush(self) -> None:
        self.hide()
        self.words.say("")
        self.setAccessibleName("")

    def text(self) -> str:
        return self.words.text().replace("\u200b", "")

    def _say(self, sentence: str, state: str) -> None:
        self.sign.set_state(state)
        set_role(self.words, _SAYS.get(role_of(state), "steel"))
        self.words.say(sentence)
        self.setAccessibleName(sentence)
        self.show()
