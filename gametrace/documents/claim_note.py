"""The claim note: what was lost of one animal, by which agreed rule, with weights, dates and pictures.

It goes to the supplier. It states what was weighed and seen and what the rule comes to; it accuses nobody,
and it says nothing about whether meat may be eaten.
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from datetime import datetime
from io import BytesIO

from PIL import Image as Pixels
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Image, KeepTogether, Spacer, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph, ruled_tables
from gametrace.documents.wording import day, instant, kg, killed, pounds
from gametrace.domain.claims import claim_pence
from gametrace.domain.examination import Look
from gametrace.facts.examination import all_points
from gametrace.register.animal_file import AnimalFile, Claim
from gametrace.register.records import Larder

RULE_WORDS = {
    "none": "none agreed",
    "bought price": "weight lost at the price bought at",
    "cut price": "weight lost at the price of the cut",
    "fixed": "a fixed sum",
}
MOST_PICTURES = 12
MOST_PIXELS = 40_000_000  # a small file may unfold into more than the memory holds
PICTURE_WIDTH, PICTURE_HEIGHT = (TEXT_WIDTH - 12) / 2, 72 * mm


def claim_note_pdf(
    file: AnimalFile,
    claim: Claim,
    larder: Larder,
    pictures: Sequence[tuple[str, bytes]],
    printed_at: datetime,
) -> bytes:
    """The note of one claim. `pictures` are (what it shows, JPEG or PNG bytes)."""
    buffer = BytesIO()
    face = Face(
        f"Claim {claim.id}, {file.carcass.code}", larder.name, instant(printed_at), larder.is_practice
    )
    paper = Paper(buffer, face, "A claim against a supplier, by the rule agreed with them")
    paper.write(
        [
            *_head(file, claim, larder),
            *_section("What is claimed", _claimed(file, claim)),
            *_section("The animal as it came", [pairs_grid(_animal(file), TEXT_WIDTH, 3)]),
            *_section("What was seen", _seen(file)),
            *_pictures(pictures),
            KeepTogether(_section("The supplier's answer", [_answer()])),
        ]
    )
    return buffer.getvalue()


def _section(words: str, pieces: Sequence[Flowable]) -> list[Flowable]:
    return [paragraph(words, brand.HEADING), *pieces]


def _head(file: AnimalFile, claim: Claim, larder: Larder) -> list[Flowable]:
    one = file.carcass
    title = f"Claim {claim.id}: {escaped(one.code, 40)}, {escaped(one.title, 80)}"
    supplier = one.supplier
    parties = [
        pair("To", ", ".join(part for part in (supplier.name, supplier.address, supplier.phone) if part)),
        pair("From", ", ".join(part for part in (larder.name, larder.address) if part)),
        pair("Registered as", larder.registration_number),
        pair("Raised", instant(claim.raised_at)),
    ]
    return [markup(title, brand.TITLE), Spacer(1, 8), pairs_grid(parties, TEXT_WIDTH, 2)]


def _claimed(file: AnimalFile, claim: Claim) -> list[Flowable]:
    rows = [
        pair("Sum claimed", pounds(claim.pence)),
        pair("Weight lost", kg(claim.grams)),
        pair("Rule agreed", RULE_WORDS.get(claim.rule, claim.rule)),
        pair("How the sum is made", _sum_words(file, claim)),
        pair("Stands", _standing(claim)),
    ]
    return [pairs_grid(rows, TEXT_WIDTH, 3), pair("Why", claim.reason, 600)]


def _sum_words(file: AnimalFile, claim: Claim) -> str:
    """The working, where the price written down now is the one the claim was made with."""
    price = file.carcass.pence_per_kg
    if claim.rule == "fixed":
        return f"{pounds(claim.pence)}, whatever the weight"
    if claim.rule == "bought price" and price is not None:
        worked = claim_pence(claim.rule, grams=claim.grams, pence_per_kg=price, fixed_pence=0)
        if worked == claim.pence:
            return f"{kg(claim.grams)} at {pounds(price)} a kg"
    return f"{pounds(claim.pence)} for {kg(claim.grams)}, as worked out when it was raised"


def _standing(claim: Claim) -> str:
    parts = [claim.status]
    if claim.settled_pence is not None:
        parts.append(pounds(claim.settled_pence))
    if claim.settled_note:
        parts.append(claim.settled_note)
    return ", ".join(parts)


def _animal(file: AnimalFile) -> list[Flowable]:
    one = file.carcass
    theirs = kg(one.supplier_grams) if one.supplier_grams is not None else ""
    price = f"{pounds(one.pence_per_kg)} a kg" if one.pence_per_kg is not None else ""
    declaration = one.declaration_number or ("with no number" if one.has_declaration else "none")
    second = ": ".join(part for part in (file.second_decision, file.second_reason) if part)
    return [
        pair("Supplier's tag", one.tag),
        pair("Declaration", declaration),
        pair("Killed", killed(one.killed_at)),
        pair("Received", instant(one.received_at)),
        pair("Weight received", f"{kg(one.grams_received)}, {one.basis_words}"),
        pair("Supplier's weight", theirs),
        pair("Price", price),
        pair("Decided at the door", ": ".join(p for p in (one.decision, one.decision_reason) if p)),
        pair("Out of the skin", instant(one.dressed_at) if one.dressed_at else "still in the skin"),
        pair("Decided out of the skin", second),
        pair("Dispatched", day(one.dispatched_on)),
        pair("Origin", one.origin_words),
    ]


def _seen(file: AnimalFile) -> list[Flowable]:
    """What was not as it should be, at both looks, and the marks on the outline counted by side."""
    names = {point.id: point.name for point in all_points()}
    rows = [
        (look.stage, names.get(look.point, look.point), look.note or "not as it should be")
        for look in file.looks
        if look.answer == Look.NOT_SO
    ]
    counted: dict[tuple[str, str, str], int] = {}
    for mark in file.marks:
        key = (mark.stage, mark.side, mark.what)
        counted[key] = counted.get(key, 0) + 1
    rows += [
        (stage, f"{side} side", what if count == 1 else f"{what}, {count} places")
        for (stage, side, what), count in counted.items()
    ]
    if not rows:
        return [paragraph("Nothing was written down at a look.", brand.BODY)]
    widths = [TEXT_WIDTH * part for part in (0.18, 0.3, 0.52)]
    return ruled_tables(("when", "where", "what"), rows, widths)


def _pictures(pictures: Sequence[tuple[str, bytes]]) -> list[Flowable]:
    if not pictures:
        return []
    cells = [
        [_picture(content), paragraph(f"Picture {number}: {words}", brand.SMALL, 160)]
        for number, (words, content) in enumerate(pictures[:MOST_PICTURES], 1)
    ]
    if len(cells) % 2:
        cells.append([paragraph("", brand.SMALL)])
    table = Table([cells[at : at + 2] for at in range(0, len(cells), 2)], colWidths=[PICTURE_WIDTH + 6] * 2)
    table.setStyle(TableStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 0)]))
    left_off = len(pictures) - MOST_PICTURES
    more = [paragraph(f"{left_off} more are in the register.", brand.BODY)] if left_off > 0 else []
    return [*_section("Pictures", [table]), *more]


def _picture(content: bytes) -> Flowable:
    """The picture in its frame, or a sentence where its bytes are none that can be drawn."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            with Pixels.open(BytesIO(content)) as pixels:
                width, height = pixels.size
                if pixels.format not in ("JPEG", "PNG") or width * height > MOST_PIXELS:
                    raise ValueError("not to be drawn")
                pixels.load()
            scale = min(PICTURE_WIDTH / width, PICTURE_HEIGHT / height)
            return Image(BytesIO(content), width * scale, height * scale, hAlign="LEFT")
    except Exception:  # whatever the bytes are: a note without one picture beats no note
        return paragraph("This picture cannot be drawn here; it is in the register.", brand.BODY)


def _answer() -> Table:
    """Lines for a pen."""
    names = ("agreed   /   credited   /   refused", "sum", "name", "day and signature")
    table = Table([[paragraph(name, brand.SMALL) for name in names]], colWidths=[TEXT_WIDTH / 4] * 4)
    table.setStyle(
        TableStyle(
            [
                ("TOPPADDING", (0, 0), (-1, -1), 26),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("LINEABOVE", (0, 0), (-1, 0), 0, brand.WHITE),
                ("LINEBELOW", (0, 0), (-1, -1), 0.6, brand.LINE),
            ]
        )
    )
    return table
