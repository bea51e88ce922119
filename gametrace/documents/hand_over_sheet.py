"""One page to hand over: of one animal, one lot, one dish or one supplier. Legible in a photocopy.

What does not fit is counted and left to the register; nothing stands in colour alone.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from reportlab.platypus import Flowable, Spacer

from gametrace.documents import brand
from gametrace.documents.one_page import one_page_pdf
from gametrace.documents.pages import TEXT_WIDTH, Face
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph, ruled_tables
from gametrace.documents.trace_pieces import animals_table, balance_table, findings_list, forward_table
from gametrace.documents.visit_deliveries import delivery_pairs
from gametrace.documents.wording import NOT_STATED, counted, instant, kg_number, local_day
from gametrace.facts.traceability import law_sentence
from gametrace.register.handing_over import ANIMAL, DISH, SUPPLIER, HandOver
from gametrace.register.records import Carcass, StoryLine

_LINES = (60, 40, 30, 24, 18, 14, 10, 8, 6, 4, 2)


def hand_over_pdf(sheet: HandOver) -> bytes:
    """The sheet as one A4 page."""
    name = sheet.trace.name if sheet.sort == SUPPLIER else f"{sheet.trace.code} {sheet.trace.name}"
    face = Face(
        f"The {sheet.sort} {name}"[:80],
        sheet.larder.name,
        instant(sheet.printed_at),
        sheet.larder.is_practice,
    )
    made: dict[str, Callable[[HandOver, int], list[Flowable]]] = {ANIMAL: _animal, SUPPLIER: _supplier}
    story = partial(_whole, sheet, made.get(sheet.sort, _lot))
    return one_page_pdf(face, f"What a game larder recorded of one {sheet.sort}", story, _LINES, _foot(sheet))


def _whole(sheet: HandOver, body: Callable[[HandOver, int], list[Flowable]], most: int) -> list[Flowable]:
    return [*_head(sheet), *body(sheet, most)]


def _head(sheet: HandOver) -> list[Flowable]:
    trace, larder = sheet.trace, sheet.larder
    title = trace.name if sheet.sort == SUPPLIER else f"{trace.code}  {trace.name}"
    state = f"Now: {trace.state}" if trace.state else ""
    if trace.lot is not None and trace.lot.state_reason:
        state += f", {trace.lot.state_reason}"
    from_whom = ", ".join(filter(None, (larder.name, larder.address)))
    number = f"registration {larder.registration_number}" if larder.registration_number else ""
    pieces: list[Flowable] = [paragraph(title, brand.TITLE, 80)]
    pieces += [paragraph(state, brand.LEAD, 200)] if state else []
    return [*pieces, paragraph(", ".join(filter(None, (from_whom, number))), brand.BODY, 300), Spacer(1, 4)]


def _animal(sheet: HandOver, most: int) -> list[Flowable]:
    (one,) = sheet.deliveries
    findings = findings_list(one.findings, max(1, most // 8), 200)
    return [
        *_part("As it was received", [pairs_grid(delivery_pairs(one), TEXT_WIDTH, 5)]),
        *(_part("Found by the rules of the door", findings) if findings else []),
        *_part("Balance of its weight", balance_table(sheet.trace.balance, TEXT_WIDTH)),
        *_part("Where the rest is", forward_table(sheet.trace, TEXT_WIDTH, max(3, most // 3), most > 20)),
        *(_part("Its entries", _story(sheet.story, most // 3)) if most >= 10 else []),
    ]


def _lot(sheet: HandOver, most: int) -> list[Flowable]:
    trace = sheet.trace
    rows = [pair("Made", instant(trace.lot.made_at)), pair("Made by", trace.lot.made_by)] if trace.lot else []
    if trace.lot is not None:
        use_by = trace.lot.use_by
        rows += [
            pair("Weight made, kg", kg_number(trace.lot.grams_made)),
            pair("Weight left, kg", kg_number(trace.lot.grams)),
            pair("Use by", f"{use_by.day} {use_by:%b %Y}" if use_by else NOT_STATED),
            pair("Dated by", trace.lot.date_rule),
            pair("Kept", trace.lot.pack_state),
            pair("Where", trace.lot.where),
        ]
        rows += [pair("Portions", str(trace.lot.portions))] if sheet.sort == DISH else []
    back = [
        (paragraph(one.code, brand.CELL_STRONG, 40), one.name, kg_number(one.grams_from), one.where)
        for one in trace.back[:most]
    ]
    widths = [TEXT_WIDTH * part for part in (0.2, 0.3, 0.12, 0.38)]
    heads = ("lot", "what", "of it, kg", "now")
    return [
        *(_part("What it is", [pairs_grid(rows, TEXT_WIDTH, 5)]) if rows else []),
        *_part("The animals in it", animals_table(trace, TEXT_WIDTH, max(1, most // 4), most < 20)),
        *(_part("By way of", ruled_tables(heads, back, widths, right=(2,))) if back else []),
        *_left_off(len(trace.back) - most, "lot"),
        *(_part("Where it went", forward_table(trace, TEXT_WIDTH, most, most > 20)) if trace.forward else []),
        *_part("Its entries", _story(sheet.story, max(2, most // 2))),
    ]


def _supplier(sheet: HandOver, most: int) -> list[Flowable]:
    assert sheet.supplier is not None
    one = sheet.supplier.supplier
    rows = [
        pair("Code", one.code),
        pair("Address", one.address),
        pair("Telephone", one.phone),
        pair("Registration or approval", one.approval_number),
        pair("Does not hold any more", "; ".join(sheet.supplier.lapsed) or "nothing that is dated"),
    ]
    return [
        *_part("One step back: who supplied", [pairs_grid(rows, TEXT_WIDTH, 5)]),
        *_part("Papers kept", [paragraph(line, brand.CELL, 200) for line in sheet.supplier.papers]),
        *_part(
            "The larder's own records", [paragraph(line, brand.CELL, 200) for line in sheet.supplier.scores]
        ),
        *_part(
            f"Deliveries, the newest first: {len(sheet.deliveries):,}", _deliveries(sheet.deliveries, most)
        ),
    ]


def _deliveries(found: Sequence[Carcass], most: int) -> list[Flowable]:
    if not found:
        return [paragraph("Nothing has come from this supplier yet.", brand.BODY)]
    rows = [
        (
            local_day(c.received_at),
            paragraph(c.code, brand.CELL_STRONG, 40),
            f"{c.title}, {c.tag or 'no tag'}",
            kg_number(c.grams_received),
            c.declaration_number or "no declaration",
            c.decision,
        )
        for c in found[:most]
    ]
    widths = [TEXT_WIDTH * part for part in (0.14, 0.16, 0.28, 0.1, 0.2, 0.12)]
    heads = ("received", "number", "animal, tag", "kg", "declaration", "decision")
    return [
        *ruled_tables(heads, rows, widths, right=(3,)),
        *_left_off(len(found) - most, "delivery", "deliveries"),
    ]


def _story(lines: Sequence[StoryLine], most: int) -> list[Flowable]:
    """The first entry and the newest ones: how it began, how it stands."""
    kept = lines if len(lines) <= most else (lines[0], *lines[-(most - 1) :])
    rows = [
        (
            f"{line.seq:,}",
            markup(
                instant(line.happened_at)
                + (f"<br/>written {instant(line.written_at)}" if line.is_late else "")
            ),
            line.by,
            paragraph(line.sentence, brand.CELL, 220),
        )
        for line in kept
    ]
    widths = [TEXT_WIDTH * part for part in (0.08, 0.2, 0.08, 0.64)]
    tables = ruled_tables(("entry", "happened", "by", "what"), rows, widths, right=(0,))
    return [*tables, *_left_off(len(lines) - len(kept), "entry", "entries")]


def _left_off(count: int, one: str, many: str = "") -> list[Flowable]:
    return (
        [paragraph(f"and {counted(count, one, many)} more in the register.", brand.SMALL)]
        if count > 0
        else []
    )


def _part(words: str, pieces: Sequence[Flowable]) -> list[Flowable]:
    return [Spacer(1, 6), paragraph(words, brand.SUBHEADING), Spacer(1, 2), *pieces]


def _foot(sheet: HandOver) -> list[Flowable]:
    law = law_sentence("one-step")
    seal = f"Entry {sheet.seal.count:,} of the journal, seal {sheet.seal.head}."
    return [
        Spacer(1, 6),
        markup(
            f"{escaped(seal, 200)}<br/>{escaped(law.words, 400)} ({escaped(law.rests_on, 200)}.)", brand.SMALL
        ),
    ]
