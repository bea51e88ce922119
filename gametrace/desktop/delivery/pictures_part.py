"""Pictures of a delivery, by file, camera, paste or drop, and shown small. It keeps nothing itself."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from gametrace.desktop.delivery.camera import may_be_used
from gametrace.desktop.delivery.camera_face import CameraFace
from gametrace.desktop.delivery.fields import DropList
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.words import Words, clear, column, row

SHOWS = (
    ("declaration", "The card"),
    ("tag", "The tag"),
    ("mark", "The mark"),
    ("carcass", "The carcass"),
    ("wound", "The wound"),
    ("certificate", "A certificate"),
    ("other", "Something else"),
)
WAYS = "Or paste with Ctrl+V, or drop it on the page. JPEG, PNG, WebP or PDF."
NO_CAMERA = "A camera on this computer can be used too, once its part is installed (README, Other machines)."
ACROSS, SIDE = 2, 140


class PicturesPart(QWidget):
    """Signals: file_wanted(), taken(QImage) by the camera, paste_wanted()."""

    file_wanted = Signal()
    taken = Signal(QImage)
    paste_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.shows = DropList("What the picture shows", SHOWS)
        self.file = Button("From a file")
        self.camera = Button("Camera")
        self.paste = Button("Paste")
        self.face: CameraFace | None = None
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.working = Words("The picture is made ready.", "quiet")
        self.working.hide()
        self._grid = QGridLayout()
        self._grid.setSpacing(8)
        self._shown: object = None
        self.setLayout(
            column(
                Field("What it shows", self.shows),
                row(self.file, self.camera, self.paste, 1),
                self.trouble,
                self.working,
                self._grid,
                Words(WAYS if may_be_used() else f"{WAYS} {NO_CAMERA}", "quiet"),
                gap=8,
            )
        )
        self.file.clicked.connect(self.file_wanted)
        self.paste.clicked.connect(self.paste_wanted)
        self.camera.setVisible(may_be_used())
        self.camera.clicked.connect(self.look_on)

    def look_on(self) -> None:
        """Start the camera, made when first asked for."""
        if self.face is None:
            self.face = CameraFace(self._look)
            self.face.taken.connect(self.taken)
            self.layout().insertWidget(2, self.face)
        self.face.look_on()

    def what(self) -> str:
        return self.shows.value()

    def show_pictures(self, pictures: Iterable[tuple[str, str, bytes]]) -> None:
        """(what it shows in words, media type, bytes) of each, small. A PDF is named, not drawn."""
        given = tuple(pictures)
        if given == self._shown:
            return
        self._shown = given
        clear(self._grid)
        for at, (words, media_type, content) in enumerate(given):
            self._grid.addWidget(self._thumb(words, media_type, content), at // ACROSS, at % ACROSS)

    def _thumb(self, words: str, media_type: str, content: bytes) -> QWidget:
        face = QLabel()
        face.setAlignment(Qt.AlignmentFlag.AlignCenter)
        side = self._look.px(SIDE)
        drawn = QPixmap()
        if media_type != "application/pdf" and drawn.loadFromData(content):
            keep, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
            face.setPixmap(drawn.scaled(side, side, keep, smooth))
        else:
            face.setText("PDF" if media_type == "application/pdf" else "no picture")
            face.setProperty("role", "heading")
        face.setFixedSize(side, side)
        face.setAccessibleName(words)
        thumb = QWidget()
        thumb.setLayout(column(face, Words(words, "quiet"), gap=4))
        return thumb

    def say_working(self, is_working: bool) -> None:
        self.working.setVisible(is_working)

    def refuse(self, sentence: str) -> None:
        self.trouble.say(sentence)
        self.trouble.show()

    def clear_refusal(self) -> None:
        self.trouble.hide()
