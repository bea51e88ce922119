"""The page every document is printed on: running head, 'page x of y', watermark, bookmarks, contents.

Numbers known only at the end (how many pages, where a section begins) are drawn from small forms that are
filled in when the document is saved, so that nothing has to be laid out twice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import islice
from typing import Any

from reportlab import rl_config
from reportlab.lib.pagesizes import A4, landscape
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph

from gametrace.documents import brand
from gametrace.documents.pieces import escaped, printable
from gametrace.documents.typesetting import cut_to, width_of

rl_config.useA85 = 0  # letters in place of bytes: a fifth larger, slower, and nothing needs it any more
MARGIN = 16 * mm
HEAD_ROOM = 20 * mm
FOOT_ROOM = 17 * mm
TEXT_WIDTH = A4[0] - 2 * MARGIN
TEXT_WIDTH_WIDE = A4[1] - 2 * MARGIN
PRACTICE = "PRACTICE REGISTER"
UPRIGHT, WIDE = "upright", "wide"
_PAGES = "number-of-pages"


@dataclass(frozen=True, slots=True)
class Face:
    """What every page of a document says about the document."""

    title: str
    larder: str
    printed: str
    is_practice: bool


@dataclass(frozen=True, slots=True)
class _Late:
    """A number that is known only when the document is saved, and how it is to be drawn."""

    key: str
    size: float
    ink: Any
    is_right: bool

    @property
    def form(self) -> str:
        return f"late.{self.key}.{self.size:g}.{'right' if self.is_right else 'left'}"


class PaperCanvas(Canvas):
    """ReportLab's canvas with numbers that become known late, and the same bytes for the same sheet."""

    def __init__(self, *args: Any, **settings: Any) -> None:
        super().__init__(*args, **{**settings, "invariant": 1, "pageCompression": 1, "lang": "en-GB"})
        self._late: dict[str, _Late] = {}
        self._numbers: dict[str, int] = {}

    def late_number(self, key: str, x: float, y: float, size: float, ink: Any, *, is_right: bool) -> None:
        """Draw the number of `key`, settled by then or later, beginning or ending at x."""
        late = _Late(key, size, ink, is_right)
        self._late[late.form] = late
        self.saveState()
        self.translate(x, y)
        self.doForm(late.form)
        self.restoreState()

    def settle(self, key: str, number: int) -> None:
        self._numbers[key] = number

    def save(self) -> None:
        self.settle(_PAGES, self.getPageNumber() - 1)
        for form, late in self._late.items():
            self.beginForm(form, -60, -late.size, 60, late.size * 1.5)
            self.setFillColor(late.ink)
            self.setFont(brand.REGULAR, late.size)
            draw = self.drawRightString if late.is_right else self.drawString
            draw(0, 0, str(self._numbers.get(late.key, "")))
            self.endForm()
        super().save()


def draw_page(canvas: PaperCanvas, face: Face, size: tuple[float, float]) -> None:
    """Everything on a page that is not its contents."""
    width, height = size
    if face.is_practice:
        _watermark(canvas, width, height)
    y = height - 11 * mm
    right = width - MARGIN
    if face.is_practice:
        words_width = width_of(PRACTICE, brand.BOLD, 7.5) + 10
        canvas.setFillColor(brand.BLACK)
        canvas.rect(right - words_width, y - 3.4, words_width, 12.4, stroke=0, fill=1)
        canvas.setFillColor(brand.WHITE)
        canvas.setFont(brand.BOLD, 7.5)
        canvas.drawString(right - words_width + 5, y, PRACTICE)
        right -= words_width + 8
    canvas.setFillColor(brand.QUIET)
    canvas.setFont(brand.REGULAR, 7.5)
    canvas.drawString(MARGIN, y, cut_to(printable(face.larder), brand.REGULAR, 7.5, (right - MARGIN) * 0.55))
    canvas.drawRightString(
        right, y, cut_to(printable(face.title), brand.REGULAR, 7.5, (right - MARGIN) * 0.42)
    )
    _foot(canvas, face, width)


