"""What the camera sees, live, and the press that takes it. The camera is off whenever this is not on view."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QLabel, QWidget

from gametrace.desktop.delivery.camera import Camera
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, column, row

WIDE, HIGH = 320, 240


class CameraFace(QWidget):
    """Signals: taken(QImage)."""

    taken = Signal(QImage)

    def __init__(self, look: Look, camera: Camera | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._camera = camera or Camera(self)
        self._last = QImage()
        self.live = QLabel("The camera is looking …")
        self.live.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.live.setFixedSize(look.px(WIDE), look.px(HIGH))
        self.live.setAccessibleName("What the camera sees")
        self.trouble = Words("", "amber")
        self.take = Button("Take the picture")
        self.away = Button("Put the camera away")
        self.setLayout(column(self.live, self.trouble, row(self.take, self.away, 1), gap=8))
        self.take.clicked.connect(self._take)
        self.away.clicked.connect(self.hide)
        self._camera.seen.connect(self._see)
        self._camera.failed.connect(self._fail)
        self.hide()

    def look_on(self) -> None:
        """Show it and start the camera."""
        self._last = QImage()
        self.take.setEnabled(False)  # until something is seen
        self.trouble.hide()
        self.live.show()
        self.show()
        self._camera.start()

    def hideEvent(self, event) -> None:
        self._camera.stop()
        super().hideEvent(event)

    def _see(self, image: QImage) -> None:
        self._last = image
        keep, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        self.live.setPixmap(QPixmap.fromImage(image).scaled(self.live.size(), keep, smooth))
        self.take.setEnabled(True)

    def _fail(self, sentence: str) -> None:
        self._camera.stop()
        self.live.hide()
        self.take.setEnabled(False)
        self.trouble.say(sentence)
        self.trouble.show()

    def _take(self) -> None:
        image = self._last
        self.hide()
        self.taken.emit(image)
