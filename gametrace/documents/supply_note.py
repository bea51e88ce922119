"""The supply note: what left for another business, with the eight fields the law asks for, a block a lot.

Regulation (EU) 931/2011, Article 3(1)(a) to (h), in its own order. One copy goes with the meat, one stays.
It states what was written down; it says nothing about whether meat may be eaten.
"""

from __future__ import annotations

from datetime import datetime
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph
from gametrace.documents.wording import counted, day, instant, kg
from gametrace.register.plate_records import Supply, SupplyNote
from gametrace.register.records import Larder

LETTERS = "abcdefgh"
_LAW = (
    "The fields (a) to (h) are those of Regulation (EU) No 931/2011, Article 3(1). They are kept at least "
    "until the food may reasonably be taken as eaten."
)


def supply_note_pdf(note: SupplyNote, larder: Larder, printed_at: datetime) -> bytes:
    """The note of one consignment, every lot with its own eight fields."""
    buffer = BytesIO()
    face = Face(f"Supply note {note.reference}", larder.name, instant(printed_at), larder.is_practice)
    paper = Paper(buffer, face, "Food of animal origin supplied to another business")
    paper.write(
        [
            *_head(note, larder),
            *[KeepTogether(_block(supply)) for supply in note.supplies],
            Spacer(1, 6 * mm),
            KeepTogether([_received(), Spacer(1, 4 * mm), paragraph(_LAW, brand.SMALL, 400)]),
        ]
    )
    return buffer.getvalue()


def _head(note: SupplyNote, larder: Larder) -> list[Flowable]:
    first = note.supplies[0]
    customer = first.customer
    total = kg(sum(one.grams for one in note.supplies))
    facts = [
        pair("From", ", ".join(part for part in (larder.name, larder.address) if part)),
        pair("To", ", ".join(part for part in (customer.name, customer.address, customer.phone) if part)),
        pair("Registered as", larder.registration_number),
        pair("Their registration", customer.registration),
        pair("Dispatched", day(first.dispatched_on)),
        pair("In all", f"{counted(len(note.supplies), 'lot')}, {total}"),
    ]
    title = f"Supply note {escaped(note.reference, 40)}"
    return [markup(title, brand.TITLE), Spacer(1, 8), pairs_grid(facts, TEXT_WIDTH, 2), Spacer(1, 8)]


def _block(supply: Supply) -> list[Flowable]:
    rows = [
        [
            paragraph(f"({letter})", brand.CELL),
            paragraph(f"{name[:1].upper()}{name[1:]}", brand.SMALL),
            paragraph(value, brand.CELL, 600),
        ]
        for letter, (name, value) in zip(LETTERS, supply.fields, strict=True)
    ]
    table = Table(rows, colWidths=[TEXT_WIDTH * part for part in (0.06, 0.3, 0.64)])
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
                ("LINEBELOW", (0, 0), (-1, -1), 0.3, brand.LINE),
            ]
        )
    )
    return [paragraph(f"Lot {supply.code}", brand.HEADING), table, Spacer(1, 10)]


def _received() -> Table:
    """Lines for a pen, by whoever takes it."""
    names = ("received by, printed name", "temperature on arrival", "day, time and signature")
    table = Table([[paragraph(name, brand.SMALL) for name in names]], colWidths=[TEXT_WIDTH / 3] * 3)
    table.setStyle(
        TableStyle(
            [
                ("TOPPADDING", (0, 0), (-1, -1), 26),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("LINEBELOW", (0, 0), (-1, -1), 0.6, brand.LINE),
            ]
        )
    )
    return table
