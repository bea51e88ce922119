"""What to write on a tag by hand when the label printer is dead: the same words, the fewest that will do.

The lines are made once, for the screen and for a page from any other printer.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import paragraph
from gametrace.documents.wording import counted, instant, kg
from gametrace.register.records import LabelSheet

ADVICE = (
    "Write with a pencil or a pen that water does not take, in capitals, one line under the other, the code "
    "first and largest. Copy every sign of the code: its last one shows when another was miswritten. Put a "
    "printed label in its place as soon as there is one."
)
_FEWER = {"mix": 1, "hold": 1}  # lines besides the date; two of every other sort
_LARGE = brand.BODY.clone("by hand", fontName=brand.BOLD, fontSize=17, leading=23, spaceAfter=0)
_LARGEST = brand.BODY.clone("by hand, code", fontName=brand.BOLD, fontSize=30, leading=38, spaceAfter=0)


def hand_lines(sheet: LabelSheet) -> tuple[str, ...]:
    """Line for line, the code first; what must not be used says so second."""
    kept = [line for line in sheet.lines if line.strip()][: _FEWER.get(sheet.sort, 2)]
    frozen = f"Frozen on {sheet.frozen_on}" if sheet.frozen_on and sheet.sort in ("frozen", "thawed") else ""
    thawed = f"Defrosted {sheet.thawed_on}" if sheet.sort == "thawed" else ""
    parents = [f"of {code}: {kg(grams)}" for code, grams in sheet.parents]
    lines = [sheet.code, sheet.warning, sheet.title, frozen, thawed, sheet.date_line, *kept, *parents]
    told = dict.fromkeys(" ".join(line.split()).upper() for line in lines)
    return tuple(line for line in told if line)


def hand_pdf(sheets: Sequence[LabelSheet], printed_at: datetime) -> bytes:
    """The lines of these labels, each lot in a frame of its own, as large as a page allows."""
    buffer = BytesIO()
    first = sheets[0]
    face = Face("Labels by hand", first.larder, instant(printed_at), first.is_practice)
    story: list[Flowable] = [
        paragraph(f"What to write: {counted(len(sheets), 'label')}", brand.TITLE),
        Spacer(1, 6),
        paragraph(ADVICE, brand.LEAD, 600),
        Spacer(1, 6),
    ]
    for sheet in sheets:
        story += [KeepTogether(_framed(hand_lines(sheet))), Spacer(1, 5 * mm)]
    Paper(buffer, face, "What to write on tags while the label printer is dead").write(story)
    return buffer.getvalue()


def _framed(lines: Sequence[str]) -> list[Flowable]:
    rows = [[paragraph(line, _LARGE if at else _LARGEST, 120)] for at, line in enumerate(lines)]
    table = Table(rows, colWidths=[TEXT_WIDTH])
    table.setStyle(
        TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), 1.2, brand.BLACK),
                ("LEFTPADDING", (0, 0), (-1, -1), 10),
                ("TOPPADDING", (0, 0), (-1, -1), 1),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
            ]
        )
    )
    return [table]
