"""Labels: read back by another library, nothing outside the label, nothing lost of what matters."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from io import BytesIO
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader

from gametrace.documents.labels import label_pdf
from gametrace.documents.stocks import STOCKS, LabelStock
from gametrace.domain.errors import Refusal
from gametrace.register.records import LabelSheet

MM = 72 / 25.4
HOSTILE = [
    "<b>bold</b> & <i>\"quoted\"</i> 'so' <para>",
    "=1+1",
    "emoji 🦌🔪 done",
    "שלום عربي",
    "\u202eturned round\u202c",
    "line\nbreak\ttab\x00nul",
    "   ",
    "w" * 10_000,
    "many words " * 1_000,
    "&amp;&lt;&#13;",
    "%PDF ) Tj ( \\ q",
]


def _texts(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]


def _codes_read(pdf: bytes, dpi: int) -> list[str]:
    """Every square code of a rendered PDF, read by a library that had no part in writing it."""
    document = pypdfium2.PdfDocument(pdf)
    read = []
    for page in document:
        image = page.render(scale=dpi / 72, grayscale=True).to_pil()
        read += [found.text for found in zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)]
    document.close()
    return sorted(read)


def _character_boxes(pdf: bytes) -> Iterator[tuple[float, float, float, float]]:
    document = pypdfium2.PdfDocument(pdf)
    for page in document:
        text = page.get_textpage()
        for at in range(text.count_chars()):
            yield text.get_charbox(at)
    document.close()


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_every_square_code_is_read_back_from_the_rendered_label(
    labels: tuple[LabelSheet, ...], stock: LabelStock, dpi: int
) -> None:
    assert _codes_read(label_pdf(labels, stock), dpi) == sorted(sheet.code for sheet in labels)


@pytest.mark.parametrize("dpi", [203, 300])
def test_a_printer_of_300_dpi_gets_whole_dots_too(labels: tuple[LabelSheet, ...], dpi: int) -> None:
    stock = replace(STOCKS["single-62x40"], dpi=300)
    assert _codes_read(label_pdf(labels, stock), dpi) == sorted(sheet.code for sheet in labels)


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_modules_are_whole_dots_on_the_printers_grid_with_the_light_border_inside_the_label(
    labels: tuple[LabelSheet, ...], stock: LabelStock
) -> None:
    reader = PdfReader(BytesIO(label_pdf(labels, stock)))
    content = b"\n".join(page.get_contents().get_data() for page in reader.pages).decode("latin-1")
    drawn = re.findall(r"q 0 g ([\d.]+) 0 0 \1 ([\d.]+) ([\d.]+) cm", content)
    assert len(drawn) == len(labels)
    for position, numbers in enumerate(drawn):
        module, x, y = (float(number) / MM for number in numbers)
        assert module >= 0.396
        assert module / stock.dot_mm == pytest.approx(round(module / stock.dot_mm), abs=1e-3)
        from_top = stock.page_h_mm - y
        for length in (x, from_top):
            assert length / stock.dot_mm == pytest.approx(round(length / stock.dot_mm), abs=0.01)
        left, top = stock.corner_mm(position % stock.labels_a_page)
        assert left <= x - 4 * module
        assert x + 25 * module <= left + stock.label_w_mm
        assert top <= from_top - 25 * module
        assert from_top + 4 * module <= top + stock.label_h_mm


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_code_title_date_and_every_line_stand_on_the_label(
    labels: tuple[LabelSheet, ...], stock: LabelStock
) -> None:
    text = " ".join("\n".join(_texts(label_pdf(labels, stock))).split())
    for sheet in labels:
        for words in (sheet.code, sheet.title, sheet.date_line, *sheet.lines, sheet.warning):
            assert words in text


def test_the_code_is_the_largest_thing_on_every_label(labels: tuple[LabelSheet, ...]) -> None:
    for sheet in labels:
        sizes: dict[str, float] = {}

        def note(text: str, _cm: Any, _tm: Any, _font: Any, size: float, sizes: Any = sizes) -> None:
            if text.strip():
                sizes[text.strip()] = max(size, sizes.get(text.strip(), 0))

        for stock in STOCKS.values():
            page = PdfReader(BytesIO(label_pdf([sheet], stock))).pages[0]
            page.extract_text(visitor_text=note)
        assert max(sizes, key=sizes.__getitem__) == sheet.code


def test_a_date_line_too_long_for_one_line_takes_two_and_is_never_cut(labels: tuple[LabelSheet, ...]) -> None:
    sheet = replace(labels[1], date_line="Frozen on 19 Nov 2026 · best by 19 May 2027")
    for stock in STOCKS.values():
        text = " ".join(_texts(label_pdf([sheet], stock))[0].split())
        assert sheet.date_line in text


def test_a_practice_label_says_so_and_another_does_not(labels: tuple[LabelSheet, ...]) -> None:
    for page, sheet in zip(_texts(label_pdf(labels, STOCKS["single-62x40"])), labels, strict=True):
        assert ("PRACTICE REGISTER" in page) is sheet.is_practice


@pytest.mark.parametrize("words", HOSTILE, ids=lambda words: repr(words[:12]))
@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_whatever_was_typed_stays_inside_the_label(
    labels: tuple[LabelSheet, ...], stock: LabelStock, words: str, fill: Callable[[Any, str], Any]
) -> None:
    for sheet in labels:
        pdf = label_pdf([fill(sheet, words)], stock)
        assert _codes_read(pdf, 203) == [sheet.code]
        left, top = (length * MM for length in stock.corner_mm(0))
        right, bottom = left + stock.label_w_mm * MM, top + stock.label_h_mm * MM
        height = stock.page_h_mm * MM
        for x1, y1, x2, y2 in _character_boxes(pdf):
            assert left <= x1 <= x2 <= right
            assert top <= height - y2 <= height - y1 <= bottom


def test_markup_and_formulas_are_printed_as_typed(labels: tuple[LabelSheet, ...]) -> None:
    sheet = replace(labels[0], title='<b>A&amp;B</b> "x"', lines=("=1+1", "O'Neil & sons <i>"), date_line="")
    text = _texts(label_pdf([sheet], STOCKS["a4-2x4"]))[0]
    for words in (sheet.title, *sheet.lines):
        assert words in text


def test_signs_the_type_cannot_draw_become_a_visible_box(labels: tuple[LabelSheet, ...]) -> None:
    text = _texts(label_pdf([replace(labels[0], title="Doe 🦌 שלום")], STOCKS["single-100x50"]))[0]
    assert "Doe □ □□□□" in text


def test_equal_sheets_give_equal_bytes_whatever_was_printed_between(labels: tuple[LabelSheet, ...]) -> None:
    first = label_pdf(labels, STOCKS["a4-3x7"])
    label_pdf([replace(labels[0], title="Ærøskøbing ½ →")], STOCKS["single-62x40"])
    assert label_pdf(labels, STOCKS["a4-3x7"]) == first


def test_a_sheet_begun_before_is_continued_at_its_first_empty_place(labels: tuple[LabelSheet, ...]) -> None:
    stock = STOCKS["a4-2x4"]
    reader = PdfReader(BytesIO(label_pdf(labels, stock, start_at=6)))
    assert [page.extract_text().count("Fenmoor College larder") for page in reader.pages] == [3, 6]


@pytest.mark.parametrize("place", [0, 9, -1])
def test_a_place_the_sheet_does_not_have_is_refused(labels: tuple[LabelSheet, ...], place: int) -> None:
    with pytest.raises(Refusal, match="8 places"):
        label_pdf(labels, STOCKS["a4-2x4"], start_at=place)


def test_no_labels_at_all_is_refused() -> None:
    with pytest.raises(Refusal, match="no label"):
        label_pdf([], STOCKS["single-62x40"])


def test_a_label_too_small_for_the_code_is_refused(labels: tuple[LabelSheet, ...]) -> None:
    tiny = LabelStock("tiny", 30, 15, 1, 1, 30, 15, 0, 0, 0, 0)
    with pytest.raises(Refusal, match="does not fit"):
        label_pdf(labels, tiny)


def test_text_too_long_for_any_square_code_is_refused(labels: tuple[LabelSheet, ...]) -> None:
    with pytest.raises(Refusal, match="too long"):
        label_pdf([replace(labels[0], code="X" * 10_000)], STOCKS["a4-2x4"])


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_the_labels_of_a_sheet_lie_on_the_page_and_apart(stock: LabelStock) -> None:
    corners = [stock.corner_mm(position) for position in range(stock.labels_a_page)]
    assert len(set(corners)) == stock.labels_a_page
    for left, top in corners:
        assert left + stock.label_w_mm <= stock.page_w_mm + 1e-6
        assert top + stock.label_h_mm <= stock.page_h_mm + 1e-6


# "Frozen on" with the first freezing date: Regulation (EU) 1169/2011, Annex III 6.1 and Annex X 3.
# "defrosted" in the name: Annex VI part A 2, as a craft butchers' notice quotes it. All from memory.
@pytest.mark.parametrize("stock", STOCKS.values(), ids=list(STOCKS))
def test_a_frozen_and_a_thawed_label_say_their_days_on_every_stock(
    labels: tuple[LabelSheet, ...], stock: LabelStock
) -> None:
    pack = next(one for one in labels if one.sort == "pack")
    frozen = replace(pack, date_line="Frozen on 12 Nov 2026 · best by 12 Nov 2027", frozen_on="12 Nov 2026")
    thawed = replace(
        pack,
        title="Haunch, left, defrosted",
        lines=(pack.lines[0], "Frozen on 12 Nov 2026"),
        date_line="Thawed 12 Dec 2026 · use by 13 Dec 2026",
    )
    words = " ".join(" ".join(_texts(label_pdf([frozen, thawed], stock))).split())
    for said in ("Frozen on 12 Nov 2026", "best by 12 Nov 2027", "defrosted", "Thawed 12 Dec 2026"):
        assert said in words
    assert "use by 13 Dec 2026" in words
