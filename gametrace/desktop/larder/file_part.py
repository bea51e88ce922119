"""What else the file holds: looks, calls, pictures small and large, the second decision, claims, results."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QPixmap
from PySide6.QtWidgets import QGridLayout, QPushButton, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.words import Words, clear, column

ACROSS, SMALL = 3, 104


@dataclass(frozen=True, slots=True)
class Shot:
    """One picture: its hash, what it shows in words, and whether it is one (or a paper in PDF)."""

    hash: str
    words: str
    is_picture: bool


@dataclass(frozen=True, slots=True)
class FileTold:
    """Sections as (heading, sentences), and the pictures."""

    sections: tuple[tuple[str, tuple[str, ...]], ...] = ()
    shots: tuple[Shot, ...] = ()


class FilePart(QWidget):
    """Signals: picture_wanted(str): show the picture of that hash large."""

    picture_wanted = Signal(str)
    thumbs_wanted = Signal(object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.sections = column(gap=8)
        self.large = Words("")
        self.large.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.large.hide()
        self.thumbs: dict[str, QPushButton] = {}
        self._grid = QGridLayout()
        self._grid.setSpacing(8)
        self._large_hash = ""
        self._told = FileTold()
        self.setLayout(column(self.sections, self._grid, self.large, gap=8))

    def show_file(self, told: FileTold) -> None:
        if told == self._told and self.sections.count():
            return
        self._told = told
        clear(self.sections)
        for heading, sentences in told.sections:
            self.sections.addWidget(Words(heading, "strong"))
            for sentence in sentences:
                self.sections.addWidget(Words(sentence))
        self._show_shots(told.shots)
        self.setVisible(bool(told.sections or told.shots))

    def _show_shots(self, shots: Sequence[Shot]) -> None:
        clear(self._grid)
        self.thumbs = {}
        self._large_hash = ""
        self.large.hide()
        side = self._look.px(SMALL)
        for at, shot in enumerate(shots):
            if not shot.is_picture:
                self._grid.addWidget(Words(shot.words), len(shots) + at, 0, 1, ACROSS)
                continue
            button = QPushButton()
            button.setAutoDefault(True)
            button.setFixedSize(side + 16, side + 16)
            button.setIconSize(QSize(side, side))
            button.setAccessibleName(f"{shot.words}: show it large")
            button.setToolTip(shot.words)
            button.setProperty("hash", shot.hash)
            button.clicked.connect(self._pressed)
            self.thumbs[shot.hash] = button
            self._grid.addWidget(button, at // ACROSS, at % ACROSS, Qt.AlignmentFlag.AlignLeft)
        self.thumbs_wanted.emit(tuple(self.thumbs))

    def set_thumb(self, found: str, content: bytes) -> None:
        if (button := self.thumbs.get(found)) is None:
            return
        picture = _picture(content)
        if picture.isNull():
            button.setText("?")
        else:
            button.setIcon(QIcon(_within(picture, self._look.px(SMALL))))

    def show_picture(self, found: str, content: bytes) -> None:
        """Large under the small ones; pressed again it goes."""
        if found == self._large_hash and self.large.isVisibleTo(self):
            self.large.hide()
            return
        picture = _picture(content)
        if not picture.isNull():
            self._large_hash = found
            self.large.setPixmap(_within(picture, max(self.width() - 8, self._look.px(200))))
            self.large.show()

    def _pressed(self) -> None:
        button = self.sender()
        if isinstance(button, QPushButton):
            self.picture_wanted.emit(button.property("hash"))


def _picture(content: bytes) -> QPixmap:
    made = QPixmap()
    made.loadFromData(content)
    return made


def _within(picture: QPixmap, side: int) -> QPixmap:
    return picture.scaled(
        side, side, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
    )