def _foot(canvas: PaperCanvas, face: Face, width: float) -> None:
    y, right = 9 * mm, width - MARGIN
    canvas.setFillColor(brand.QUIET)
    canvas.setFont(brand.REGULAR, 7.5)
    canvas.drawString(MARGIN, y, f"Printed {face.printed}")
    total_left = right - width_of("00", brand.REGULAR, 7.5)  # room for the total, whatever it will be
    canvas.drawRightString(total_left - 2, y, f"page {canvas.getPageNumber()} of")
    canvas.late_number(_PAGES, total_left, y, 7.5, brand.QUIET, is_right=False)


def _watermark(canvas: Any, width: float, height: float) -> None:
    canvas.saveState()
    canvas.translate(width / 2, height / 2)
    canvas.rotate(52 if height > width else 33)
    canvas.setFillColor(brand.WASH)
    canvas.setFont(brand.BOLD, 60)
    canvas.drawCentredString(0, -20, PRACTICE)
    canvas.restoreState()


class Paper(BaseDocTemplate):
    """A document of many pages: build(story) writes it into the buffer."""

    def __init__(self, buffer: BytesIO, face: Face, subject: str) -> None:
        super().__init__(
            buffer,
            pagesize=A4,
            title=printable(face.title),
            author=printable(face.larder),
            subject=printable(subject),
            creator="gametrace",
        )
        self.face = face
        self.addPageTemplates([self._template(UPRIGHT, A4), self._template(WIDE, landscape(A4))])

    def _template(self, name: str, size: tuple[float, float]) -> PageTemplate:
        frame = Frame(
            MARGIN,
            FOOT_ROOM,
            size[0] - 2 * MARGIN,
            size[1] - HEAD_ROOM - FOOT_ROOM,
            leftPadding=0,
            rightPadding=0,
            topPadding=0,
            bottomPadding=0,
        )

        def furnish(canvas: PaperCanvas, _paper: Paper) -> None:
            draw_page(canvas, self.face, size)

        return PageTemplate(id=name, frames=[frame], onPage=furnish, pagesize=size)

    def write(self, story: Iterable[Flowable]) -> None:
        """Lay out every piece, each taken when its turn has come: a year's pack is never whole in memory."""
        self.build(_Taken(story), canvasmaker=PaperCanvas)


class _Taken(list[Flowable]):
    """The pieces ReportLab takes from the front of a list, filled as it empties."""

    def __init__(self, story: Iterable[Flowable]) -> None:
        super().__init__()
        self._left = iter(story)

    def __len__(self) -> int:
        if not super().__len__():
            self.extend(islice(self._left, 1))
        return super().__len__()


class Heading(Paragraph):
    """A heading that a bookmark and the contents lead to."""

    def __init__(self, words: str, key: str) -> None:
        super().__init__(escaped(words), brand.HEADING)
        self.words, self.key = printable(words), key

    def draw(self) -> None:
        self.canv.bookmarkHorizontal(self.key, 0, self.height + 6)
        self.canv.addOutlineEntry(self.words, self.key, level=0)
        self.canv.settle(self.key, self.canv.getPageNumber())
        super().draw()


class Contents(Flowable):
    """One line a section: its name, and the page it begins on."""

    LEADING = 12.5

    def __init__(self, entries: Sequence[tuple[str, str]], width: float) -> None:
        super().__init__()
        self.entries = entries
        self.width, self.height = width, len(entries) * self.LEADING

    def draw(self) -> None:
        y = self.height
        for words, key in self.entries:
            y -= self.LEADING
            self.canv.setFillColor(brand.INK)
            self.canv.setFont(brand.REGULAR, 9)
            self.canv.drawString(0, y + 3.2, words)
            self.canv.late_number(key, self.width, y + 3.2, 9, brand.INK, is_right=True)
            self.canv.setStrokeColor(brand.LINE)
            self.canv.setLineWidth(0.3)
            self.canv.line(0, y, self.width, y)
            self.canv.linkRect("", key, (0, y, self.width, y + self.LEADING), relative=1, thickness=0)
