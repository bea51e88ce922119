"""The camera of this computer: what it sees, picture by picture, and why it sees nothing.

Qt's multimedia part is large and not installed with the rest, so it is looked for by name and brought in only
when somebody presses the button.
"""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

MULTIMEDIA = "PySide6.QtMultimedia"
NO_CAMERA = (
    "No camera answers on this computer. Plug one in, or photograph with a telephone and bring the file."
)


def may_be_used() -> bool:
    """Whether the part of Qt that speaks to cameras is installed; quick, and brings nothing in."""
    return find_spec(MULTIMEDIA) is not None


class Camera(QObject):
    """Signals: seen(QImage), as often as the camera likes; failed(str): a sentence for the person."""

    seen = Signal(QImage)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._camera: Any = None
        self._session: Any = None
        self._sink: Any = None

    def start(self) -> None:
        try:
            media = import_module(MULTIMEDIA)
        except ImportError as error:  # a library of the system it rests on may be missing
            self.failed.emit(f"The camera cannot be used: {error}. Bring the picture as a file.")
            return
        device = media.QMediaDevices.defaultVideoInput()
        if device.isNull():
            self.failed.emit(NO_CAMERA)
            return
        self._camera = media.QCamera(device, self)
        self._camera.errorOccurred.connect(self._on_error)
        self._session = media.QMediaCaptureSession(self)
        self._session.setCamera(self._camera)
        self._session.setVideoSink(self.listen(media))
        self._camera.start()

    def listen(self, media: Any) -> Any:
        """The sink that pictures come in by."""
        self._sink = media.QVideoSink(self)
        self._sink.videoFrameChanged.connect(self._on_frame)
        return self._sink

    def stop(self) -> None:
        if self._camera is not None:
            self._camera.stop()
        self._camera = self._session = self._sink = None

    def _on_frame(self, frame: Any) -> None:
        image = frame.toImage()
        if not image.isNull():
            self.seen.emit(image)

    def _on_error(self, _error: object, words: str) -> None:
        self.failed.emit(f"The camera stopped: {words or 'no reason was given'}.")
