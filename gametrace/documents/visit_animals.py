"""What was looked at, decided again, asked and claimed, and the suppliers' files, in the visit pack.

Every function takes records and gives pieces of a page; 'not looked at' is printed like any other answer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from reportlab.platypus import Flowable

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH
from gametrace.documents.pieces import escaped, long_table, markup, paragraph, ruled_tables
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.visit_rooms import none_here, subhead
from gametrace.documents.way import Way
from gametrace.documents.wording import NOT_STATED, counted, instant, kg_number, pounds
from gametrace.register.records import Carcass
from gametrace.register.visit_records import (
    CallMade,
    ClaimMade,
    DecidedAgain,
    Evidence,
    Looked,
    SupplierFile,
)


def evidence_table(deliveries: Iterable[Carcass]) -> Iterator[Flowable]:
    """A line a carcass: how far its papers have come, and what is still to finish."""
    rows = (
        (
            markup(f"<b>{escaped(c.code, 40)}</b><br/>{escaped(c.title, 60)}"),
            paragraph(c.route_words, brand.CELL, 80),
            markup(f"<b>{escaped(c.evidence, 120)}</b>"),
            paragraph("; ".join(c.missing) or "nothing", brand.CELL, 500),
        )
        for c in deliveries
    )
    heads = ("carcass", "route", "papers", "still to finish")
    return long_table(heads, rows, _widths(0.2, 0.24, 0.2, 0.36))


def examinations(evidence: Evidence, way: Way) -> Iterator[Flowable]:
    yield from subhead(f"Looked at in the order of the body: {counted(len(evidence.looks), 'examination')}")
    yield from looks_table(way.over(evidence.looks)) if evidence.looks else [none_here()]
    yield from subhead("Decided again, out of the skin")
    yield from decisions_table(way.over(evidence.decided_again)) if evidence.decided_again else [none_here()]


def looks_table(looks: Iterable[Looked]) -> Iterator[Flowable]:
    rows = (
        (
            markup(f"<b>{escaped(one.code, 40)}</b><br/>{escaped(one.title, 60)}"),
            markup(f"{escaped(one.stage, 40)}<br/>{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            str(one.as_it_should_be),
            paragraph("; ".join(one.not_so) or "nothing", brand.CELL, 900),
            _unseen(one),
        )
        for one in looks
    )
    heads = ("carcass", "stage, when, by", "as it should be", "not so", "not there, not looked at")
    return long_table(heads, rows, _widths(0.15, 0.17, 0.09, 0.25, 0.34), right=(2,))


def _unseen(one: Looked) -> Flowable:
    parts = [
        f"{words}: {'; '.join(names)}"
        for words, names in (("not present", one.not_present), ("not looked at", one.not_looked_at))
        if names
    ]
    return paragraph(". ".join(parts) or "nothing", brand.CELL, 900)


def decisions_table(found: Iterable[DecidedAgain]) -> Iterator[Flowable]:
    rows = (
        (
            markup(f"<b>{escaped(one.code, 40)}</b> {escaped(one.title, 60)}"),
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            markup(f"<b>{escaped(one.decision, 40)}</b>"),
            paragraph(one.reason or "no reason given"),
        )
        for one in found
    )
    return long_table(("carcass", "when, by", "decision", "reason"), rows, _widths(0.26, 0.2, 0.14, 0.4))


def calls(evidence: Evidence) -> list[Flowable]:
    pieces = calls_table(evidence.calls) if evidence.calls else [none_here()]
    open_calls = [
        markup(f"Still to be rung about: <b>{escaped(code, 40)}</b>, {escaped(about, 200)}.", brand.BODY)
        for code, about in evidence.calls_to_make
    ]
    return [*pieces, *open_calls]


def calls_table(found: Sequence[CallMade]) -> list[Flowable]:
    rows = [
        (
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            markup(f"<b>{escaped(one.code, 40)}</b><br/>{escaped(one.title, 60)}"),
            paragraph(one.about, brand.CELL, 80),
            paragraph(one.answer),
            paragraph(one.spoken_by or NOT_STATED, brand.CELL, 80),
        )
        for one in found
    ]
    heads = ("when, taken by", "about", "asked", "the answer", "spoken by")
    return ruled_tables(heads, rows, _widths(0.19, 0.18, 0.17, 0.3, 0.16))


def claims_table(found: Sequence[ClaimMade]) -> list[Flowable]:
    rows = [
        (
            str(one.id),
            markup(
                f"<b>{escaped(one.code, 40)}</b> {escaped(one.title, 60)}<br/>{escaped(one.supplier, 80)}"
            ),
            markup(
                f"{escaped(one.reason)}<br/>"
                f"{quiet(f'{instant(one.raised_at)}, {escaped(one.raised_by, 20)}')}"
            ),
            kg_number(one.grams),
            markup(f"{pounds(one.pence)}<br/>{quiet(escaped(one.rule, 40))}"),
            _settled(one),
        )
        for one in found
    ]
    heads = ("claim", "carcass, supplier", "why, when", "kg", "asked, by rule", "what came of it")
    return ruled_tables(heads, rows, _widths(0.07, 0.24, 0.27, 0.08, 0.12, 0.22), right=(0, 3))


def _settled(one: ClaimMade) -> Flowable:
    if one.settled_at is None:
        return markup(f"<b>{escaped(one.status, 40)}</b>, no answer yet")
    paid = f", {pounds(one.settled_pence)}" if one.settled_pence is not None else ""
    note = f"<br/>{escaped(one.settled_note)}" if one.settled_note else ""
    return markup(f"<b>{escaped(one.status, 40)}</b>{paid}{note}<br/>{quiet(instant(one.settled_at))}")


def suppliers_files(found: Sequence[SupplierFile]) -> list[Flowable]:
    """Each supplier of the period: its papers, what no longer holds, what the larder's own records say."""
    rows = [
        (
            markup(f"<b>{escaped(one.supplier.code, 20)}</b><br/>{escaped(one.supplier.name, 120)}"),
            _lines(one.papers),
            markup(f"<b>{escaped('; '.join(one.lapsed))}</b>") if one.lapsed else "all that are dated hold",
            _lines(one.scores),
        )
        for one in found
    ]
    heads = ("supplier", "approval file", "no longer holds", "own records, all years")
    return ruled_tables(heads, rows, _widths(0.18, 0.34, 0.18, 0.3))


def _lines(lines: Sequence[str]) -> Flowable:
    return markup("<br/>".join(escaped(line, 200) for line in lines))


def _widths(*parts: float) -> list[float]:
    return [TEXT_WIDTH * part for part in parts]
