"""One label drawn: carcass tag, pack, mixed lot, frozen, thawed, dish, hold, by-product.

Each holds the lot code large for people and as a square code for scanners. Everything is black: the printer
may know no other ink. A carcass tag meets water and fat: few words, all bold. What must not be used has a
band white on black with its shape; what was frozen or thawed has a framed one. Text that finds no room ends
with '…'; a square code that finds none is refused.
"""

from __future__ import annotations

from typing import Any

from qrcode.exceptions import DataOverflowError
from reportlab.lib.units import mm

from gametrace.documents import brand
from gametrace.documents.label_setting import GAP, LEADING, set_with_parents
from gametrace.documents.marks import draw_mark
from gametrace.documents.pieces import printable
from gametrace.documents.qr import QUIET_MODULES, Matrix, dark_path, module_mm, qr_matrix, smallest_box_mm
from gametrace.documents.stocks import LabelStock
from gametrace.documents.typesetting import ELLIPSIS, cut_to, fitting_size, width_of, wrapped
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotState
from gametrace.register.records import LabelSheet

PAD_MM = 2.5
CODE_SHARE_OF_WIDTH = 0.34  # how much of the label's width the square code may take
WARNING_SIZES = (14.0, 12.0, 10.5, 9.0, 8.0)
LINE_SIZES = (10.0, 9.0, 8.0, 7.0)
WET_SIZES = (16.0, 14.0, 12.0, 10.5, 9.0, 8.0, 7.0)
INSET = 3.0  # between a black band's edge and its words
SMALLEST_TEXT = 7  # points: x-height 1.3 mm; Regulation 1169/2011 art. 13 asks 1.2 mm of consumer labels
FOOT = SMALLEST_TEXT + 1.5 + GAP
PRACTICE = "PRACTICE REGISTER"


