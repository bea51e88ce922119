"""The short lists of the visit pack: holds, refusals, corrections, late entries, suppliers, fields of law.

Every function takes records and gives pieces of a page; none of them chooses what belongs to the period.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reportlab.platypus import Flowable, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, TEXT_WIDTH_WIDE
from gametrace.documents.pieces import escaped, long_table, markup, paragraph, ruled_tables, state_cell
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.way import Way
from gametrace.documents.wording import NOT_STATED, instant, kg_number, killed, local_day
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.register.records import Amendment, Carcass, Hold, StoryLine, Supplier
from gametrace.register.visit_records import BookList, VisitSheet

FieldRow = tuple[tuple[str, str], ...]
LETTERS = "abcdefgh"


def holds_table(holds: Sequence[Hold]) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.code, 40)}</b>"),
            state_cell("on hold" if one.sort == "hold" else one.sort),
            markup(f"{escaped(one.reason)}<br/>{_by(one.placed_by, instant(one.placed_at))}"),
            _what_was_done(one),
        )
        for one in holds
    ]
    return ruled_tables(
        ("lot", "stop", "why, who, when", "what was done"), rows, _widths(0.13, 0.14, 0.35, 0.38)
    )


def _what_was_done(one: Hold) -> Flowable:
    if one.released_at is None:
        return markup("<b>Not released.</b>")
    return markup(f"{escaped(one.release_reason)}<br/>{_by(one.released_by, instant(one.released_at))}")


def _by(initials: str, when: str) -> str:
    return quiet(f"{escaped(initials, 20) or NOT_STATED}, {when}")


def refusals_table(refusals: Sequence[Carcass]) -> list[Flowable]:
    rows = [
        (
            local_day(c.received_at),
            markup(
                f"<b>{escaped(c.code, 40)}</b><br/>{escaped(c.title, 60)}, "
                f"tag {escaped(c.tag or NOT_STATED, 40)}"
            ),
            markup(f"{escaped(c.supplier.name, 80)}<br/>killed {escaped(killed(c.killed_at), 60)}"),
            kg_number(c.grams_received),
            markup(f"<b>{escaped(c.decision, 40)}</b>: {escaped(c.decision_reason or 'no reason given')}"),
            state_cell(c.lot.state, c.lot.where),
        )
        for c in refusals
    ]
    heads = ("received", "animal", "supplier", "kg", "decision and reason", "now")
    return ruled_tables(heads, rows, _widths(0.12, 0.2, 0.2, 0.08, 0.22, 0.18), right=(3,))


def amendments_table(amendments: Sequence[Amendment]) -> list[Flowable]:
    rows = [
        (
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            markup(f"<b>{escaped(one.code, 40)}</b><br/>{escaped(one.field, 60)}"),
            paragraph(one.old or NOT_STATED),
            paragraph(one.new or NOT_STATED),
            paragraph(one.reason or "filled in where it was blank"),
        )
        for one in amendments
    ]
    heads = ("when, by", "what", "old", "new", "reason")
    return ruled_tables(heads, rows, _widths(0.18, 0.18, 0.2, 0.2, 0.24))


def late_table(lines: Sequence[StoryLine]) -> list[Flowable]:
    rows = [
        (
            f"{line.seq:,}",
            instant(line.happened_at),
            instant(line.written_at),
            paragraph(line.by, brand.CELL, 20),
            paragraph(line.sentence),
        )
        for line in lines
    ]
    heads = ("entry", "happened", "written", "by", "what")
    return ruled_tables(heads, rows, _widths(0.08, 0.19, 0.19, 0.08, 0.46), right=(0,))


def suppliers_table(suppliers: Sequence[Supplier]) -> list[Flowable]:
    rows = [
        (
            markup(
                f"<b>{escaped(one.code, 20)}</b> {escaped(one.name, 120)}<br/>{escaped(one.address, 200)}"
            ),
            paragraph(one.phone or NOT_STATED, brand.CELL, 40),
            markup(
                f"{escaped(_words(ROUTES, one.route), 80)}<br/>{escaped(_words(ORIGINS, one.origin), 80)}"
            ),
            paragraph(one.approval_number or NOT_STATED, brand.CELL, 120),
            paragraph(", ".join(filter(None, (one.trained_hunter, one.certificate_number))) or NOT_STATED),
        )
        for one in suppliers
    ]
    heads = (
        "supplier",
        "telephone",
        "route, origin",
        "registration or approval",
        "trained hunter, certificate",
    )
    return ruled_tables(heads, rows, _widths(0.34, 0.13, 0.17, 0.18, 0.18))


def _words(known: dict[str, str], given: str) -> str:
    return known.get(given, given)


def eight_fields_table(deliveries: Sequence[FieldRow], words: str, way: Way) -> Iterator[Flowable]:
    """The fields in the order of the article, a row a lot, across a wide page."""
    yield paragraph(words, brand.BODY, 600)
    if not deliveries:
        yield paragraph("None in this period.", brand.BODY)
        return
    heads = [f"({letter}) {name}" for letter, (name, _) in zip(LETTERS, deliveries[0], strict=False)]
    rows = ([value or NOT_STATED for _, value in row] for row in way.over(deliveries))
    parts = (0.13, 0.1, 0.18, 0.11, 0.18, 0.11, 0.1, 0.09)
    yield from long_table(heads, rows, [TEXT_WIDTH_WIDE * part for part in parts])


def dealer_table(sheet: VisitSheet, way: Way) -> Iterator[Flowable]:
    """The four entries, whether or not the larder is in Scotland: they are a good short list anywhere."""
    where = (
        ""
        if sheet.larder.jurisdiction == "scotland"
        else "This larder is not in Scotland; shown as a plain list. "
    )
    yield paragraph(
        f"{where}When received, from whom with the address, how many carcasses of which sex, and the "
        "species where it can be told (Deer (Scotland) Act 1996, section 34, as councils summarise the "
        "prescribed form).",
        brand.BODY,
        500,
    )
    if not sheet.dealer_rows:
        yield paragraph("None in this period.", brand.BODY)
        return
    heads = [name for name, _ in sheet.dealer_rows[0]]
    rows = ([value or NOT_STATED for _, value in row] for row in way.over(sheet.dealer_rows))
    yield from long_table(heads, rows, [TEXT_WIDTH / len(heads)] * len(heads))
    yield Spacer(1, 6)


def book_table(book: BookList) -> list[Flowable]:
    """An old book's list, under what it rests on."""
    about = paragraph(book.words, brand.BODY, 900)
    if not book.rows:
        return [about, paragraph("None in this period.", brand.BODY)]
    parts = (0.14, 0.17, 0.27, 0.27, 0.15) if len(book.heads) == 5 else (0.2, 0.4, 0.2, 0.2)
    return [about, *ruled_tables(book.heads, book.rows, _widths(*parts)), Spacer(1, 6)]


def _widths(*parts: float) -> list[float]:
    return [TEXT_WIDTH * part for part in parts]
