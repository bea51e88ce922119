"""A finished paper as pictures of its pages, for a preview and a printer, so that both show the very paper.

Pages are made one at a time, for sheets of labels at a printer's own dots are large. Nothing here is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2

POINTS_AN_INCH = 72


@dataclass(frozen=True, slots=True)
class PagePicture:
    """One page in greys, a byte a dot, rows from the top, each row `across` bytes long."""

    across: int
    down: int
    greys: bytes


def page_count(pdf: bytes) -> int:
    document = pypdfium2.PdfDocument(pdf)
    try:
        return len(document)
    finally:
        document.close()


def page_pictures(pdf: bytes, dots_an_inch: float, only: int | None = None) -> Iterator[PagePicture]:
    """The pages in order, or the one numbered `only` from 0, at so many dots an inch."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        for number in range(len(document)) if only is None else (only,):
            page = document[number]
            bitmap = page.render(scale=dots_an_inch / POINTS_AN_INCH, grayscale=True)
            yield PagePicture(bitmap.width, bitmap.height, _packed(bitmap))
            bitmap.close()
            page.close()
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