class LabelDrawing:
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
        if printable(self.sheet.warning):
            self._warning()
        elif words := printable(_cold_words(self.sheet)):
            self._cold_band(words)
        self._foot()
        code_left = self._square_code()
        self._words(code_left - GAP)

    @property
    def _is_wet(self) -> bool:
        return self.sheet.sort == "carcass"

    def _code_words(self) -> None:
        width = self.right - self.left
        words = printable(self.sheet.code)
        # A tag on a hook is read from further off; a warning needs the room more.
        share = 0.25 if self._is_wet and not self.sheet.warning else 0.2
        size = fitting_size(words, brand.BOLD, width, largest=self.height * share, smallest=10)
        self.top -= size * 0.74  # the height of its capitals and digits
        self._text(self.left, self.top, cut_to(words, brand.BOLD, size, width), brand.BOLD, size)
        self.top -= GAP * 1.2

    # -- bands ------------------------------------------------------------------------------------------

    def _warning(self) -> None:
        """White on black, with the state's shape: the first thing seen, however the light falls."""
        words = printable(self.sheet.warning)
        sizes = WARNING_SIZES if self.sheet.sort == "hold" else WARNING_SIZES[2:]
        size, lines = self._band_lines(words, sizes, has_mark=True)
        mark, tall = size * 1.15, _band_height(size, len(lines))
        base = self.top - tall
        self.canvas.setFillColor(brand.BLACK)
        self.canvas.rect(self.left, base, self.right - self.left, tall, stroke=0, fill=1)
        is_hold = words.upper().startswith("ON HOLD")
        state = LotState.ON_HOLD.value if is_hold else LotState.REJECTED.value
        draw_mark(self.canvas, state, self.left + INSET, base + (tall - mark) / 2, mark, brand.WHITE)
        self._band_words(lines, size, self.left + 2 * INSET + mark, brand.WHITE)
        self.top = base - GAP

    def _cold_band(self, words: str) -> None:
        """Framed, not filled: frozen or thawed is no warning, but it is seen before anything small."""
        sizes = WARNING_SIZES[1 if self.height > 40 * mm else 3 :]
        size, lines = self._band_lines(words, sizes, has_mark=False)
        tall = _band_height(size, len(lines))
        base = self.top - tall
        self.canvas.setStrokeColor(brand.BLACK)
        self.canvas.setLineWidth(1.4)
        self.canvas.rect(self.left + 0.7, base + 0.7, self.right - self.left - 1.4, tall - 1.4)
        self._band_words(lines, size, self.left + 1.5 * INSET, brand.BLACK)
        self.top = base - GAP

    def _band_words(self, lines: list[str], size: float, x: float, ink: Any) -> None:
        y = self.top - INSET - size * 0.82
        for line in lines:
            self._text(x, y, line, brand.BOLD, size, ink)
            y -= size * 1.2

    def _band_lines(self, words: str, sizes: tuple[float, ...], *, has_mark: bool) -> tuple[float, list[str]]:
        """The largest setting that says all of it and leaves the square code its room."""
        least = smallest_box_mm(len(_matrix(self.sheet.code.upper())), self.stock.dot_mm) * mm
        room = self.top - self.bottom - FOOT - GAP - least
        size, lines = sizes[-1], [words]
        for size in sizes:
            most = 1 + max(0, int((room - _band_height(size, 1)) / (size * 1.2)))
            width = self.right - self.left - 3 * INSET - (size * 1.15 if has_mark else 0)
            lines = wrapped(words, brand.BOLD, size, width, min(3, most))
            if not lines[-1].endswith(ELLIPSIS) and _band_height(size, len(lines)) <= room:
                break
        return size, lines

    # -- foot and square code ---------------------------------------------------------------------------

    def _foot(self) -> None:
        """Whose label this is, and which copy; on a practice label a black strip no photocopier loses."""
        size, right = SMALLEST_TEXT, self.right
        if self.sheet.is_practice:
            taken = width_of(PRACTICE, brand.BOLD, size) + 6
            self.canvas.setFillColor(brand.BLACK)
            self.canvas.rect(right - taken, self.bottom - 1, taken, size + 2.4, stroke=0, fill=1)
            self._text(right - taken + 3, self.bottom + 1.2, PRACTICE, brand.BOLD, size, brand.WHITE)
            right -= taken + GAP
        left = self.left
        if self.sheet.copy > 1:
            words = f"copy {self.sheet.copy}"
            self._text(left, self.bottom + 1.2, words, brand.BOLD, size)
            left += width_of(words, brand.BOLD, size) + GAP
        words = cut_to(printable(self.sheet.larder), brand.REGULAR, size, right - left)
        self._text(left, self.bottom + 1.2, words, brand.REGULAR, size)
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

    # -- words ------------------------------------------------------------------------------------------

    def _words(self, right: float) -> None:
        """Title, the date at the foot where the eye looks for it, and between them as many lines as fit."""
        width, is_large = right - self.left, self.height > 40 * mm
        top, bottom = self.top, self.bottom
        if self.sheet.date_line:
            bottom = self._date_line(width, bottom, largest=15 if is_large else 12)
        size = 14 if is_large else 11
        font = brand.BOLD if self._is_wet else brand.SEMIBOLD
        for line in wrapped(printable(self.sheet.title), font, size, width, 2):
            top -= size
            self._text(self.left, top, line, font, size)
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
        for below, line in zip(reversed(range(len(lines))), lines, strict=True):
            self._text(self.left, bottom + below * size * 1.12, line, brand.BOLD, size)
        return bottom + 3 + size * (1.12 * len(lines) - 0.38)  # capitals stand 0.74 of the size high

    def _lines(self, width: float, top: float, bottom: float) -> None:
        texts = [printable(line) for line in self.sheet.lines if line.strip()]
        parents = [(printable(code), grams) for code, grams in self.sheet.parents]
        font, sizes = (brand.BOLD, WET_SIZES) if self._is_wet else (brand.REGULAR, LINE_SIZES)
        best = set_with_parents(texts, parents, font, sizes, width, top - bottom)
        for at, line in enumerate(best.lines):
            column, row = divmod(at, best.rows)
            x = self.left + column * (width / best.columns + GAP)
            y = top - best.size - row * best.size * LEADING
            self._text(x, y, line, best.font, best.size)

    def _text(self, x: float, y: float, words: str, font: str, size: float, ink: Any = brand.BLACK) -> None:
        self.canvas.setFillColor(ink)
        self.canvas.setFont(font, size)
        self.canvas.drawString(x, y, words)


def _cold_words(sheet: LabelSheet) -> str:
    """'Frozen on' with the day of the first freezing (Regulation 1169/2011, Annex X (3)), or 'Defrosted'."""
    if sheet.sort == "frozen" and sheet.frozen_on:
        return f"Frozen on {sheet.frozen_on}"
    if sheet.sort == "thawed":
        return f"Defrosted {sheet.thawed_on}".strip()
    return ""


def _band_height(size: float, lines: int) -> float:
    return (lines - 1) * size * 1.2 + size * 0.95 + 1.6 * INSET


def _matrix(words: str) -> Matrix:
    try:
        return qr_matrix(words)
    except (DataOverflowError, ValueError) as too_much:
        raise Refusal(
            "This code is too long for a square code.", "Print the label of a lot.", "codes"
        ) from too_much
