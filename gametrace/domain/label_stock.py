"""The sizes of a label stock: the page, the grid of labels on it, how they are written down and checked.

Lengths are millimetres here; written down they are hundredths of one, whole numbers. Which stocks there are
is told elsewhere, and nothing here draws.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from gametrace.domain.errors import Refusal

SMALLEST_LABEL_MM = (25.0, 15.0)
LARGEST_PAGE_MM = 450.0
DOTS = (203, 300, 600)
MOST_A_PAGE = 200
_SLACK = 0.05  # mm: sizes are read off a ruler


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
    def is_single(self) -> bool:
        return self.labels_a_page == 1

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

    def nudged(self, right_mm: float, down_mm: float) -> LabelStock:
        """The same labels, moved for a printer that feeds a little off."""
        return replace(self, left_mm=self.left_mm + right_mm, top_mm=self.top_mm + down_mm)


def stock_text(stock: LabelStock) -> str:
    """'21000x29700 3x7 6350x3810 725,1515 250,0 300': page, grid, label, margins, gaps, dots an inch."""
    lengths = (
        stock.page_w_mm, stock.page_h_mm, stock.label_w_mm, stock.label_h_mm,
        stock.left_mm, stock.top_mm, stock.gap_x_mm, stock.gap_y_mm,
    )  # fmt: skip
    page_w, page_h, wide, high, left, top, gap_x, gap_y = (round(length * 100) for length in lengths)
    grid = f"{stock.columns}x{stock.rows}"
    return f"{page_w}x{page_h} {grid} {wide}x{high} {left},{top} {gap_x},{gap_y} {stock.dpi}"


def stock_from(name: str, text: str) -> LabelStock:
    """The stock `stock_text` wrote down. ValueError where it is none."""
    numbers = [int(part) for part in re.split(r"[x, ]", text)]
    page_w, page_h, columns, rows, wide, high, left, top, gap_x, gap_y, dpi = numbers
    return LabelStock(
        name, page_w / 100, page_h / 100, columns, rows,
        wide / 100, high / 100, left / 100, top / 100, gap_x / 100, gap_y / 100, dpi,
    )  # fmt: skip


def check_stock(stock: LabelStock) -> LabelStock:
    """The stock, or the Refusal that says which size cannot be."""
    for name, words in (("columns", "across"), ("rows", "down")):
        if not 1 <= getattr(stock, name) <= MOST_A_PAGE:
            raise Refusal(f"A sheet has at least one label {words}.", "Count them on the sheet.", name)
    if stock.labels_a_page > MOST_A_PAGE:
        many = f"{stock.labels_a_page} labels on one sheet cannot be right."
        raise Refusal(many, "Count those across and those down.", "columns")
    for name in ("left_mm", "top_mm", "gap_x_mm", "gap_y_mm"):
        if getattr(stock, name) < 0:
            raise Refusal("A margin or a gap is never under nothing.", "Measure it again.", name)
    if stock.dpi not in DOTS:
        some = ", ".join(map(str, DOTS))
        raise Refusal(f"{stock.dpi} dots an inch is unknown here.", f"Choose one of: {some}.", "dpi")
    least_w, least_h = SMALLEST_LABEL_MM
    if stock.label_w_mm < least_w or stock.label_h_mm < least_h:
        small = f"A label of {stock.label_w_mm:g} × {stock.label_h_mm:g} mm holds no words that can be read."
        raise Refusal(small, f"Take one of at least {least_w:g} × {least_h:g} mm.", "label_w_mm")
    _check_page(stock)
    return stock


def _check_page(stock: LabelStock) -> None:
    across = stock.left_mm + stock.columns * (stock.label_w_mm + stock.gap_x_mm) - stock.gap_x_mm
    down = stock.top_mm + stock.rows * (stock.label_h_mm + stock.gap_y_mm) - stock.gap_y_mm
    for name, needed, there, words in (
        ("page_w_mm", across, stock.page_w_mm, "wide"),
        ("page_h_mm", down, stock.page_h_mm, "high"),
    ):
        if there > LARGEST_PAGE_MM:
            raise Refusal(f"No page here is {there:g} mm {words}.", "Measure it again.", name)
        if needed > there + _SLACK:
            raise Refusal(
                f"Margins, labels and gaps need {needed:.1f} mm; the page is {there:g} mm {words}.",
                "Measure one label and one gap again.",
                name,
            )
