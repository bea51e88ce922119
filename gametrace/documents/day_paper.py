"""One day of the register on paper, as the officer's view shows it, with nothing left out."""

from __future__ import annotations

from io import BytesIO

from reportlab.platypus import CondPageBreak, Flowable, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import Face, Paper
from gametrace.documents.pieces import paragraph
from gametrace.documents.wording import instant
from gametrace.register.day_page import DayPage, title_of

NONE = "None on this day."


def day_pdf(page: DayPage) -> bytes:
    face = Face(title_of(page), page.larder.name, instant(page.printed_at), page.larder.is_practice)
    story: list[Flowable] = [paragraph(title_of(page), brand.TITLE)]
    for head, lines in page.groups:
        story += [CondPageBreak(60), paragraph(head, brand.SUBHEADING)]
        story += [paragraph(line.sentence, brand.BODY, 900) for line in lines] or [
            paragraph(NONE, brand.BODY)
        ]
    seal = f"{page.seal.count:,} entries in the journal; the seal of the last one is {page.seal.head}."
    story += [Spacer(1, 10), paragraph(seal, brand.SMALL, 200)]
    buffer = BytesIO()
    Paper(buffer, face, "What happened in a game larder on one day").write(story)
    return buffer.getvalue()
