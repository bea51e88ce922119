"""Labels: carcass tag, pack, dish and hold label, on single labels or sheets.

Each holds the lot code large for people and as a square code for scanners. Everything is black: the printer
may know no other ink. What a label says was decided in the LabelSheet; here it only finds its place. Text
that finds no room ends with '…'; a square code that finds none is refused.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from qrcode.exceptions import DataOverflowError
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from gametrace.documents import brand
from gametrace.documents.marks import draw_mark
from gametrace.documents.pieces import printable
from gametrace.documents.qr import QUIET_MODULES, Matrix, dark_path, module_mm, qr_matrix, smallest_box_mm
from gametrace.documents.stocks import STOCKS, LabelStock
from gametrace.documents.typesetting import ELLIPSIS, cut_to, fitting_size, width_of, wrapped
from gametrace.documents.wording import counted
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotState
from gametrace.register.records import LabelSheet

__all__ = ["STOCKS", "LabelStock", "label_pdf"]

PAD_MM = 2.5
GAP = 1.2 * mm
CODE_SHARE_OF_WIDTH = 0.34  # how much of the label's width the square code may take
WARNING_SIZES = (14.0, 12.0, 10.5, 9.0, 8.0)
LINE_SIZES = (10.0, 9.0, 8.0, 7.0)
LEADING = 1.2
TWO_COLUMNS_FROM = 55 * mm
INSET = 3.0  # between a black band's edge and its words
SMALLEST_TEXT = 7  # points: x-height 1.3 mm; Regulation 1169/2011 art. 13 asks 1.2 mm of consumer labels
FOOT = SMALLEST_TEXT + 1.5 + GAP
PRACTICE = "PRACTICE REGISTER"


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
        _LabelDrawing(canvas, sheet, stock, position).draw()
    canvas.save()
    return buffer.getvalue()


class _LabelDrawing:
    """One label on its way from the top edge down. Lengths in points, the page's origin."""

    def __init__(self, canvas: Any, sheet: LabelSheet, stock: LabelStock, position: int) -> None:
        self.canvas, self.sheet, self.stock = canvas, sheet, stock
        left_mm, top_mm = stock.corner_mm(position)
        self.left = (left_mm + PAD_MM) * mm
        self.right = (left_mm + stock.label_w_mm - PAD_MM) * mm
        self.top = (stock.page_h_mm - top_mm - PAD_MM) * mm
        self.bottom = (stock.page_h_mm - top_mm - stock.label_h_mm + PAD_MM) * mm
        self.height = self.top - self.bottom

    def draw(self) -> None:
        self._code_words()
        self._warning()
        self._foot()
        code_left = self._square_code()
        self._words(code_left - GAP)

    def _code_words(self) -> None:
        width = self.right - self.left
        words = printable(self.sheet.code)
        # A tag on a hook is read from further off; a warning needs the room more.
        share = 0.25 if self.sheet.sort == "carcass" and not self.sheet.warning else 0.2
        size = fitting_size(words, brand.BOLD, width, largest=self.height * share, smallest=10)
        self.top -= size * 0.74  # the height of its capitals and digits
        self._text(self.left, self.top, cut_to(words, brand.BOLD, size, width), brand.BOLD, size)
        self.top -= GAP * 1.2

    def _warning(self) -> None:
        """White on black, with the state's shape: the first thing seen, however the light falls."""
        words = printable(self.sheet.warning)
        if not words:
            return
        size, lines = self._warning_lines(words)
        mark, tall = size * 1.15, _band_height(size, len(lines))
        base = self.top - tall
        self.canvas.setFillColor(brand.BLACK)
        self.canvas.rect(self.left, base, self.right - self.left, tall, stroke=0, fill=1)
        is_hold = words.upper().startswith("ON HOLD")
        state = LotState.ON_HOLD.value if is_hold else LotState.REJECTED.value
        draw_mark(self.canvas, state, self.left + INSET, base + (tall - mark) / 2, mark, brand.WHITE)
        y = self.top - INSET - size * 0.82
        for line in lines:
            self._text(self.left + 2 * INSET + mark, y, line, brand.BOLD, size, brand.WHITE)
            y -= size * 1.2
        self.top = base - GAP

    def _warning_lines(self, words: str) -> tuple[float, list[str]]:
        """The largest setting that says all of it and leaves the square code its room."""
        least = smallest_box_mm(len(_matrix(self.sheet.code.upper())), self.stock.dot_mm) * mm
        room = self.top - self.bottom - FOOT - GAP - least
        size, lines = WARNING_SIZES[-1], [words]
        for size in WARNING_SIZES if self.sheet.sort == "hold" else WARNING_SIZES[2:]:
            most = 1 + max(0, int((room - _band_height(size, 1)) / (size * 1.2)))
            width = self.right - self.left - size * 1.15 - 3 * INSET
            lines = wrapped(words, brand.BOLD, size, width, min(3, most))
            if not lines[-1].endswith(ELLIPSIS) and _band_height(size, len(lines)) <= room:
                break
        return size, lines

    def _foot(self) -> None:
        """Whose label this is; on a practice label a black strip no photocopier loses."""
        size, taken = SMALLEST_TEXT, 0.0
        if self.sheet.is_practice:
            taken = width_of(PRACTICE, brand.BOLD, size) + 6
            self.canvas.setFillColor(brand.BLACK)
            self.canvas.rect(self.right - taken, self.bottom - 1, taken, size + 2.4, stroke=0, fill=1)
            self._text(self.right - taken + 3, self.bottom + 1.2, PRACTICE, brand.BOLD, size, brand.WHITE)
            taken += GAP
        width = self.right - self.left - taken
        words = cut_to(printable(self.sheet.larder), brand.REGULAR, size, width)
        self._text(self.left, self.bottom + 1.2, words, brand.REGULAR, size)
        self.bottom += FOOT

    def _square_code(self) -> float:
        """Draw it at the lower right with its light border inside the box; return the box's left edge."""
        matrix = _matrix(self.sheet.code.upper())
        dot_mm = self.stock.dot_mm
        across = len(matrix) + 2 * QUIET_MODULES
        room_mm = min(self.top - self.bottom, (self.right - self.left) * CODE_SHARE_OF_WIDTH) / mm
        module = module_mm(len(matrix), room_mm, dot_mm)
        # The corner sits on the printer's grid too, counted from the page's upper left corner.
        left_mm = int((self.right / mm - across * module) / dot_mm + 1e-6) * dot_mm
        lower_mm = int((self.stock.page_h_mm - self.bottom / mm) / dot_mm + 1e-6) * dot_mm
        lower = (self.stock.page_h_mm - lower_mm) * mm
        quiet = QUIET_MODULES * module
        scale = module * mm
        self.canvas.addLiteral(
            f"q 0 g {scale:.6f} 0 0 {scale:.6f} {(left_mm + quiet) * mm:.6f} {lower + quiet * mm:.6f} cm"
        )
        self.canvas.addLiteral(dark_path(matrix))
        self.canvas.addLiteral("Q")
        return float(left_mm * mm)

    def _words(self, right: float) -> None:
        """Title, the date at the foot where the eye looks for it, and between them as many lines as fit."""
        width, is_large = right - self.left, self.height > 40 * mm
        top, bottom = self.top, self.bottom
        if self.sheet.date_line:
            bottom = self._date_line(width, bottom, largest=15 if is_large else 12)
        size = 14 if is_large else 11
        for line in wrapped(printable(self.sheet.title), brand.SEMIBOLD, size, width, 2):
            top -= size
            self._text(self.left, top, line, brand.SEMIBOLD, size)
            top -= size * 0.18
        self._lines(width, top - 1.5, bottom)

    def _date_line(self, width: float, bottom: float, largest: float) -> float:
        """One line where it fits large, else two: a date cut short is no date. Returns its upper edge."""
        words = printable(self.sheet.date_line)
        size = fitting_size(words, brand.BOLD, width, largest, smallest=10)
        lines = wrapped(words, brand.BOLD, size, width, 2)
        while size > SMALLEST_TEXT and lines and lines[-1].endswith(ELLIPSIS):
            size -= 0.5
            lines = wrapped(words, brand.BOLD, size, width, 2)
        upper = bottom + len(lines) * size * 1.12
        for at, line in enumerate(lines, start=1):
            self._text(self.left, upper - at * size * 1.12, line, brand.BOLD, size)
        return upper + 1.5

    def _lines(self, width: float, top: float, bottom: float) -> None:
        """In the largest of a few sizes, and in two columns on a wide label, so that every line is shown.

        Where even that is too little, the least important are left off and '…' says so.
        """
        texts = [printable(line) for line in self.sheet.lines if line.strip()]
        columns_tried = (1, 2) if width > TWO_COLUMNS_FROM else (1,)
        tried = [
            _Setting.of(texts, size, columns, width / columns - (columns - 1) * GAP, top - bottom)
            for size in LINE_SIZES
            for columns in columns_tried
        ]
        best = next((setting for setting in tried if setting.is_whole), tried[-1])
        for at, line in enumerate(best.lines):
            column, row = divmod(at, best.rows)
            x = self.left + column * (width / best.columns + GAP)
            y = top - best.size - row * best.size * LEADING
            self._text(x, y, line, brand.REGULAR, best.size)

    def _text(self, x: float, y: float, words: str, font: str, size: float, ink: Any = brand.BLACK) -> None:
        self.canvas.setFillColor(ink)
        self.canvas.setFont(font, size)
        self.canvas.drawString(x, y, words)


