"""Each sort of label by itself: what it says where, how large, and that a wet, turned code is still read."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from PIL import Image, ImageDraw
from pypdf import PdfReader
from reportlab.pdfbase.ttfonts import TTFontFile

from gametrace.documents import brand
from gametrace.documents.label_drawing import LINE_SIZES, SMALLEST_TEXT, WARNING_SIZES, WET_SIZES
from gametrace.documents.label_grid import grid_pdf
from gametrace.documents.labels import label_pdf
from gametrace.documents.stocks import STOCKS, LabelStock
from gametrace.register.records import LabelSheet

MM = 72 / 25.4
SMALL = STOCKS["single-62x40"]


def _of(labels: tuple[LabelSheet, ...], sort: str) -> LabelSheet:
    return next(one for one in labels if one.sort == sort)


def _runs(pdf: bytes) -> Iterator[tuple[str, str, float, float]]:
    """Every run of text: the words, the font, its size, and its baseline in points from the foot."""
    found: list[tuple[str, str, float, float]] = []

    def note(words: str, _cm: Any, tm: Any, font: Any, size: float) -> None:
        if words.strip():
            found.append((words.strip(), str(font["/BaseFont"]) if font else "", size, tm[5]))

    for page in PdfReader(BytesIO(pdf)).pages:
        page.extract_text(visitor_text=note)
    yield from found


# Regulation (EU) 1169/2011 art. 13 (2): an x-height of 1.2 mm or more. The x-height is the font's own, read
# from its OS/2 table (sxHeight), at the smallest size a label is ever set in.
@pytest.mark.parametrize("weight", ["Regular", "SemiBold", "Bold"])
def test_the_smallest_type_of_a_label_has_an_x_height_of_at_least_1_2_mm(weight: str) -> None:
    file = TTFontFile(str(brand.FONT_FOLDER / f"{brand.FAMILY}-{weight}.ttf"))
    (x_height,) = struct.unpack(">h", file.get_table("OS/2")[86:88])
    smallest = min(SMALLEST_TEXT, *LINE_SIZES, *WET_SIZES, *WARNING_SIZES)
    (units,) = struct.unpack(">H", file.get_table("head")[18:20])
    assert x_height / units * smallest / MM >= 1.2


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_no_word_on_any_label_is_set_smaller(labels: tuple[LabelSheet, ...], stock: LabelStock) -> None:
    for words, _, size, _ in _runs(label_pdf(labels, stock)):
        assert size >= SMALLEST_TEXT, words


def test_a_carcass_tag_is_all_bold_but_for_whose_it_is(labels: tuple[LabelSheet, ...]) -> None:
    sheet = _of(labels, "carcass")
    for words, font, _, _ in _runs(label_pdf([sheet], SMALL)):
        assert "Bold" in font or words == sheet.larder


def test_a_frozen_label_says_frozen_on_above_its_name_and_best_by_below(
    labels: tuple[LabelSheet, ...],
) -> None:
    at = {words: y for words, _, _, y in _runs(label_pdf([_of(labels, "frozen")], SMALL))}
    assert at["26-01204-8"] > at["Frozen on 19 Nov 2026"] > at["Haunch, right"] > at["Best by 19 May 2027"]


def test_a_thawed_label_says_when_and_keeps_the_first_freezing_day(labels: tuple[LabelSheet, ...]) -> None:
    said = [words for words, *_ in _runs(label_pdf([_of(labels, "thawed")], SMALL))]
    for words in ("Defrosted 02 Dec 2026", "Shoulder, defrosted", "Frozen on 19 Nov 2026"):
        assert words in said


def test_a_mixed_lot_names_each_parent_with_its_grams(labels: tuple[LabelSheet, ...]) -> None:
    sheet = _of(labels, "mix")
    said = [words for words, *_ in _runs(label_pdf([sheet], STOCKS["single-100x50"]))]
    for code, grams in sheet.parents:
        assert f"of {code}: {grams / 1000:.3f} kg" in said


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
@pytest.mark.parametrize("many", [4, 12, 60])
def test_parents_that_find_no_room_are_counted_with_their_weight(
    labels: tuple[LabelSheet, ...], stock: LabelStock, many: int
) -> None:
    parents = tuple((f"26-{number:05d}-K", 100 + number) for number in range(many))
    sheet = replace(_of(labels, "mix"), parents=parents)
    said = [words for words, *_ in _runs(label_pdf([sheet], stock))]
    named = [words for words in said if words.startswith("of 26-")]
    rest = sum(grams for _, grams in parents[len(named) :])
    if len(named) < many:
        assert f"and {many - len(named)} more: {rest / 1000:.3f} kg" in said
    assert not any(words.endswith("…") for words in said)


# Regulation (EU) 142/2011, Annex VIII, chapter II: the words on what carries a by-product of each category.
@pytest.mark.parametrize(
    "words", ["NOT FOR HUMAN CONSUMPTION", "NOT FOR ANIMAL CONSUMPTION", "FOR DISPOSAL ONLY"]
)
def test_a_by_product_says_the_words_of_its_category_white_on_black(
    labels: tuple[LabelSheet, ...], words: str
) -> None:
    pdf = label_pdf([replace(_of(labels, "by-product"), warning=words)], STOCKS["single-100x50"])
    assert words in [said for said, *_ in _runs(pdf)]
    page = next(iter(pypdfium2.PdfDocument(pdf))).render(scale=2, grayscale=True).to_pil()
    band = page.crop((int(60 * MM * 2), int(11 * MM * 2), int(95 * MM * 2), int(17 * MM * 2)))
    assert sorted(band.tobytes())[len(band.tobytes()) // 2] < 32  # most of it is black


def test_a_reprint_says_which_copy_it_is_and_the_first_says_nothing(labels: tuple[LabelSheet, ...]) -> None:
    pack = _of(labels, "pack")
    for copy, is_said in ((1, False), (2, True), (13, True)):
        said = [words for words, *_ in _runs(label_pdf([replace(pack, copy=copy)], SMALL))]
        assert (f"copy {copy}" in said) is is_said


# -- a code in a wet larder -------------------------------------------------------------------------------


def _picture(sheet: LabelSheet, dpi: int) -> Image.Image:
    return _picture_at(label_pdf([sheet], replace(SMALL, dpi=dpi)), dpi)


def _read(picture: Image.Image) -> list[str]:
    return [one.text for one in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)]


@pytest.mark.parametrize("turn", [0, 8, 45, 90, 180, 270, 333])
@pytest.mark.parametrize("dpi", [203, 300])
def test_a_turned_label_is_read(labels: tuple[LabelSheet, ...], dpi: int, turn: int) -> None:
    for sheet in labels:
        turned = _picture(sheet, dpi).rotate(
            turn, expand=True, fillcolor=255, resample=Image.Resampling.BICUBIC
        )
        assert _read(turned) == [sheet.code]


@pytest.mark.parametrize("ink", [0, 255])
@pytest.mark.parametrize("dpi", [203, 300])
def test_a_drop_of_ink_or_a_wiped_spot_between_the_corners_is_no_loss(
    labels: tuple[LabelSheet, ...], dpi: int, ink: int
) -> None:
    """A drop of 2 mm in the middle of the code, clear of the finder squares, which nothing can mend."""
    for sheet in labels:
        clean = _picture(sheet, dpi)
        found = zxingcpp.read_barcodes(clean, formats=zxingcpp.BarcodeFormat.QRCode)[0].position
        corner, side = found.top_left, found.top_right.x - found.top_left.x
        radius = dpi / 25.4
        for across, down in ((0.5, 0.5), (0.45, 0.6), (0.62, 0.5), (0.75, 0.75)):
            x, y = corner.x + side * across, corner.y + side * down
            wet = clean.copy()
            ImageDraw.Draw(wet).ellipse((x - radius, y - radius, x + radius, y + radius), fill=ink)
            assert _read(wet) == [sheet.code], (sheet.code, across, down)


# -- pictures ---------------------------------------------------------------------------------------------

PICTURES = Path(__file__).parent / "pictures"
MOST_OFF = 2.5  # greys of 255 on average: another renderer's smoothing, not another layout


def _off(made: Image.Image, kept: Image.Image) -> float:
    assert made.size == kept.size
    pairs = zip(made.tobytes(), kept.tobytes(), strict=True)
    return sum(abs(one - other) for one, other in pairs) / (made.width * made.height)


@pytest.mark.parametrize("sort", ["carcass", "mix", "frozen", "hold", "by-product"])
def test_a_label_looks_as_it_did_when_somebody_looked_at_it(
    labels: tuple[LabelSheet, ...], sort: str
) -> None:
    kept = Image.open(PICTURES / f"label-{sort}.png").convert("L")
    assert _off(_picture_at(label_pdf([_of(labels, sort)], SMALL), 100), kept) < MOST_OFF
    other = Image.open(PICTURES / "test-print.png").convert("L")
    assert _off(kept, other) > 4 * MOST_OFF  # the measure tells layouts apart


def test_a_test_print_looks_as_it_did() -> None:
    kept = Image.open(PICTURES / "test-print.png").convert("L")
    assert _off(_picture_at(grid_pdf(SMALL), 100), kept) < MOST_OFF


def _picture_at(pdf: bytes, dpi: int) -> Image.Image:
    page = next(iter(pypdfium2.PdfDocument(pdf)))
    picture: Image.Image = page.render(scale=dpi / 72, grayscale=True).to_pil()
    return picture
