"""A recall on paper, running or ended: what, why, what is affected and where, who was rung, what was done.

It repeats the register and judges nothing; steps name their source, and the authority goes before them.
"""

from __future__ import annotations

from datetime import datetime
from io import BytesIO

from reportlab.platypus import Flowable, PageBreak, Paragraph, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Heading, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph, ruled_tables, state_cell
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.wording import instant, kg_number
from gametrace.domain.findings import rests_on
from gametrace.register.recall_sheets import RecallSheet, StepNow
from gametrace.register.recall_texts import notice_texts
from gametrace.register.records import Larder


def recall_pdf(sheet: RecallSheet, larder: Larder, printed_at: datetime) -> bytes:
    """The whole of a recall, with the texts to send at its end."""
    title = f"Recall {sheet.code}"
    buffer = BytesIO()
    face = Face(title, larder.name, instant(printed_at), larder.is_practice)
    story: list[Flowable] = [
        Paragraph(escaped(f"{title}: {sheet.what}"), brand.TITLE),
        *_head(sheet),
        *_section("What is affected, and where it is", "affected", _affected(sheet)),
        *_section("Animals and suppliers", "animals", _animals(sheet)),
        *_section("Where it was served", "services", _services(sheet)),
        *_section("Who was told", "calls", _calls(sheet)),
        *_section("What was done", "steps", _steps(sheet)),
        PageBreak(),
        *_section("Texts to send", "texts", _texts(sheet, larder)),
    ]
    Paper(buffer, face, "What is recalled, where it is, who was told and what was done").write(story)
    return buffer.getvalue()


def _section(words: str, key: str, pieces: list[Flowable]) -> list[Flowable]:
    return [Spacer(1, 10), Heading(words, key), Spacer(1, 3), *pieces]


def _head(sheet: RecallSheet) -> list[Flowable]:
    ended = f"{instant(sheet.closed_at)}, {sheet.closed_by}" if sheet.closed_at else "still running"
    here = sum(lot.grams for lot in sheet.still_here)
    pairs = [
        pair("why", sheet.reason),
        pair("opened", f"{instant(sheet.opened_at)}, {sheet.opened_by}"),
        pair("ended", ended),
        pair("still here", f"{kg_number(here)} kg in {len(sheet.still_here)} lots"),
    ]
    pieces: list[Flowable] = [pairs_grid(pairs, TEXT_WIDTH, 4)]
    if sheet.outcome:
        pieces.append(Paragraph(f"<b>How it ended:</b> {escaped(sheet.outcome, 1_000)}", brand.BODY))
    return pieces


def _affected(sheet: RecallSheet) -> list[Flowable]:
    named = {lot.code for lot in sheet.named}
    rows = [
        (
            markup(f"<b>{escaped(lot.code, 40)}</b>{quiet(' named') if lot.code in named else ''}"),
            paragraph(f"{lot.name}, {lot.kind}"),
            state_cell(lot.state),
            paragraph(lot.where or "no place"),
            instant(lot.made_at),
            kg_number(lot.grams),
        )
        for lot in sheet.affected
    ]
    widths = [TEXT_WIDTH * part for part in (0.16, 0.23, 0.14, 0.22, 0.16, 0.09)]
    return ruled_tables(("lot", "what", "state", "where", "made", "kg now"), rows, widths, right=(5,))


def _animals(sheet: RecallSheet) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.code, 40)}</b>"),
            paragraph(f"{one.title}, tag {one.tag or 'not stated'}"),
            paragraph(f"{one.supplier.name}, {one.supplier.address}"),
            paragraph(one.declaration_number or "no number"),
        )
        for one in sheet.animals
    ]
    widths = [TEXT_WIDTH * part for part in (0.16, 0.28, 0.38, 0.18)]
    return ruled_tables(("animal", "what", "supplier", "declaration"), rows, widths)


def _services(sheet: RecallSheet) -> list[Flowable]:
    if not sheet.services:
        return [paragraph("None of it was served.", brand.BODY)]
    rows = [(one.on, paragraph(one.name), ", ".join(one.dishes), str(one.portions)) for one in sheet.services]
    widths = [TEXT_WIDTH * part for part in (0.16, 0.36, 0.36, 0.12)]
    return ruled_tables(("day", "service or class", "dishes", "portions"), rows, widths, right=(3,))


def _calls(sheet: RecallSheet) -> list[Flowable]:
    rows = [
        (instant(call.at), call.by, paragraph(call.whom), paragraph(call.answer, limit=500))
        for call in sheet.calls
    ]
    widths = [TEXT_WIDTH * part for part in (0.16, 0.08, 0.32, 0.44)]
    pieces = ruled_tables(("when", "by", "whom", "answer"), rows, widths) if rows else []
    waiting = [
        f"{one.whom} ({one.why}){f', {one.phone}' if one.phone else ''}" for one in sheet.still_to_call
    ]
    if waiting:
        pieces.append(paragraph(f"Not rung yet: {'; '.join(waiting)}.", brand.BODY, 2_000))
    return pieces or [paragraph("Nobody had to be told.", brand.BODY)]


def _steps(sheet: RecallSheet) -> list[Flowable]:
    rows = [(str(at), _step(step), _answer(step)) for at, step in enumerate(sheet.steps, 1)]
    widths = [TEXT_WIDTH * part for part in (0.05, 0.6, 0.35)]
    return ruled_tables(("", "step", "answer"), rows, widths)


def _step(step: StepNow) -> Flowable:
    source = escaped(rests_on(step.source, step.status), 300)
    return markup(f"{escaped(step.words)}<br/>{quiet(source)}")


def _answer(step: StepNow) -> Flowable:
    if step.at is None:
        return markup("<b>no answer yet</b>")
    said = f": {escaped(step.said, 500)}" if step.said else ""
    return markup(
        f"<b>{escaped(step.answer)}</b>{said}<br/>{quiet(f'{instant(step.at)}, {escaped(step.by)}')}"
    )


def _texts(sheet: RecallSheet, larder: Larder) -> list[Flowable]:
    pieces: list[Flowable] = [
        paragraph("The authority's wording, once it gives one, goes before these.", brand.BODY)
    ]
    for whom, text in notice_texts(sheet, larder).items():
        pieces += [Spacer(1, 6), paragraph(f"Notice {whom}", brand.SUBHEADING)]
        pieces += [paragraph(line, brand.BODY, 600) for line in text.splitlines() if line.strip()]
    return pieces
