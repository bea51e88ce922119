"""A finished paper as pictures of its pages, for a preview and a printer, so that both show the very paper.

Pages are made one at a time, for sheets of labels at a printer's own dots are large. Nothing here is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from threading import Lock

import pypdfium2

POINTS_AN_INCH = 72
# The renderer does not bear two threads: a preview is turned while another paper is on its way to a printer.
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class PagePicture:
    """One page in greys, a byte a dot, rows from the top, each row `across` bytes long."""

    across: int
    down: int
    greys: bytes


def page_count(pdf: bytes) -> int:
    with _ONE_AT_A_TIME:
        document = pypdfium2.PdfDocument(pdf)
        try:
            return len(document)
        finally:
            document.close()


def page_pictures(pdf: bytes, dots_an_inch: float, only: int | None = None) -> Iterator[PagePicture]:
    """The pages in order, or the one numbered `only` from 0, at so many dots an inch."""
    for number in range(page_count(pdf)) if only is None else (only,):
        yield _page_picture(pdf, number, dots_an_inch / POINTS_AN_INCH)


def _page_picture(pdf: bytes, number: int, scale: float) -> PagePicture:
    with _ONE_AT_A_TIME:
        document = pypdfium2.PdfDocument(pdf)
        try:
            page = document[number]
            bitmap = page.render(scale=scale, grayscale=True)
            picture = PagePicture(bitmap.width, bitmap.height, _packed(bitmap))
            bitmap.close()
            page.close()
            return picture
        finally:
            document.close()


def _packed(bitmap: pypdfium2.PdfBitmap) -> bytes:
    """Its rows without what the renderer puts after each."""
    held = bytes(bitmap.buffer)
    if bitmap.stride == bitmap.width:
        return held[: bitmap.width * bitmap.height]
    return b"".join(
        held[row * bitmap.stride : row * bitmap.stride + bitmap.width] for row in range(bitmap.height)
    )
