"""The label stocks the kitchen may have, by size alone: single labels from a roll, and A4 sheets.

Widths and pitches of the sheets are the sizes commonly sold (63.5 × 38.1 mm agrees with a published
template; the other rows are centred-layout arithmetic, common practice, no source).
"""

from __future__ import annotations

from gametrace.domain.label_stock import LabelStock

__all__ = ["STOCKS", "LabelStock"]


def _single(width_mm: float, height_mm: float) -> LabelStock:
    name = f"single-{width_mm:g}x{height_mm:g}"
    return LabelStock(name, width_mm, height_mm, 1, 1, width_mm, height_mm, 0, 0, 0, 0)


def _a4(
    columns: int, rows: int, width_mm: float, height_mm: float, left_mm: float, top_mm: float
) -> LabelStock:
    name = f"a4-{columns}x{rows}"
    return LabelStock(name, 210, 297, columns, rows, width_mm, height_mm, left_mm, top_mm, 2.5, 0, dpi=300)


STOCKS: dict[str, LabelStock] = {
    stock.name: stock
    for stock in (
        _single(62, 40),
        _single(100, 50),
        _a4(3, 7, 63.5, 38.1, 7.25, 15.15),
        _a4(2, 7, 99.1, 38.1, 4.65, 15.15),
        _a4(2, 4, 99.1, 67.7, 4.65, 13.1),
    )
}
