"""Labels as a PDF: one after the other on single labels or sheets, from the first empty place of a used one.

What a label says was decided in the LabelSheet; where it stands on the label, in `label_drawing`.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from gametrace.documents.label_drawing import LabelDrawing
from gametrace.documents.pieces import printable
from gametrace.documents.stocks import STOCKS, LabelStock
from gametrace.documents.wording import counted
from gametrace.domain.errors import Refusal
from gametrace.register.records import LabelSheet

__all__ = ["STOCKS", "LabelStock", "label_pdf"]


def label_pdf(sheets: Sequence[LabelSheet], stock: LabelStock, *, start_at: int = 1) -> bytes:
    """The labels as a PDF, one after the other from place `start_at` of the first page."""
    if not sheets:
        raise Refusal("There is no label to print.", "Choose at least one lot.", "codes")
    if not 1 <= start_at <= stock.labels_a_page:
        raise Refusal(
            f"This sheet has {counted(stock.labels_a_page, 'place')}, so there is no place {start_at}.",
            "Give the number of the first empty place, counted along the rows.",
            "start_at",
        )
    page = (stock.page_w_mm * mm, stock.page_h_mm * mm)
    buffer = BytesIO()
    canvas = Canvas(buffer, pagesize=page, invariant=1, pageCompression=1, lang="en-GB")
    canvas.setTitle(f"{counted(len(sheets), 'label')} on {stock.name}")
    canvas.setAuthor(printable(sheets[0].larder))
    for number, sheet in enumerate(sheets, start=start_at - 1):
        position = number % stock.labels_a_page
        if position == 0 and number >= stock.labels_a_page:
            canvas.showPage()
        LabelDrawing(canvas, sheet, stock, position).draw()
    canvas.save()
    return buffer.getvalue()
