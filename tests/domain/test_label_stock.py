"""Label stocks: written down and read back whole, and refused where a ruler must have slipped."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.domain.label_stock import DOTS, LabelStock, check_stock, stock_from, stock_text

SHEET = LabelStock("ours", 210, 297, 3, 7, 63.5, 38.1, 7.25, 15.15, 2.5, 0, 300)


def test_a_stock_is_written_in_whole_hundredths() -> None:
    assert stock_text(SHEET) == "21000x29700 3x7 6350x3810 725,1515 250,0 300"


@given(
    lengths=st.lists(st.integers(0, 45_000), min_size=8, max_size=8),
    columns=st.integers(1, 20),
    rows=st.integers(1, 20),
    dpi=st.sampled_from(DOTS),
)
def test_any_stock_is_read_back_as_it_was_written(
    lengths: list[int], columns: int, rows: int, dpi: int
) -> None:
    page_w, page_h, wide, high, left, top, gap_x, gap_y = (length / 100 for length in lengths)
    stock = LabelStock("any", page_w, page_h, columns, rows, wide, high, left, top, gap_x, gap_y, dpi)
    assert stock_from("any", stock_text(stock)) == stock


# The row of 63.5 × 38.1 mm on A4 agrees with a published template; its last label ends on the page.
def test_a_sheet_that_fits_its_page_is_taken() -> None:
    assert check_stock(SHEET) is SHEET


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"columns": 4}, "page_w_mm"),
        ({"top_mm": 40.0}, "page_h_mm"),
        ({"gap_x_mm": -1.0}, "gap_x_mm"),
        ({"rows": 0}, "rows"),
        ({"columns": 20, "rows": 20}, "columns"),
        ({"dpi": 72}, "dpi"),
        ({"label_w_mm": 10.0}, "label_w_mm"),
        ({"page_w_mm": 4000.0}, "page_w_mm"),
    ],
)
def test_sizes_that_cannot_be_are_refused_at_their_field(changes: dict[str, float], field: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_stock(replace(SHEET, **changes))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert refused.value.what_to_do


def test_a_printer_that_feeds_off_moves_every_label_and_nothing_else() -> None:
    moved = SHEET.nudged(1.5, -0.5)
    for position in range(SHEET.labels_a_page):
        left, top = SHEET.corner_mm(position)
        assert moved.corner_mm(position) == pytest.approx((left + 1.5, top - 0.5))
    assert (moved.label_w_mm, moved.gap_x_mm) == (SHEET.label_w_mm, SHEET.gap_x_mm)
