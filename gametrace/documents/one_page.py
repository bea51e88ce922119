"""A paper of one page whatever it has to say: laid out ever more tightly until it fits, black on white."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from io import BytesIO

from reportlab.lib.pagesizes import A4
from reportlab.platypus import Flowable

from gametrace.documents.pages import FOOT_ROOM, HEAD_ROOM, MARGIN, TEXT_WIDTH, Face, PaperCanvas, draw_page
from gametrace.documents.pieces import printable

ROOM = A4[1] - HEAD_ROOM - FOOT_ROOM


def one_page_pdf(
    face: Face,
    subject: str,
    story: Callable[[int], list[Flowable]],
    lines: Sequence[int],
    foot: Sequence[Flowable],
) -> bytes:
    """The first of `story(n)` that fits above `foot`, n from `lines`; else the last one, cut."""
    buffer = BytesIO()
    canvas = PaperCanvas(buffer, pagesize=A4)
    canvas.setTitle(printable(face.title))
    canvas.setAuthor(printable(face.larder))
    canvas.setSubject(subject)
    draw_page(canvas, face, A4)
    low = [piece.wrap(TEXT_WIDTH, ROOM)[1] for piece in foot]
    pieces, heights = _fitting(story, lines, ROOM - sum(low))
    pieces, heights = [*pieces, *foot], [*heights, *low]
    y = A4[1] - HEAD_ROOM
    for piece, height in zip(pieces, heights, strict=True):
        y -= height
        piece.drawOn(canvas, MARGIN, y)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _fitting(
    story: Callable[[int], list[Flowable]], lines: Sequence[int], room: float
) -> tuple[list[Flowable], list[float]]:
    pieces: list[Flowable] = []
    heights: list[float] = []
    for most in lines:
        pieces = story(most)
        heights = [piece.wrap(TEXT_WIDTH, ROOM)[1] for piece in pieces]
        if sum(heights) <= room:
            return pieces, heights
    while sum(heights) > room:
        pieces.pop()
        heights.pop()
    return pieces, heights
