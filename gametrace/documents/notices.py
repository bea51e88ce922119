"""Notices to hang on a door: one page in large type that says stop, why, whom to ring and what to do.

A notice repeats what was seen and the steps of the register; it makes no diagnosis and lifts no hold.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO

from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import FOOT_ROOM, HEAD_ROOM, MARGIN, TEXT_WIDTH, Face, PaperCanvas, draw_page
from gametrace.documents.pieces import escaped, printable
from gametrace.documents.typesetting import fitting_size, width_of
from gametrace.documents.wording import instant
from gametrace.domain.boar import what_to_do_when_positive
from gametrace.domain.examination import what_to_do_on_suspicion, whom_to_ring
from gametrace.domain.findings import rests_on
from gametrace.facts.boar import positive_steps
from gametrace.facts.examination import contact_for, steps_on_suspicion
from gametrace.facts.sources import citation
from gametrace.register.animal_file import AnimalFile
from gametrace.register.records import Larder

STOP = "STOP"
BAND_HEIGHT = 88
_SCALES = (1.0, 0.9, 0.8, 0.7, 0.62, 0.54, 0.46)
_PAGE_ROOM = A4[1] - HEAD_ROOM - FOOT_ROOM - BAND_HEIGHT - 14


@dataclass(frozen=True, slots=True)
class Notice:
    """What one notice says, top to bottom. All of it may hold whatever a person typed."""

    title: str  # 'Touch nothing of 26-00417-K'
    what: tuple[str, ...]  # the animal, where it is, what was seen
    ring: str  # whom, with the number; '' where nobody is known
    ring_standing: str
    steps: tuple[str, ...]
    source: str


def suspicion_notice(file: AnimalFile, signs: Sequence[tuple[str, str]], jurisdiction: str) -> Notice:
    """For a sign of a notifiable disease. `signs` are (disease, what was seen)."""
    contact = contact_for(jurisdiction) if jurisdiction else None
    sources = dict.fromkeys(citation(step.source) for step in steps_on_suspicion())
    return Notice(
        title=f"Touch nothing of {file.carcass.code}",
        what=(
            *_animal(file),
            *(f"A sign of {name} was seen{f': {seen}' if seen else ''}." for name, seen in signs),
            *_spoken(file, "notifiable"),
        ),
        ring=whom_to_ring(jurisdiction),
        ring_standing=rests_on(citation(contact.source), contact.status) if contact else "",
        steps=what_to_do_on_suspicion(),
        source="; ".join(sources),
    )


def positive_notice(file: AnimalFile) -> Notice:
    """For a boar whose laboratory result is positive."""
    sources = dict.fromkeys(citation(step.source) for step in positive_steps())
    reference = f", laboratory reference {file.laboratory_reference}" if file.laboratory_reference else ""
    return Notice(
        title=f"Locked: {file.carcass.code} and everything made of it",
        what=(*_animal(file), f"Trichinella: positive{reference}.", *_spoken(file, "other")),
        ring="",
        ring_standing="",
        steps=what_to_do_when_positive(),
        source="; ".join(sources),
    )


def _animal(file: AnimalFile) -> tuple[str, ...]:
    one = file.carcass
    named = ", ".join(part for part in (one.title, f"tag {one.tag}" if one.tag else "") if part)
    where = f"It is at {one.lot.where}." if one.lot.where else "It is not on a hook or shelf."
    return (f"{one.code}: {named}. From {one.supplier.name}. {where}",)


def _spoken(file: AnimalFile, about: str) -> tuple[str, ...]:
    return tuple(
        f"Rung {instant(call.at)} by {call.taken_by}: {call.spoken_by} said: {call.answer}"
        for call in file.calls
        if call.about == about
    )[-3:]


def notice_pdf(notice: Notice, larder: Larder, printed_at: datetime) -> bytes:
    """The notice as one A4 page; its type shrinks before a word is left off."""
    face = Face(notice.title, larder.name, instant(printed_at), larder.is_practice)
    buffer = BytesIO()
    canvas = PaperCanvas(buffer, pagesize=A4)
    canvas.setTitle(printable(notice.title))
    canvas.setAuthor(printable(larder.name))
    canvas.setSubject("A notice for the door")
    draw_page(canvas, face, A4)
    _band(canvas, notice.title)
    y = A4[1] - HEAD_ROOM - BAND_HEIGHT - 14
    story, heights = _fitting(notice)
    for piece, height in zip(story, heights, strict=True):
        y -= height
        piece.drawOn(canvas, MARGIN, y)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _band(canvas: PaperCanvas, title: str) -> None:
    """A black band that is read from across the yard, in colour or not."""
    top = A4[1] - HEAD_ROOM
    canvas.setFillColor(brand.BLACK)
    canvas.rect(MARGIN, top - BAND_HEIGHT, TEXT_WIDTH, BAND_HEIGHT, stroke=0, fill=1)
    canvas.setFillColor(brand.WHITE)
    canvas.setFont(brand.BOLD, 64)
    canvas.drawString(MARGIN + 14, top - 66, STOP)
    left = MARGIN + 14 + width_of(STOP, brand.BOLD, 64) + 18
    room = MARGIN + TEXT_WIDTH - 14 - left
    words = printable(title)[:120]
    size = fitting_size(words, brand.SEMIBOLD, room, 26, 7)
    canvas.setFont(brand.SEMIBOLD, size)
    canvas.drawString(left, top - 52, words)


def _fitting(notice: Notice) -> tuple[list[Flowable], list[float]]:
    """The largest type in which everything fits; at the least size the end is left off."""
    story: list[Flowable] = []
    heights: list[float] = []
    for scale in _SCALES:
        story = _story(notice, scale)
        heights = [piece.wrap(TEXT_WIDTH, _PAGE_ROOM)[1] for piece in story]
        if sum(heights) <= _PAGE_ROOM:
            return story, heights
    while sum(heights) > _PAGE_ROOM:
        story.pop()
        heights.pop()
    return story, heights


def _story(notice: Notice, scale: float) -> list[Flowable]:
    large, body = _style(20 * scale, bold=True), _style(15 * scale)
    limit = 320 if scale > _SCALES[-1] else 200
    story: list[Flowable] = [Paragraph(escaped(words, limit), body) for words in notice.what]
    if notice.ring:
        story += [Spacer(1, 10 * scale), Paragraph(f"Ring: {escaped(notice.ring)}", large)]
        if notice.ring_standing:
            story.append(Paragraph(escaped(notice.ring_standing), brand.SMALL))
    story.append(Spacer(1, 10 * scale))
    numbered = _style(17 * scale, indent=26 * scale)
    for number, step in enumerate(notice.steps, 1):
        story.append(Paragraph(escaped(step, limit), numbered, bulletText=f"{number}"))
    story.append(Spacer(1, 8 * scale))
    story.append(Paragraph(escaped(f"Rests on: {notice.source}", 600), brand.SMALL))
    return story


def _style(size: float, *, bold: bool = False, indent: float = 0) -> ParagraphStyle:
    return ParagraphStyle(
        f"notice {size:g} {bold} {indent:g}",
        fontName=brand.SEMIBOLD if bold else brand.REGULAR,
        textColor=brand.INK,
        fontSize=size,
        leading=size * 1.28,
        spaceAfter=0,
        leftIndent=indent,
        bulletFontName=brand.BOLD,
        bulletFontSize=size,
        splitLongWords=1,
    )
