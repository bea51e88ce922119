"""Test print, what to write by hand, cutting and evidence sheets: said, placed, and the same bytes again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from io import BytesIO
from typing import Any

import pypdfium2
import pytest
from pypdf import PdfReader

from gametrace.documents.by_hand import hand_lines, hand_pdf
from gametrace.documents.cutting_sheet import cutting_pdf
from gametrace.documents.evidence_sheet import evidence_pdf
from gametrace.documents.label_grid import grid_pdf
from gametrace.documents.page_pictures import page_count, page_pictures
from gametrace.documents.stocks import STOCKS, LabelStock
from gametrace.register.block_records import TrayLine
from gametrace.register.records import LabelSheet, Larder, Lot
from gametrace.register.small_papers import CuttingSheet, EvidenceLine, EvidenceSheet

MM = 72 / 25.4


def _words(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages).split())


# -- test print -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS.keys())
def test_a_test_print_outlines_every_label_where_it_will_be_printed(stock: LabelStock) -> None:
    document = pypdfium2.PdfDocument(grid_pdf(stock))
    page = document[0]
    corners = {
        (round(left / MM, 1), round(stock.page_h_mm - top / MM, 1), round((right - left) / MM, 1))
        for left, _, right, top in (one.get_bounds() for one in page.get_objects())
    }
    for position in range(stock.labels_a_page):
        left, top = stock.corner_mm(position)
        near = [
            c
            for c in corners
            if abs(c[0] - left) < 0.3 and abs(c[1] - top) < 0.3 and abs(c[2] - stock.label_w_mm) < 0.5
        ]
        assert near, position
    document.close()


def test_the_rulers_of_a_test_print_count_millimetres_from_the_edge_of_a_label() -> None:
    stock = STOCKS["a4-2x4"]  # of 8 labels, so that 10 is a mark of the ruler alone
    found: dict[str, tuple[float, float]] = {}

    def note(words: str, _cm: Any, tm: Any, _font: Any, _size: float) -> None:
        if words.strip():
            found.setdefault(words.strip(), (tm[4] / MM, stock.page_h_mm - tm[5] / MM))

    PdfReader(BytesIO(grid_pdf(stock))).pages[0].extract_text(visitor_text=note)
    left, _ = stock.corner_mm(0)
    # a number is centred under its mark, and begins some 1.5 mm before it
    assert found["−5"][0] == pytest.approx(left - 5 - 1.5, abs=0.3)
    assert found["10"][0] == pytest.approx(left + 10 - 1.5, abs=0.3)
    assert "print at 100 %" in _words(grid_pdf(stock))


def test_a_test_print_of_a_moved_stock_is_moved() -> None:
    stock = STOCKS["a4-3x7"]
    assert grid_pdf(stock) == grid_pdf(stock)
    assert grid_pdf(stock.nudged(1.5, 0)) != grid_pdf(stock)


# -- by hand ----------------------------------------------------------------------------------------------


def test_by_hand_the_code_comes_first_then_the_warning_then_the_few_words(
    labels: tuple[LabelSheet, ...],
) -> None:
    held = next(one for one in labels if one.sort == "hold")
    assert hand_lines(held)[:3] == ("26-00418-H", "ON HOLD: NO DECLARATION CAME WITH IT", "ROE BUCK")
    frozen = hand_lines(next(one for one in labels if one.sort == "frozen"))
    assert frozen[:4] == ("26-01204-8", "HAUNCH, RIGHT", "FROZEN ON 19 NOV 2026", "BEST BY 19 MAY 2027")
    mixed = hand_lines(next(one for one in labels if one.sort == "mix"))
    assert mixed[-1] == "OF 26-01184-C: 0.800 KG"


def test_the_page_by_hand_holds_every_line_and_its_advice(
    labels: tuple[LabelSheet, ...], noon: datetime
) -> None:
    said = _words(hand_pdf(labels, noon))
    for sheet in labels:
        for line in hand_lines(sheet):
            assert line in said
    assert "Copy every sign of the code" in said
    assert hand_pdf(labels, noon) == hand_pdf(labels, noon)


@pytest.mark.parametrize("words", ['<b>&"=1+1', "שלום عربي 🦌", "w" * 3_000, "many words " * 300])
def test_whatever_was_typed_is_printed_by_hand_as_it_is(
    labels: tuple[LabelSheet, ...], noon: datetime, words: str, fill: Callable[[Any, str], Any]
) -> None:
    pdf = hand_pdf([fill(sheet, words) for sheet in labels], noon)
    assert page_count(pdf) >= 1
    if words.startswith("<b>"):
        assert words.upper() in _words(pdf)


# -- cutting sheet ----------------------------------------------------------------------------------------


def _sheet(larder: Larder, noon: datetime) -> CuttingSheet:
    lot = Lot(
        "26-00417-K", "carcass", "fallow doe", "fallow", "hanging", "", 3_000, 23_400, "", "", noon, "AB"
    )
    trays = (
        TrayLine(
            "26-00420-D", "haunch, left", "part", 4_620, noon, "AB", "haunch", "left", "Table 1", "R004"
        ),
    )
    return CuttingSheet(larder, noon, "fallow", lot, None, trays, ("haunch, right", "saddle"), 3_000, 0)


def test_a_cutting_sheet_fills_in_what_is_weighed_and_leaves_lines_for_the_rest(
    larder: Larder, noon: datetime
) -> None:
    said = _words(cutting_pdf(_sheet(larder, noon)))
    known = ("26-00417-K", "23.400 kg", "haunch, left", "4.620", "26-00420-D", "R004")
    for words in (*known, "haunch, right", "keyed in by"):
        assert words in said
    assert cutting_pdf(_sheet(larder, noon)) == cutting_pdf(_sheet(larder, noon))


def test_a_finished_cutting_sheet_says_what_was_not_weighed(larder: Larder, noon: datetime) -> None:
    done = replace(_sheet(larder, noon), waiting=(), unweighed_grams=0, unaccounted_grams=180)
    assert "0.180 kg" in _words(cutting_pdf(done))


def test_an_empty_cutting_sheet_is_one_page_for_any_animal(larder: Larder, noon: datetime) -> None:
    empty = CuttingSheet(larder, noon, "fallow", None, None, (), ("haunch, left", "neck"), 0, 0)
    pdf = cutting_pdf(empty)
    assert page_count(pdf) == 1
    assert "Cutting sheet: fallow" in _words(pdf)


# -- evidence ---------------------------------------------------------------------------------------------


def _evidence(larder: Larder, noon: datetime, many: int = 3) -> EvidenceSheet:
    beast = (("26-00417-K", "fallow doe"),)
    lines = tuple(
        EvidenceLine(noon.date(), beast, f"26-{500 + at:05d}-K", "shoulder, left", 800, "B001", "AB")
        for at in range(many)
    )
    return EvidenceSheet(larder, noon, "R007", date(2026, 11, 1), date(2026, 11, 30), lines)


def test_an_evidence_sheet_names_days_animals_cuts_weights_and_a_line_for_the_tutor(
    larder: Larder, noon: datetime
) -> None:
    said = _words(evidence_pdf(_evidence(larder, noon)))
    beast = "26-00417-K fallow doe"
    for words in ("R007", "12 Nov 2026", beast, "shoulder, left", "0.800", "2.400 kg", "B001"):
        assert words in said
    assert "tutor, name" in said
    assert evidence_pdf(_evidence(larder, noon)) == evidence_pdf(_evidence(larder, noon))


def test_an_evidence_sheet_of_nobody_says_so_and_one_of_hundreds_runs_on(
    larder: Larder, noon: datetime
) -> None:
    assert "Nothing is written down under this code" in _words(evidence_pdf(_evidence(larder, noon, 0)))
    assert page_count(evidence_pdf(_evidence(larder, noon, 400))) > 5


# -- pictures ---------------------------------------------------------------------------------------------


def test_pictures_of_pages_are_as_large_as_the_page_and_one_at_a_time(labels: tuple[LabelSheet, ...]) -> None:
    from gametrace.documents.labels import label_pdf

    pdf = label_pdf(labels, STOCKS["single-62x40"])
    pictures = list(page_pictures(pdf, 203.2))
    assert len(pictures) == page_count(pdf) == len(labels)
    for one in pictures:
        assert (one.across, one.down) == pytest.approx((496, 320), abs=1)
        assert len(one.greys) == one.across * one.down
    assert next(page_pictures(pdf, 203.2, only=2)).greys == pictures[2].greys