@dataclass(frozen=True, slots=True)
class _Setting:
    """A way to set the lines of a label: how large, in how many columns, and whether all was said."""

    size: float
    columns: int
    rows: int
    lines: list[str]
    is_whole: bool

    @classmethod
    def of(cls, texts: list[str], size: float, columns: int, width: float, height: float) -> _Setting:
        """Lines break in one column only: broken ones would run from one column into the next."""
        rows = max(0, int((height + size * (LEADING - 1)) / (size * LEADING)))
        most = 2 if columns == 1 else 1
        lines = [part for text in texts for part in wrapped(text, brand.REGULAR, size, width, most)]
        is_whole = len(lines) <= rows * columns and (columns == 1 or lines == texts)
        if len(lines) > rows * columns:
            lines = lines[: rows * columns]
            if lines:
                lines[-1] = cut_to(lines[-1] + " …", brand.REGULAR, size, width)
        return cls(size, columns, rows, lines, is_whole)


def _band_height(size: float, lines: int) -> float:
    return (lines - 1) * size * 1.2 + size * 0.95 + 1.6 * INSET


def _matrix(words: str) -> Matrix:
    try:
        return qr_matrix(words)
    except (DataOverflowError, ValueError) as too_much:
        raise Refusal(
            "This code is too long for a square code.", "Print the label of a lot.", "codes"
        ) from too_much
