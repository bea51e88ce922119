"""The pack for a visiting officer: a period of the register on paper, ending with the journal's seal.

It shows what was recorded, in the order an officer asks, and says on its first page what it does not claim.
The sheet comes worded from the register; nothing is judged or counted here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from itertools import chain

from reportlab.platypus import CondPageBreak, Flowable, NextPageTemplate, PageBreak, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, UPRIGHT, WIDE, Contents, Face, Heading, Paper
from gametrace.documents.pieces import markup, pair, pairs_grid, paragraph
from gametrace.documents.trace_graph import TraceGraph
from gametrace.documents.trace_pieces import animals_table, balance_table, findings_list, forward_table
from gametrace.documents.visit_animals import (
    calls,
    claims_table,
    evidence_table,
    examinations,
    suppliers_files,
)
from gametrace.documents.visit_deliveries import at_a_glance, delivery_block
from gametrace.documents.visit_lists import (
    amendments_table,
    book_table,
    dealer_table,
    eight_fields_table,
    holds_table,
    late_table,
    refusals_table,
    suppliers_table,
)
from gametrace.documents.visit_making import dates, drills_table, production, ready_tables
from gametrace.documents.visit_pictures import annex
from gametrace.documents.visit_rooms import by_products, excursions, failures_table, subhead, temperatures
from gametrace.documents.way import Progress, Way
from gametrace.documents.wording import counted, day, instant
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.traceability import law_sentence, law_sentences
from gametrace.register.records import Larder, Seal, Trace
from gametrace.register.visit_records import VisitSheet

Section = tuple[str, str, Iterable[Flowable]]  # title, bookmark, pieces
_BLOCK_LINES = 8  # of a list are about as much work as one delivery with every field

# Points. A section begins on a page that holds its beginning: a whole delivery, the animals and the drawing.
_WIDE = ("supplied", "eight")
_ROOM_NEEDED = {"deliveries": 420, "back": 460, "forward": 460}
COVER_LAW = ("one-step", "caterers", "inside", "no-hours")
HOLDS_WORDS = (
    "This pack holds what the larder recorded about each delivery in the period: the papers that came with "
    "it, what was measured, looked at and decided, how warm the stores were and when nobody measured, holds "
    "and refusals and what was done, what was taken away, what was asked of suppliers, corrections with the "
    "old value beside the new, and two worked traces.",
    "'Not stated' and 'can't read' are answers: the register does not fill in what a paper leaves open. A "
    "late entry shows both when it happened and when it was written.",
)
CLAIMS_WORDS = (
    "It does not say that any meat is safe. That is for the kitchen's own food safety plan, a vet, and the "
    "local authority.",
    "Rules named in findings are shown with their source and how well it was seen; where the local authority "
    "reads a rule otherwise, its reading stands.",
)

SUPPLIED_WORDS = "What left for another business in the period. {words} ({rests_on}.)"
RECEIVED_WORDS = (
    "The same eight fields as far as the papers that came with each delivery state them. They are the "
    "supplier's to give; what is not stated here was not on the paper."
)
SEAL_WORDS = (
    "Every act was written once, as an entry of the journal, and never changed. Each entry is sealed "
    "together with the seal of the one before it, so the last seal fixes them all: change one letter of any "
    "entry, and every seal from there on comes out otherwise.",
    "Anyone can compute it again. An entry is one text of canonical JSON (RFC 8785) with the fields seq, "
    "kind, version, happened_at, written_at, by, key, body and previous. 'previous' is the seal of the "
    "entry before, 64 noughts for the first. The seal is the SHA-256 of that text in UTF-8, written in "
    "hexadecimal.",
    "The command 'gametrace check' does this for the whole journal, and also plays the entries into fresh "
    "tables and compares them with the ones in use. A register whose entry of the number below has the seal "
    "below is the one this was printed from, unaltered up to there.",
)


def visit_pdf(sheet: VisitSheet, progress: Progress | None = None) -> bytes:
    """The whole pack. `progress(done, of)` is told while a long one is laid out; raising there ends it."""
    period = f"{day(sheet.first_day)} to {day(sheet.last_day)}"
    face = Face(
        f"Record for a visit, {period}",
        sheet.larder.name,
        instant(sheet.printed_at),
        sheet.larder.is_practice,
    )
    buffer = BytesIO()
    paper = Paper(
        buffer, face, "Deliveries, holds, refusals, corrections, suppliers and traces of a game larder"
    )
    way = Way(progress, _length(sheet))
    sections = _sections(sheet, way)
    contents = _cover(sheet, period, [(words, key) for words, key, _ in sections])
    paper.write(chain(contents, _one_after_another(sections)))
    way.end()
    return buffer.getvalue()


def _length(sheet: VisitSheet) -> int:
    """How many lines of long lists there are: what the way through the paper is counted in."""
    making, evidence = sheet.making, sheet.evidence
    lists = (sheet.eight_fields, sheet.dealer_rows, making.supplied, making.broken, making.mixed,
             making.dishes, evidence.looks, evidence.decided_again)  # fmt: skip
    return (_BLOCK_LINES + 2) * len(sheet.deliveries) + sum(map(len, lists))


def _one_after_another(sections: Sequence[Section]) -> Iterator[Flowable]:
    """The fields of the regulation need the width; every other section stands upright."""
    is_wide = False
    for words, key, pieces in sections:
        if (key in _WIDE) is not is_wide:
            is_wide = key in _WIDE
            yield NextPageTemplate(WIDE if is_wide else UPRIGHT)
            yield PageBreak()
        yield CondPageBreak(_ROOM_NEEDED.get(key, 110))
        yield Heading(words, key)
        yield from pieces


def _sections(sheet: VisitSheet, way: Way) -> list[Section]:
    """Title, bookmark and pieces of each section, in the order an officer asks."""
    count = counted(len(sheet.deliveries), "delivery", "deliveries")
    evidence = sheet.evidence
    details = (delivery_block(one) for one in way.over(sheet.deliveries, _BLOCK_LINES))
    return [
        ("What an officer would find", "ready", ready_tables(sheet.ready)),
        (
            f"Deliveries at a glance: {count}",
            "glance",
            _or_none(at_a_glance(way.over(sheet.deliveries)), sheet.deliveries),
        ),
        ("Deliveries, every declared field", "deliveries", _or_none(details, sheet.deliveries)),
        (
            "Papers of each carcass: complete, missing, lawfully absent",
            "papers",
            _or_none(evidence_table(way.over(sheet.deliveries)), sheet.deliveries),
        ),
        ("Examinations and second decisions", "looks", examinations(evidence, way)),
        ("Temperatures of the stores", "temperatures", temperatures(evidence)),
        ("Too warm, or nobody measured", "excursions", excursions(evidence.warmth)),
        ("Stores that failed", "failures", _or_none(failures_table(evidence.failures), evidence.failures)),
        ("Holds, and what was done", "holds", _or_none(holds_table(sheet.holds), sheet.holds)),
        ("Made: break-downs, mixes, dishes", "made", production(sheet.making, way)),
        ("Dates, and dates set otherwise", "dates", dates(sheet.making.dates, sheet.amendments)),
        ("Refusals", "refusals", _or_none(refusals_table(sheet.refusals), sheet.refusals)),
        ("By-products and bins", "bins", by_products(evidence)),
        ("Calls to suppliers", "calls", calls(evidence)),
        ("Claims on suppliers", "claims", _or_none(claims_table(evidence.claims), evidence.claims)),
        ("Corrections", "corrections", _or_none(amendments_table(sheet.amendments), sheet.amendments)),
        ("Late entries", "late", _or_none(late_table(sheet.late_entries), sheet.late_entries)),
        ("Suppliers", "suppliers", _or_none(_suppliers(sheet), sheet.suppliers)),
        ("Drills", "drills", _or_none(drills_table(sheet.making.drills), sheet.making.drills)),
        (
            f"Supplied to other businesses: {counted(len(sheet.making.supplied), 'lot')}",
            "supplied",
            eight_fields_table(sheet.making.supplied, _supplied_words(), way),
        ),
        (
            "Received: Regulation 931/2011, article 3, the eight fields",
            "eight",
            eight_fields_table(sheet.eight_fields, RECEIVED_WORDS, way),
        ),
        ("Venison received, as a Scottish dealer's book asks", "dealer", dealer_table(sheet, way)),
        *([(sheet.book.book.name, "book", book_table(sheet.book))] if sheet.book else []),
        *_trace_section("A worked trace back", "back", sheet.trace),
        *_trace_section("A worked trace forward", "forward", sheet.animal_trace),
        ("The journal's seal", "seal", _seal(sheet.seal)),
        *_annex(sheet),
    ]


def _supplied_words() -> str:
    held = law_sentence("eight-fields")
    return SUPPLIED_WORDS.format(words=held.words, rests_on=held.rests_on)


def _annex(sheet: VisitSheet) -> list[Section]:
    if sheet.pictures is None:
        return []
    words = f"Annex: pictures of papers and tags, {len(sheet.pictures)}"
    return [(words, "annex", _or_none(annex(sheet.pictures), sheet.pictures))]


def _suppliers(sheet: VisitSheet) -> list[Flowable]:
    files = sheet.evidence.suppliers
    book = suppliers_table(sheet.suppliers)
    return [*book, *subhead("Approval files and own records"), *suppliers_files(files)] if files else book


def _or_none(pieces: Iterable[Flowable], held: object) -> Iterable[Flowable]:
    """An empty section says so: an officer must see that it was asked and is empty."""
    return pieces if held else [paragraph("None in this period.", brand.BODY)]


def _cover(sheet: VisitSheet, period: str, contents: list[tuple[str, str]]) -> list[Flowable]:
    larder = sheet.larder
    story: list[Flowable] = [
        paragraph(larder.name or "A larder without a name yet", brand.TITLE, 120),
        paragraph(f"Record for a visit · {period}", brand.LEAD),
        Spacer(1, 8),
        pairs_grid(_premises(larder, period), TEXT_WIDTH, 4),
    ]
    law = [f"{one.words} ({one.rests_on}.)" for one in law_sentences() if one.id in COVER_LAW]
    for heading, sentences, style in (
        ("What this holds", HOLDS_WORDS, brand.BODY),
        ("What it does not claim", CLAIMS_WORDS, brand.BODY),
        ("What the law asks, as far as it was read; the authority's word stands above it", law, brand.SMALL),
    ):
        story.append(paragraph(heading, brand.SUBHEADING))
        story += [paragraph(sentence, style, 600) for sentence in sentences]
    if larder.is_practice:
        words = "This is a practice register: its animals, people and places are invented. It is no evidence."
        story.append(markup(f"<b>{words}</b>", brand.BODY))
    story += [paragraph(note, brand.BODY) for note in sheet.notes[:12]]
    listed = Contents(contents, TEXT_WIDTH)
    heading = paragraph("Contents", brand.SUBHEADING)
    return [*story, CondPageBreak(listed.height + 40), heading, listed, PageBreak()]


def _premises(larder: Larder, period: str) -> list[Flowable]:
    return [
        pair("Premises", larder.address),
        pair("Registration number", larder.registration_number),
        pair("Jurisdiction", JURISDICTIONS.get(larder.jurisdiction, larder.jurisdiction)),
        pair("Period", period),
    ]


def _trace_section(title: str, key: str, trace: Trace | None) -> list[Section]:
    if trace is None:
        return [(title, key, [paragraph("No lot was chosen for it.", brand.BODY)])]
    named = f"{title}: {trace.code} {trace.name}"
    pieces: list[Flowable] = [
        *_part("Where it came from", animals_table(trace, TEXT_WIDTH)),
        Spacer(1, 8),
        TraceGraph(trace, TEXT_WIDTH, 190),
        *_part("Balance of weight", balance_table(trace.balance, TEXT_WIDTH)),
        *_part("Where the rest is", forward_table(trace, TEXT_WIDTH)),
        *(_part("Findings", findings_list(trace.findings)) if trace.findings else []),
    ]
    return [(named, key, pieces)]


def _part(words: str, pieces: list[Flowable]) -> list[Flowable]:
    """A heading with room for at least its first rows; the table may go on over the page."""
    return [CondPageBreak(75), paragraph(words, brand.SUBHEADING), *pieces]


def _seal(seal: Seal) -> list[Flowable]:
    return [
        *(paragraph(sentence, brand.BODY, 900) for sentence in SEAL_WORDS),
        Spacer(1, 4),
        pairs_grid([pair("Entries in the journal", f"{seal.count:,}")], TEXT_WIDTH, 1),
        pairs_grid([pair("Seal of the last entry", seal.head or "no entry yet")], TEXT_WIDTH, 1),
    ]
