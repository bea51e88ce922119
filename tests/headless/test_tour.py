"""The tour does the whole job and leaves every paper and picture behind."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp
from PySide6.QtGui import QImage

from gametrace.domain.codes import lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.headless.tour import tour
from gametrace.register import questions
from gametrace.register.opening import open_register

STATIONS = ("setup", "delivery", "larder", "today", "block", "pass", "trace", "visit")


def test_the_tour_leaves_a_whole_register_every_paper_and_a_picture_of_every_station(toured: Path) -> None:
    left = {path.name for path in toured.iterdir()}
    assert {"tour.register", "labels.pdf", "trace.pdf", "visit.pdf", "tour.json"} <= left
    assert {f"{station}.png" for station in STATIONS} <= left
    with open_register(toured / "tour.register", create=False) as register:
        assert questions.check(register) == ()


def test_the_pictures_show_something_and_are_not_cut_down(toured: Path) -> None:
    for station in STATIONS:
        picture = QImage(str(toured / f"{station}.png"))
        assert (picture.width(), picture.height()) >= (1280, 600)
        corners = {picture.pixel(x, y) for x in range(0, 1280, 16) for y in range(0, 600, 16)}
        assert len(corners) > 3, station


def test_every_code_of_the_tour_has_a_true_check_character(told: dict[str, Any]) -> None:
    codes = [*told["carcasses"].values(), *told["packs"], *told["trim"], told["mince"], told["dish"]]
    assert len({lot_id_of(code) for code in codes}) == len(codes)


def test_the_dish_traces_back_to_all_three_animals_with_shares_that_sum_to_one(
    toured: Path, told: dict[str, Any]
) -> None:
    with open_register(toured / "tour.register", create=False) as register:
        answer = questions.trace(register, told["dish"])
    assert {animal.code for animal in answer.animals} == set(told["carcasses"].values())
    assert sum(animal.share for animal in answer.animals) == 1
    assert sum(animal.grams for animal in answer.animals) == 4_900


def test_every_animal_of_the_tour_adds_up_to_what_was_received(toured: Path, told: dict[str, Any]) -> None:
    with open_register(toured / "tour.register", create=False) as register:
        for code in told["carcasses"].values():
            balance = questions.trace(register, code).balance
            assert balance is not None
            assert sum(row.grams for row in balance.rows) == balance.received_grams
            assert balance.accounted_grams + balance.unaccounted_grams == balance.received_grams


@pytest.mark.parametrize("dpi", [203, 300])
def test_every_label_of_the_tour_is_read_back_from_the_page(
    toured: Path, told: dict[str, Any], dpi: int
) -> None:
    document = pypdfium2.PdfDocument((toured / "labels.pdf").read_bytes())
    read = [
        found.text
        for page in document
        for found in zxingcpp.read_barcodes(page.render(scale=dpi / 72).to_pil())
    ]
    document.close()
    assert read == [*told["carcasses"].values(), *told["packs"], told["dish"]]


def test_the_visit_paper_tells_the_declaration_the_balance_and_the_seal(
    toured: Path, told: dict[str, Any]
) -> None:
    text = " ".join(
        page.extract_text() for page in pypdf.PdfReader(io.BytesIO((toured / "visit.pdf").read_bytes())).pages
    )
    for words in ("HD 0117", "Harrowdale", "no abnormal behaviour", "931/2011", told["seal"][:16]):
        assert words in text


def test_a_folder_with_something_in_it_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    with pytest.raises(Refusal, match="not empty"):
        tour(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
