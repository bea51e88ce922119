"""The label stocks the kitchen may have, by size alone: single labels from a roll, and A4 sheets.

Widths and pitches of the sheets are the sizes commonly sold (63.5 × 38.1 mm agrees with a published
template; the other rows are centred-layout arithmetic, common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LabelStock:
    """One sheet or roll: the page, the grid of labels on it, and the printer's dots per inch."""

    name: str
    page_w_mm: float
    page_h_mm: float
    columns: int
    rows: int
    label_w_mm: float
    label_h_mm: float
    left_mm: float
    top_mm: float
    gap_x_mm: float
    gap_y_mm: float
    dpi: int = 203

    @property
    def labels_a_page(self) -> int:
        return self.columns * self.rows

    @property
    def dot_mm(self) -> float:
        """The size of one printed dot. A printer sold as 203 dpi has 8 dots a millimetre."""
        return 0.125 if self.dpi == 203 else 25.4 / self.dpi

    def corner_mm(self, position: int) -> tuple[float, float]:
        """Left and top edge of the label at `position` on its page, counted from 0 along the rows."""
        row, column = divmod(position, self.columns)
        return (
            self.left_mm + column * (self.label_w_mm + self.gap_x_mm),
            self.top_mm + row * (self.label_h_mm + self.gap_y_mm),
        )


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
