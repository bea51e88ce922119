"""A dealer's old book as a plain list on paper, with what it rests on and whether anybody asks for it."""

from __future__ import annotations

from datetime import datetime
from io import BytesIO

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import pair, pairs_grid, paragraph
from gametrace.documents.visit_lists import book_table
from gametrace.documents.wording import day, instant
from gametrace.register.records import Larder
from gametrace.register.visit_records import BookList


def book_pdf(made: BookList, larder: Larder, printed_at: datetime) -> bytes:
    period = f"{day(made.first)} to {day(made.last)}"
    face = Face(f"{made.book.name}, {period}", larder.name, instant(printed_at), larder.is_practice)
    story = [
        paragraph(made.book.name, brand.TITLE, 120),
        pairs_grid(
            [
                pair("Kept by", f"{larder.name}, {larder.address}"),
                pair("Registration number", larder.registration_number),
                pair("Period, both days included", period),
                pair("Lines", f"{len(made.rows):,}"),
            ],
            TEXT_WIDTH,
            4,
        ),
        *book_table(made),
    ]
    buffer = BytesIO()
    Paper(buffer, face, "A list of game received, sold and disposed of").write(story)
    return buffer.getvalue()
