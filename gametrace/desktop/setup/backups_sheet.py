"""Backups as the set-up page shows them: the last one, one more now, and what is in a copy."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear, row, set_role


class BackupsSheet(Sheet):
    """Signals: now_wanted(), folder_wanted(), stick_wanted()."""

    now_wanted = Signal()
    folder_wanted = Signal()
    stick_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Backups", parent)
        self.last = Words("", "large")
        self.folder = Words("")
        self.now = BigButton("Back up now")
        self.stick = Button("To a stick or another folder")
        self.choose = Button("Keep them in another folder")
        self.add(self.last)
        self.add(self.folder)
        self.add(row(self.now, self.stick, self.choose, 1))
        self.add(
            Words(
                "A copy is also made by itself when the window is closed and once a day while it is open. "
                "The newest three stay, and the last of each of 7 days, 5 weeks and 12 months. Every copy is "
                "read from end to end before it counts. A copy on the same disk does not help when the disk "
                "breaks.",
                "quiet",
            )
        )
        self.now.clicked.connect(self.now_wanted)
        self.stick.clicked.connect(self.stick_wanted)
        self.choose.clicked.connect(self.folder_wanted)

    def say(self, last: str, folder: str, *, is_old: bool) -> None:
        self.last.say(last)
        set_role(self.last, "amber" if is_old else "large")
        self.folder.say(folder)

    def say_busy(self, is_busy: bool) -> None:
        for button in (self.now, self.stick):
            button.setEnabled(not is_busy)
        self.now.setText("Copying and reading ..." if is_busy else "Back up now")


class CopySheet(Sheet):
    """Signals: look_wanted(), restore_wanted()."""

    look_wanted = Signal()
    restore_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("What is in a copy", parent)
        self.look = Button("Choose a copy and read it")
        self.restore = BigButton("Make a new register of it")
        self._lines = QVBoxLayout()
        self.add(Words("Try it before it is needed: the copy is read from end to end, not touched.", "quiet"))
        self.add(row(self.look, 1))
        self.add(self._lines)
        self.add(row(self.restore, 1))
        self.restore.hide()
        self.look.clicked.connect(self.look_wanted)
        self.restore.clicked.connect(self.restore_wanted)

    def show_copy(self, lines: Sequence[str], *, is_whole: bool) -> None:
        clear(self._lines)
        for at, line in enumerate(lines):
            self._lines.addWidget(Words(line, "amber" if at == 0 and not is_whole else ""))
        self.restore.setVisible(is_whole)

    def say_busy(self, is_busy: bool) -> None:
        self.look.setEnabled(not is_busy)
        self.look.setText("Reading ..." if is_busy else "Choose a copy and read it")
