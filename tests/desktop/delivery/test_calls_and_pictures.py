"""Finishing: calls about the card, pictures by file, paste and drop, and what is missing in any order."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QImage
from PySide6.QtWidgets import QApplication, QLabel

from gametrace.desktop.delivery.camera import Camera
from gametrace.domain.deliveries import Answer, Basis, Delivery
from gametrace.register import acts, questions


@pytest.fixture
def code(register, window) -> str:
    """A fallow doe whose card is half legible."""
    delivery = Delivery(
        supplier="S001",
        species="fallow",
        sex="female",
        grams=41600,
        tag="0417",
        basis=Basis(head_on=True),
        has_declaration=True,
        declaration_number="D-88",
        no_abnormal_characteristics=Answer.YES,
        no_abnormal_behaviour=Answer.CANT_READ,
        no_contamination=Answer.YES,
        trained_person="Rob Finch",
        kill_place="Long Covert",
        killed_on=date(2026, 11, 18),
    )
    return acts.receive_delivery(register, by="P001", delivery=delivery).code


@pytest.fixture
def page(station, code):
    station.open_code(code)
    return station.page.finish_page


# -- calls ----------------------------------------------------------------------------------------------


def test_what_cannot_be_read_opens_a_call_and_the_answer_stands_beside_the_card(page, register, code) -> None:
    assert page.calls.head.text().endswith("2 to make")
    page.calls.set_open(True)
    part = page.calls.inner
    assert "No abnormal behaviour" in part.open.text()
    assert part.about.value() == "no_abnormal_behaviour"
    assert part.spoken_by.text() == "Rob Finch"
    part.answer.setText("it fed as usual")
    part.act.click()
    file = questions.animal_file(register, code)
    assert [(call.about, call.answer, call.spoken_by) for call in file.calls] == [
        ("no_abnormal_behaviour", "it fed as usual", "Rob Finch")
    ]
    assert file.calls_to_make == ("kill_time",)
    assert file.delivery.no_abnormal_behaviour == Answer.CANT_READ  # the card says what it says
    assert page.calls.head.text().endswith("1 to make")
    assert part.about.value() == "kill_time"
    said = " ".join(label.text() for label in part.findChildren(QLabel))
    assert "“it fed as usual”, said Rob Finch to AB" in said


def test_a_call_without_an_answer_is_refused_at_the_answer(page, register, code) -> None:
    page.calls.set_open(True)
    page.calls.inner.act.click()
    assert "what was said" in page.calls.inner.fields["answer"].trouble.text()
    assert questions.animal_file(register, code).calls == ()


# -- pictures -------------------------------------------------------------------------------------------


def photograph(path: Path, size=(2600, 1300)) -> Path:
    Image.radial_gradient("L").resize(size).save(path)
    return path


def settle(window) -> None:
    window.bench.errands.wait_idle()
    QApplication.processEvents()


def kept(register, code):
    return [(one.what, one.media_type) for one in questions.animal_file(register, code).pictures]


def thumbnails(part) -> list[str]:
    return [one.accessibleName() for one in part.findChildren(QLabel) if not one.pixmap().isNull()]


def test_a_picture_from_a_file_is_reduced_kept_and_shown_small(
    window, station, page, register, code, tmp_path, qtbot
) -> None:
    path = photograph(tmp_path / "card.jpg")
    asked = []

    def which_file(title: str, kinds: str) -> Path:
        asked.append(kinds)
        return path

    station.finishing.pictures.which_file = which_file
    page.pictures.set_open(True)
    page.pictures.inner.shows.set_value("declaration")
    page.pictures.inner.file.click()
    settle(window)
    assert asked
    assert kept(register, code) == [("declaration", "image/jpeg")]
    one = questions.animal_file(register, code).pictures[0]
    _, content = questions.picture(register, one.hash)
    assert max(Image.open(io.BytesIO(content)).size) == 2000
    assert one.original_hash != one.hash
    assert thumbnails(page.pictures.inner) == ["The card, AB"]
    assert page.pictures.head.text().endswith("1")


def test_a_picture_is_pasted_with_ctrl_v_from_within_a_line_of_text(
    window, station, page, register, code, hands
) -> None:
    image = QImage(300, 200, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    QGuiApplication.clipboard().setImage(image)
    page.form.paper.lines["tag"].setFocus()
    hands.key(Qt.Key.Key_V, modifier=Qt.KeyboardModifier.ControlModifier)
    settle(window)
    assert kept(register, code) == [("declaration", "image/png")]
    assert page.form.paper.lines["tag"].text() == "0417"


def test_words_are_still_pasted_into_a_line_of_text(window, station, page, register, code, hands) -> None:
    QGuiApplication.clipboard().setText("0471")
    page.form.paper.lines["tag"].setFocus()
    page.form.paper.lines["tag"].selectAll()
    hands.key(Qt.Key.Key_V, modifier=Qt.KeyboardModifier.ControlModifier)
    settle(window)
    assert page.form.paper.lines["tag"].text() == "0471"
    assert kept(register, code) == []


def test_files_are_dropped_on_the_page_several_at_once(
    window, station, page, register, code, tmp_path
) -> None:
    mime = QMimeData()
    paths = [photograph(tmp_path / f"{n}.jpg", (400 + n, 300)) for n in range(2)]
    mime.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    how = (Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    entered = QDragEnterEvent(QPoint(5, 5), *how)
    QApplication.sendEvent(page, entered)
    assert entered.isAccepted()
    QApplication.sendEvent(page, QDropEvent(QPointF(5, 5), *how))
    settle(window)
    assert len(kept(register, code)) == 2


def test_what_is_no_picture_is_refused_on_the_page_and_nothing_is_kept(
    window, station, page, register, code, tmp_path
) -> None:
    path = tmp_path / "card.jpg"
    path.write_text("not a picture")
    station.finishing.pictures.take((path,))
    settle(window)
    assert "no JPEG, PNG or WebP" in page.pictures.inner.trouble.text()
    station.finishing.pictures.take((tmp_path / "gone.jpg",))
    settle(window)
    assert "cannot be read" in page.pictures.inner.trouble.text()
    assert kept(register, code) == []


def test_an_empty_clipboard_is_said(window, station, page, register, code) -> None:
    QGuiApplication.clipboard().clear()
    page.pictures.set_open(True)
    page.pictures.inner.paste.click()
    assert "no picture on the clipboard" in page.pictures.inner.trouble.text()


def test_a_card_photographed_before_its_bodies_have_numbers_is_kept_with_each(
    window, station, hands, register, tmp_path
) -> None:
    form = station.page.new_page.form
    for tag in ("0501", "0502"):
        if tag == "0501":
            form.paper.supplier.list.picked.emit("S001")
            form.paper.has_declaration.choose("yes")
            form.paper.lines["declaration_number"].setText("D-90")
            station.presenter.pictures.take((photograph(tmp_path / "card.jpg", (500, 300)),))
            settle(window)
            assert station.page.new_page.pictures.head.text().endswith("1")
        else:
            station.page.done_page.body.click()
        form.paper.lines["tag"].setText(tag)
        form.beast.species.choose("fallow")
        form.beast.grams.set_text("40")
        hands.take_in()
    both = questions.deliveries(register)
    hashes = {questions.animal_file(register, one.code).pictures[0].hash for one in both}
    assert (len(both), len(hashes)) == (2, 1)
    station.page.done_page.next.click()
    assert station.page.new_page.pictures.head.text() == "+ Pictures"


# -- what is missing ------------------------------------------------------------------------------------


def test_what_is_missing_leads_to_its_field(page, hands) -> None:
    page.missing.buttons["kill_time"].click()
    assert hands.focus().startswith("Time of killing")
    page.missing.buttons["readings"].click()
    assert hands.focus() == "Temperature, haunch"
    page.missing.buttons["reasons"].click()
    assert hands.focus().startswith("Why: ")


def test_each_addition_is_an_entry_of_its_own_with_its_own_time(page, register, code) -> None:
    before = len(questions.story(register, code))
    page.form.beast.kill_time.set_text("7.40")
    page.form.beast.readings.rows[0][1].set_text("5.2")
    page.form.paper.pence_per_kg.set_text("4.50")
    page.act.click()
    file = questions.animal_file(register, code)
    assert (file.delivery.kill_time, file.delivery.readings) == ("07:40", (("haunch", 52),))
    assert file.delivery.pence_per_kg == 450
    assert len(questions.story(register, code)) >= before + 3


def test_a_licence_that_comes_later_is_written_down_in_finishing(station, hands, register) -> None:
    delivery = Delivery(
        supplier="S001", species="fallow", sex="female", grams=30_000, killed_on=date(2026, 7, 1)
    )
    code = acts.receive_delivery(register, by="P001", delivery=delivery).code
    station.open_code(code)
    page = station.page.finish_page
    licence = page.form.beast.licence
    assert licence.isVisible()
    licence.type.set_value("ew-season-licence")
    licence.type.picked.emit("ew-season-licence")
    licence.number.setText("L-17")
    page.act.click()
    written = questions.animal_file(register, code).delivery
    assert (written.exception_type, written.exception_number) == ("ew-season-licence", "L-17")
    station.finishing.code = ""
    station.open_code(code)
    assert licence.number.text() == "L-17"


def test_a_picture_taken_by_the_camera_is_kept(window, page, register, code, monkeypatch) -> None:
    monkeypatch.setattr(Camera, "start", lambda self: None)
    image = QImage(300, 200, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    page.pictures.set_open(True)
    part = page.pictures.inner
    part.shows.set_value("tag")
    part.look_on()
    part.face._camera.seen.emit(image)
    part.face.take.click()
    settle(window)
    assert [what for what, _ in kept(register, code)] == ["tag"]
