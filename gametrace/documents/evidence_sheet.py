"""A student's evidence sheet: days, animals, cuts and weights under a roster code, with a line for the tutor.

It says what the register has; it judges no work. The student's name is written by hand, if at all.
"""

from __future__ import annotations

from io import BytesIO

from reportlab.platypus import Flowable, KeepTogether, Spacer, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph, ruled_tables
from gametrace.documents.wording import counted, day, instant, kg, kg_number
from gametrace.register.small_papers import EvidenceSheet

HEADS = ("day", "animal", "what was cut", "number", "kg", "session", "written by")
_SHARES = (0.13, 0.27, 0.22, 0.14, 0.08, 0.08, 0.08)


def evidence_pdf(sheet: EvidenceSheet) -> bytes:
    buffer = BytesIO()
    face = Face(
        f"Evidence, {sheet.student}", sheet.larder.name, instant(sheet.printed_at), sheet.larder.is_practice
    )
    story: list[Flowable] = [
        markup(f"Evidence of cutting: {escaped(sheet.student, 30)}", brand.TITLE),
        Spacer(1, 8),
        pairs_grid(_head(sheet), TEXT_WIDTH, 4),
        *_lines(sheet),
        KeepTogether([Spacer(1, 10), *_statement(sheet), _signed()]),
    ]
    Paper(buffer, face, "What one student cut, by the register").write(story)
    return buffer.getvalue()


def _head(sheet: EvidenceSheet) -> list[Flowable]:
    return [
        pair("Student, by the roster's code", sheet.student),
        pair("From", day(sheet.first)),
        pair("To", day(sheet.last)),
        pair("In all", f"{counted(len(sheet.lines), 'cut')}, {kg(sheet.grams)}"),
    ]


def _lines(sheet: EvidenceSheet) -> list[Flowable]:
    if not sheet.lines:
        words = "Nothing is written down under this code on these days."
        return [Spacer(1, 8), paragraph(words, brand.BODY)]
    rows = [
        (
            day(line.on),
            "; ".join(f"{code} {name}" for code, name in line.animals),
            line.name,
            line.code,
            kg_number(line.grams),
            line.session,
            line.written_by,
        )
        for line in sheet.lines
    ]
    return [Spacer(1, 6), *ruled_tables(HEADS, rows, [TEXT_WIDTH * share for share in _SHARES], right=(4,))]


def _statement(sheet: EvidenceSheet) -> list[Flowable]:
    beasts = ", ".join(f"{code} {name}" for code, name in sheet.animals)
    words = f"{counted(len(sheet.animals), 'animal')}: {beasts}." if beasts else "No animal."
    return [
        paragraph(words, brand.BODY, 1_500),
        paragraph("I saw this work done, and it was done by the student of this code.", brand.BODY),
    ]


def _signed() -> Table:
    names = ("tutor, name", "signature", "day", "student, signature")
    table = Table([[paragraph(name, brand.SMALL) for name in names]], colWidths=[TEXT_WIDTH / 4] * 4)
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
