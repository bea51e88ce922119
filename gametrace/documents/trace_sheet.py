"""The one-page trace: what was asked, the animals behind it, where the rest is, and the balance.

One A4 page whatever was asked: the sheet is laid out ever more tightly until it fits, and says what it
folded or left to the register. The drawing and the lists show the same grams.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO

from reportlab.lib.pagesizes import A4
from reportlab.platypus import Flowable, Spacer, Table

from gametrace.documents import brand
from gametrace.documents.pages import FOOT_ROOM, HEAD_ROOM, MARGIN, TEXT_WIDTH, Face, PaperCanvas, draw_page
from gametrace.documents.pieces import escaped, markup, paragraph, printable, state_cell
from gametrace.documents.trace_graph import TraceGraph
from gametrace.documents.trace_pieces import animals_table, balance_table, findings_list, forward_table
from gametrace.documents.wording import instant
from gametrace.register.records import Larder, Trace

PAGE_ROOM = A4[1] - HEAD_ROOM - FOOT_ROOM


@dataclass(frozen=True, slots=True)
class _Tightness:
    """How much a sheet may show."""

    graph_height: float
    animals: int
    forward_lines: int
    findings: int
    finding_characters: int = 400
    are_codes_shown: bool = True
    is_short: bool = False


_TRIED = (
    _Tightness(215, 6, 40, 8),
    _Tightness(175, 6, 24, 6),
    _Tightness(150, 6, 20, 6),
    _Tightness(175, 6, 14, 6),
    _Tightness(150, 6, 12, 4),
    _Tightness(160, 6, 9, 4),
    _Tightness(160, 6, 7, 3),
    _Tightness(160, 6, 8, 4, 160, are_codes_shown=False),
    _Tightness(150, 8, 8, 3, 160, are_codes_shown=False, is_short=True),
    _Tightness(140, 5, 6, 2, 120, are_codes_shown=False, is_short=True),
    _Tightness(130, 3, 5, 1, 80, are_codes_shown=False, is_short=True),
    _Tightness(120, 1, 4, 1, 60, are_codes_shown=False, is_short=True),
)


def trace_pdf(trace: Trace, larder: Larder, printed_at: datetime) -> bytes:
    """The trace as one A4 page."""
    title = f"Trace of {trace.code}"
    face = Face(title, larder.name, instant(printed_at), larder.is_practice)
    buffer = BytesIO()
    canvas = PaperCanvas(buffer, pagesize=A4)
    canvas.setTitle(printable(title))
    canvas.setAuthor(printable(larder.name))
    canvas.setSubject("Where one lot came from, where the rest is, and what is unaccounted")
    draw_page(canvas, face, A4)
    story, heights = _fitting(trace)
    y = A4[1] - HEAD_ROOM
    for piece, height in zip(story, heights, strict=True):
        y -= height
        piece.drawOn(canvas, MARGIN, y)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _fitting(trace: Trace) -> tuple[list[Flowable], list[float]]:
    """The first layout that fits the page; the last one is cut at the foot of the page."""
    story: list[Flowable] = []
    heights: list[float] = []
    for tightness in _TRIED:
        story = _story(trace, tightness)
        heights = [piece.wrap(TEXT_WIDTH, PAGE_ROOM)[1] for piece in story]
        if sum(heights) <= PAGE_ROOM:
            return story, heights
    while sum(heights) > PAGE_ROOM:
        story.pop()
        heights.pop()
    return story, heights


def _story(trace: Trace, tightness: _Tightness) -> list[Flowable]:
    # The balance comes before the findings and the long list: if a page must be cut, it is not there.
    story = [*_asked(trace), Spacer(1, 6)]
    story += _section(
        "Where it came from", animals_table(trace, TEXT_WIDTH, tightness.animals, tightness.is_short)
    )
    story += [Spacer(1, 8), TraceGraph(trace, TEXT_WIDTH, tightness.graph_height)]
    story += _section("Balance of weight", balance_table(trace.balance, TEXT_WIDTH))
    story += _section(
        "Where the rest is",
        forward_table(trace, TEXT_WIDTH, tightness.forward_lines, tightness.are_codes_shown),
    )
    findings = findings_list(trace.findings, tightness.findings, tightness.finding_characters)
    return story + (_section("Findings", findings) if findings else [])


def _section(words: str, pieces: Sequence[Flowable]) -> list[Flowable]:
    return [Spacer(1, 8), paragraph(words, brand.SUBHEADING), Spacer(1, 2), *pieces]


def _asked(trace: Trace) -> list[Flowable]:
    """The code large; beside it what it is and how it stands."""
    what = markup(f"<b>{escaped(trace.name, 120)}</b>, {escaped(trace.kind, 40)}", brand.BODY)
    code = markup(escaped(trace.code, 60), brand.TITLE)
    head = Table(
        [[code, [what, state_cell(trace.state, trace.lot.state_reason if trace.lot else "")]]],
        colWidths=[TEXT_WIDTH * 0.36, TEXT_WIDTH * 0.64],
    )
    head.setStyle([("LEFTPADDING", (0, 0), (-1, -1), 0), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")])
    question = "Asked: where is this from, and where is the rest? Grams and shares are exact."
    return [head, paragraph(question, brand.BODY)]
