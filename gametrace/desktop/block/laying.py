"""On which table something goes: one press a table, and a reason where another animal lies there."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from gametrace.desktop.block.session_strip import TableFace
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear, column, row


class LayingPage(QWidget):
    """Signals: lay_wanted(str, str): table, reason. outside_wanted(): cut it on no table. left()."""

    lay_wanted = Signal(str, str)
    outside_wanted = Signal()
    left = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Words("", "title")
        self.about = Words("One animal lies on a table, so that its trim stays its own.", "quiet")
        self.tables = column(gap=8)
        self.buttons: dict[str, Button] = {}
        self._asked = ""  # the table for which a reason is asked
        self.loud = Loud(look)
        self.reason = Field("Why both lie on one table", QLineEdit(), name="reason")
        self.reason.inner.setMaxLength(500)
        self.with_reason = BigButton("Lay it there all the same")
        self.outside = Button("Cut it on no table")
        self.back = Button("Leave it")
        sheet = Sheet()
        for one in (self.title, self.about, self.tables, self.loud, self.reason):
            sheet.add(one)
        sheet.add(row(self.with_reason, 1))
        sheet.add(row(self.outside, self.back, 1))
        sheet.setMaximumWidth(look.px(820))
        line = row(sheet, 1)
        line.setStretch(0, 8)
        self.setLayout(column(line, 1))
        self.with_reason.clicked.connect(self._lay_with_reason)
        self.reason.inner.returnPressed.connect(self._lay_with_reason)
        self.outside.clicked.connect(self.outside_wanted)
        self.back.clicked.connect(self.left)

    def begin(self, what: str, faces: Sequence[TableFace], first: str) -> None:
        """Ask for `what`; the hand is on the table `first`."""
        self.title.say(f"On which table does {what} go?")
        clear(self.tables)
        self.buttons = {}
        for face in faces:
            button = Button(face.told, name=f"Lay it on {face.told}")
            button.setAutoDefault(True)  # Enter lays it there
            button.clicked.connect(partial(self._lay, face.name))
            self.tables.addLayout(row(button, 1))
            button.show()  # now, not at the next event: the hand goes there at once
            self.buttons[face.name] = button
        self._ask("")
        set_reading_order(self)
        if first in self.buttons:
            self.setFocusProxy(next(iter(self.buttons.values())))
            self.buttons[first].setFocus()

    def ask_reason(self, table: str, sentence: str) -> None:
        """Another animal lies there."""
        self._ask(table)
        self.loud.refuse(sentence)
        self.reason.inner.setFocus()

    def refuse(self, sentence: str) -> None:
        self.loud.refuse(sentence)

    def _ask(self, table: str) -> None:
        self._asked = table
        self.loud.hush()
        self.reason.inner.clear()
        self.reason.clear_refusal()
        self.reason.setVisible(bool(table))
        self.with_reason.setVisible(bool(table))

    def _lay(self, table: str) -> None:
        self.lay_wanted.emit(table, "")

    def _lay_with_reason(self) -> None:
        reason = self.reason.inner.text().strip()
        if not reason:
            self.reason.refuse("Say why, or take another table.")
            return
        self.lay_wanted.emit(self._asked, reason)
