"""Pictures taken from within the window; the camera itself is stood in for, its Qt part tried where it is."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from gametrace.desktop.delivery import camera as camera_module
from gametrace.desktop.delivery import pictures_part
from gametrace.desktop.delivery.camera import NO_CAMERA, Camera
from gametrace.desktop.delivery.camera_face import CameraFace
from gametrace.desktop.delivery.pictures_part import PicturesPart
from gametrace.desktop.look import Look


class StandIn(Camera):
    """A camera that sees what the test shows it."""

    seen = Signal(QImage)
    failed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.is_on = False

    def start(self) -> None:
        self.is_on = True

    def stop(self) -> None:
        self.is_on = False


def image_of(colour=Qt.GlobalColor.red) -> QImage:
    image = QImage(640, 480, QImage.Format.Format_RGB32)
    image.fill(colour)
    return image


@pytest.fixture
def face(qtbot):
    face = CameraFace(Look(), StandIn())
    qtbot.addWidget(face)
    face.look_on()
    return face


def test_nothing_can_be_taken_before_something_is_seen(face) -> None:
    assert face._camera.is_on
    assert not face.take.isEnabled()


def test_the_last_picture_seen_is_the_one_taken_and_the_camera_goes_off(face, qtbot) -> None:
    face._camera.seen.emit(image_of(Qt.GlobalColor.red))
    face._camera.seen.emit(image_of(Qt.GlobalColor.blue))
    with qtbot.waitSignal(face.taken) as taken:
        face.take.click()
    assert taken.args[0].pixelColor(3, 3) == Qt.GlobalColor.blue
    assert not face._camera.is_on
    assert face.isHidden()


def test_the_camera_goes_off_when_its_page_is_left(face) -> None:
    face.hide()
    assert not face._camera.is_on


def test_a_camera_that_fails_says_so_and_nothing_old_can_be_taken(face) -> None:
    face._camera.seen.emit(image_of())
    face._camera.failed.emit(NO_CAMERA)
    assert "photograph with a telephone" in face.trouble.text()
    assert not face.take.isEnabled()
    assert not face._camera.is_on


def test_the_button_is_not_there_without_the_part_of_qt_for_it(qtbot, monkeypatch) -> None:
    monkeypatch.setattr(pictures_part, "may_be_used", lambda: False)
    part = PicturesPart(Look())
    qtbot.addWidget(part)
    assert part.camera.isHidden()


def test_a_part_that_cannot_be_brought_in_is_said_in_a_sentence(qtbot, monkeypatch) -> None:
    def missing(_name: str) -> None:
        raise ImportError("libpulse.so.0: cannot open shared object file")

    monkeypatch.setattr(camera_module, "import_module", missing)
    camera = Camera()
    with qtbot.waitSignal(camera.failed) as failed:
        camera.start()
    assert "libpulse" in failed.args[0]
    assert "as a file" in failed.args[0]


@pytest.mark.qt_log_ignore("Couldn't", "No RHI backend", extend=True)  # what a machine without a card says
def test_what_comes_by_qt_s_own_way_is_seen(qtbot) -> None:
    media = pytest.importorskip(camera_module.MULTIMEDIA, exc_type=ImportError)
    camera = Camera()
    sink = camera.listen(media)
    with qtbot.waitSignal(camera.seen) as seen:
        sink.setVideoFrame(media.QVideoFrame(image_of(Qt.GlobalColor.green)))
        QApplication.processEvents()
    assert seen.args[0].size() == image_of().size()


@pytest.mark.qt_log_ignore("Couldn't", extend=True)
def test_a_machine_with_no_camera_says_what_to_do(qtbot) -> None:
    media = pytest.importorskip(camera_module.MULTIMEDIA, exc_type=ImportError)
    if media.QMediaDevices.videoInputs():
        pytest.skip("there is a camera here")
    camera = Camera()
    with qtbot.waitSignal(camera.failed) as failed:
        camera.start()
    assert failed.args == [NO_CAMERA]
