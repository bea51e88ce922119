"""The annex of the visit pack: the pictures of declarations and tags, each with where it belongs."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.platypus import Flowable, Image, KeepTogether, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH
from gametrace.documents.pieces import escaped, markup, paragraph
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.wording import instant
from gametrace.register.visit_records import Pictured

HIGHEST = 200 * mm


def annex(found: Sequence[Pictured]) -> list[Flowable]:
    pieces: list[Flowable] = []
    for one in found:
        said = markup(
            f"<b>{escaped(one.code, 40)}</b> {escaped(one.what.replace('_', ' '), 80)}<br/>"
            + quiet(f"{instant(one.at)}, {escaped(one.by, 20)}, SHA-256 {one.hash}"),
            brand.BODY,
        )
        pieces.append(KeepTogether([said, _drawn(one), Spacer(1, 6)]))
    return pieces


def _drawn(one: Pictured) -> Flowable:
    if not one.content:
        return paragraph("The bytes of this picture are not in the register any more.", brand.BODY)
    if one.media_type == "application/pdf":
        return paragraph("A PDF: it is kept in the register and printed from there.", brand.BODY)
    try:
        width, height = ImageReader(BytesIO(one.content)).getSize()
    except OSError:
        return paragraph("This picture cannot be read any more.", brand.BODY)
    share = min(TEXT_WIDTH / width, HIGHEST / height, 1.0)
    return Image(BytesIO(one.content), width * share, height * share)
