"""The cutting sheet: to weigh and write on with a pencil when there is no computer, and to key in later.

What the register knows already is filled in; every other line waits for a hand.
"""

from __future__ import annotations

from io import BytesIO

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph
from gametrace.documents.wording import day, instant, kg, kg_number
from gametrace.register.small_papers import CuttingSheet

HEADS = ("tray", "what it is", "state", "kg", "cut by (code)", "time", "number in the register")
_SHARES = (0.07, 0.29, 0.14, 0.12, 0.13, 0.09, 0.16)
LINE = 6.2 * mm  # a line a hand writes on
SPARE_LINES = 4
HOW = (
    "Tape a number on each tray and write it here with the weight. Key the trays in later, in this order, "
    "with the day and time they were weighed; the register then gives each its own number, which goes on its "
    "label. Keep this sheet until that is done and the tutor has signed."
)
_RULED = TableStyle(
    [
        ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ("LINEBELOW", (0, 0), (-1, 0), 0.9, brand.INK),
        ("LINEBELOW", (0, 1), (-1, -1), 0.5, brand.LINE),
        ("LINEAFTER", (0, 0), (-2, -1), 0.3, brand.LINE),
    ]
)


def cutting_pdf(sheet: CuttingSheet) -> bytes:
    """The sheet of one lot, or an empty one for a kind of animal."""
    buffer = BytesIO()
    of = sheet.lot.code if sheet.lot else sheet.species
    face = Face(
        f"Cutting sheet, {of}", sheet.larder.name, instant(sheet.printed_at), sheet.larder.is_practice
    )
    story: list[Flowable] = [
        markup(f"Cutting sheet: {escaped(of, 60)}", brand.TITLE),
        Spacer(1, 6),
        pairs_grid(_head(sheet), TEXT_WIDTH, 4),
        Spacer(1, 4),
        _trays(sheet),
        KeepTogether([Spacer(1, 8), _sums(sheet), Spacer(1, 6), paragraph(HOW, brand.BODY, 600), _signed()]),
    ]
    Paper(buffer, face, "Weights of a break-down, by hand").write(story)
    return buffer.getvalue()


def _head(sheet: CuttingSheet) -> list[Flowable]:
    """What is not known is a line to write on."""
    lot, animal = sheet.lot, sheet.animal
    name = lot.name if lot else sheet.species
    killed = day(animal.killed_on) if animal and animal.killed_on else ""
    known = [
        ("Number of the animal or joint", lot.code if lot else ""),
        ("What it is", name),
        ("Tag", animal.tag if animal else ""),
        ("Killed", killed),
        ("Weight in, kg", kg(lot.grams_made) if lot else ""),
        ("Day", ""),
        ("Group", ""),
        ("Tutor", ""),
        ("Table", ""),
        ("Scale", ""),
        ("Begun at", ""),
        ("Ended at", ""),
    ]
    return [pair(title, value) if value else _blank(title) for title, value in known]


def _blank(title: str) -> Flowable:
    cells = [[paragraph(title, brand.SMALL)], [""]]
    table = Table(cells, colWidths=[TEXT_WIDTH / 4 - 12], rowHeights=[10, 14])
    table.setStyle(
        TableStyle(
            [
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                ("LINEBELOW", (0, 1), (-1, 1), 0.5, brand.LINE),
            ]
        )
    )
    table.hAlign = "LEFT"
    return table


def _trays(sheet: CuttingSheet) -> Table:
    rows = [[paragraph(head, brand.HEAD) for head in HEADS]]
    number = 0
    for tray in sheet.trays:
        number += 1
        time = instant(tray.at).rpartition(", ")[2]
        known = (str(number), tray.name, "", kg_number(tray.grams))
        rest = (tray.cutter, time, tray.code)
        rows.append([paragraph(words, brand.CELL) for words in (*known, *rest)])
    for name in (*sheet.waiting, *[""] * SPARE_LINES):
        number += 1
        rows.append([paragraph(words, brand.CELL) for words in (str(number), name, "", "", "", "", "")])
    table = Table(
        rows,
        colWidths=[TEXT_WIDTH * share for share in _SHARES],
        rowHeights=[None, *[LINE] * (len(rows) - 1)],
        repeatRows=1,
    )
    table.setStyle(_RULED)
    return table


def _sums(sheet: CuttingSheet) -> Table:
    """The balance, worked by hand where the register has not."""
    lot = sheet.lot
    weighed = sum(tray.grams for tray in sheet.trays)
    missing = sheet.unweighed_grams + sheet.unaccounted_grams
    is_done = lot is not None and not sheet.waiting
    known = [
        ("weight in", kg(lot.grams_made) if lot else ""),
        ("all trays", kg(weighed) if is_done else ""),
        ("dried since", ""),
        (
            "not weighed",
            kg(missing) if is_done else "",
        ),
        ("why", ""),
    ]
    cells = [
        [paragraph(name, brand.SMALL) for name, _ in known],
        [paragraph(v, brand.CELL) for _, v in known],
    ]
    table = Table(cells, colWidths=[TEXT_WIDTH * share for share in (0.17, 0.17, 0.17, 0.17, 0.32)])
    table.setStyle(
        TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), 0.8, brand.INK),
                ("LINEAFTER", (0, 0), (-2, -1), 0.3, brand.LINE),
                ("TOPPADDING", (0, 1), (-1, 1), 8),
            ]
        )
    )
    return table


def _signed() -> Table:
    names = ("weighed by", "tutor", "keyed in by", "day and time keyed in")
    table = Table([[paragraph(name, brand.SMALL) for name in names]], colWidths=[TEXT_WIDTH / 4] * 4)
    table.setStyle(
        TableStyle(
            [
                ("TOPPADDING", (0, 0), (-1, -1), 22),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("LINEBELOW", (0, 0), (-1, -1), 0.6, brand.LINE),
            ]
        )
    )
    return table
