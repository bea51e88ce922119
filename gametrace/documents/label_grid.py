"""A test print of a label stock: where the program believes every label to be, with rulers at the edges.

Laid over a real sheet against the light, the rulers tell in millimetres how far the print must be moved.
"""

from __future__ import annotations

from io import BytesIO
from typing import Any

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from gametrace.documents import brand
from gametrace.documents.stocks import LabelStock
from gametrace.documents.typesetting import fitting_size, wrapped

BEFORE_MM, AFTER_MM = 5, 10  # how far a ruler reaches before and after the edge it measures
TEXT = 7
HOW = (
    "Lay it over a sheet of labels, against the light.",
    "A sticker's left edge at 2 across: move it 2 mm right.",
    "Its upper edge at 1 down: 1 mm down.",
)


def grid_pdf(stock: LabelStock) -> bytes:
    """One page: outline and cross of each label, rulers on the first and the last, a line to measure."""
    size = (stock.page_w_mm * mm, stock.page_h_mm * mm)
    buffer = BytesIO()
    canvas = Canvas(buffer, pagesize=size, invariant=1, pageCompression=1, lang="en-GB")
    canvas.setTitle(f"Test print for {stock.name}")
    for position in range(stock.labels_a_page):
        _outline(canvas, stock, position)
    for position in dict.fromkeys((0, stock.labels_a_page - 1)):
        _rulers(canvas, stock, position)
    _measured_line(canvas, stock)
    _words(canvas, stock)
    canvas.save()
    return buffer.getvalue()


def _edges(stock: LabelStock, position: int) -> tuple[float, float]:
    """The left and upper edge in points, the page's origin at the lower left."""
    left_mm, top_mm = stock.corner_mm(position)
    return left_mm * mm, (stock.page_h_mm - top_mm) * mm


def _outline(canvas: Any, stock: LabelStock, position: int) -> None:
    left, top = _edges(stock, position)
    wide, high = stock.label_w_mm * mm, stock.label_h_mm * mm
    canvas.setStrokeColor(brand.BLACK)
    canvas.setLineWidth(0.5)
    canvas.rect(left, top - high, wide, high)
    if position:  # the first of a sheet is full of words
        x, y, arm = left + wide / 2, top - high / 2, 3 * mm
        canvas.line(x - arm, y, x + arm, y)
        canvas.line(x, y - arm, x, y + arm)
    canvas.setFillColor(brand.BLACK)
    canvas.setFont(brand.BOLD, 12)
    canvas.drawRightString(left + wide - 2 * mm, top - high + 2 * mm, str(position + 1))


def _rulers(canvas: Any, stock: LabelStock, position: int) -> None:
    """Millimetres across the left edge and across the upper edge, nothing at the edge itself."""
    left, top = _edges(stock, position)
    across, down = top - (AFTER_MM + 4) * mm, left + (AFTER_MM + 3) * mm  # clear of each other
    canvas.setFont(brand.REGULAR, TEXT)
    for number in range(-BEFORE_MM, AFTER_MM + 1):
        tick = 2.4 * mm if number % 5 == 0 else 1.2 * mm
        x, y = left + number * mm, top - number * mm
        canvas.line(x, across, x, across - tick)
        canvas.line(down, y, down + tick, y)
        if number % 5 == 0 and number:
            canvas.drawCentredString(x, across - tick - TEXT, _signed(number))
            canvas.drawString(down + tick + 1, y - TEXT * 0.36, _signed(number))
    canvas.line(left - BEFORE_MM * mm, across, left + AFTER_MM * mm, across)
    canvas.line(down, top + BEFORE_MM * mm, down, top - AFTER_MM * mm)


def _signed(number: int) -> str:
    return f"−{-number}" if number < 0 else str(number)


def _measured_line(canvas: Any, stock: LabelStock) -> None:
    """A line of whole centimetres: where a ruler says less, the printer makes the page smaller."""
    left, top = _edges(stock, 0)
    centimetres = int((stock.label_w_mm - 8) // 10)
    y = top - stock.label_h_mm * mm + 9 * mm
    right = left + 4 * mm + centimetres * 10 * mm
    canvas.setLineWidth(0.8)
    canvas.line(left + 4 * mm, y, right, y)
    for x in (left + 4 * mm, right):
        canvas.line(x, y - 1 * mm, x, y + 1 * mm)
    canvas.drawString(left + 4 * mm, y - TEXT - 2, f"{centimetres * 10} mm: print at 100 %, not fitted")


def _words(canvas: Any, stock: LabelStock) -> None:
    left, top = _edges(stock, 0)
    x, width = left + 22 * mm, (stock.label_w_mm - 24) * mm
    y = top - 3 * mm
    name = stock.name[:60]
    size = fitting_size(name, brand.BOLD, width, largest=10, smallest=TEXT)
    y -= size
    canvas.setFont(brand.BOLD, size)
    canvas.drawString(x, y, name)
    canvas.setFont(brand.REGULAR, TEXT)
    floor = top - stock.label_h_mm * mm + 10 * mm
    for line in [part for words in HOW for part in wrapped(words, brand.REGULAR, TEXT, width, 3)]:
        y -= TEXT * 1.2
        if y < floor:
            break
        canvas.drawString(x, y, line)
