"""What was looked at, decided again, asked and claimed in a period, for the officer's paper.

Temperatures and by-products are told by `visit_rooms`; this module reads the animals and their suppliers.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.facts.examination import point
from gametrace.facts.loading import UnknownFact
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant
from gametrace.register.paper_state import calls_to_make
from gametrace.register.records import Amendment, Supplier
from gametrace.register.stories import lines
from gametrace.register.supplier_book import approval_of, lapsed, scores_of
from gametrace.register.supplier_words import paper_lines, score_lines
from gametrace.register.visit_records import CallMade, ClaimMade, DecidedAgain, Looked, SupplierFile
from gametrace.store import journal, look_carcasses, look_door, look_visit

Span = tuple[str, str]


def looks(read: Assembler, span: Span) -> tuple[Looked, ...]:
    """A line an animal and stage looked at in the period, in the order they were begun."""
    last: dict[tuple[int, str], journal.Entry] = {}
    seqs = look_visit.entries_of_kind(read.connection, "carcass.examined", *span)
    for entry in journal.entries(read.connection, seqs):
        last[entry.body["lot"], entry.body["stage"]] = entry
    lots = {lot for lot, _ in last}
    names, answered = read.lots_by_id(lots), look_door.looks_of(read.connection, lots)
    found = []
    for (lot, stage), entry in last.items():
        rows = [row for row in answered.get(lot, ()) if row.stage == stage]
        found.append(
            Looked(
                code=code_of(lot),
                title=names[lot].name,
                stage=stage,
                at=instant(entry.happened_at),
                by=read.initials(entry.by),
                as_it_should_be=sum(row.answer == "as it should be" for row in rows),
                not_so=tuple(_point(row) for row in rows if row.answer == "not so"),
                not_present=tuple(_point(row) for row in rows if row.answer == "not present"),
                not_looked_at=tuple(_point(row) for row in rows if row.answer == "not looked at"),
            )
        )
    return tuple(found)


def struck(read: Assembler, span: Span) -> tuple[Amendment, ...]:
    """What was struck in the period, put as a correction: what was written, and that it does not count."""
    seqs = look_visit.entries_of_kind(read.connection, "entry.struck", *span)
    found = tuple(journal.entries(read.connection, seqs))
    told = {line.seq: line.sentence for line in lines(read, [entry.body["seq"] for entry in found])}
    return tuple(
        Amendment(
            at=instant(entry.written_at),
            by=read.initials(entry.by),
            code=code_of(entry.body["tells"][0]) if entry.body["tells"] else "",
            field=f"entry {entry.body['seq']}",
            old=told[entry.body["seq"]].partition("] ")[2],
            new="struck: it does not count",
            reason=entry.body["reason"],
        )
        for entry in found
    )


def _point(row: Any) -> str:
    try:
        name = point(row.point).name
    except UnknownFact:  # a point that an older list held
        name = row.point.replace("-", " ")
    return f"{name}: {row.note}" if row.note else name


def decided_again(read: Assembler, span: Span) -> tuple[DecidedAgain, ...]:
    """Decisions out of the skin."""
    seqs = look_visit.entries_of_kind(read.connection, "carcass.decided", *span)
    entries = list(journal.entries(read.connection, seqs))
    names = read.lots_by_id({entry.body["lot"] for entry in entries})
    return tuple(
        DecidedAgain(
            code_of(entry.body["lot"]),
            names[entry.body["lot"]].name,
            entry.body["decision"],
            entry.body["reason"],
            instant(entry.happened_at),
            read.initials(entry.by),
        )
        for entry in entries
    )


def calls(read: Assembler, span: Span) -> tuple[CallMade, ...]:
    seqs = look_visit.entries_of_kind(read.connection, "call.recorded", *span)
    entries = list(journal.entries(read.connection, seqs))
    names = read.lots_by_id({entry.body["lot"] for entry in entries})
    return tuple(
        CallMade(
            instant(entry.happened_at),
            read.initials(entry.by),
            code_of(entry.body["lot"]),
            names[entry.body["lot"]].name,
            entry.body["about"].replace("_", " "),
            entry.body["answer"],
            entry.body["spoken_by"],
        )
        for entry in entries
    )


def not_rung(read: Assembler, lots: Sequence[int]) -> tuple[tuple[str, str], ...]:
    """What of these animals' declarations is still to be asked by telephone."""
    rung = look_door.calls_of(read.connection, lots)
    return tuple(
        (code_of(row.lot_id), ", ".join(name.replace("_", " ") for name in asked))
        for row in look_carcasses.carcass_rows(read.connection, lots)
        if (asked := calls_to_make(row, {call.about for call in rung.get(row.lot_id, ())}))
    )


def claims(read: Assembler, span: Span) -> tuple[ClaimMade, ...]:
    """Raised or settled in the period."""
    return tuple(
        ClaimMade(
            id=row.id,
            code=code_of(row.lot_id),
            title=row.name,
            supplier=read.suppliers[row.supplier].name,
            rule=row.rule,
            grams=row.grams,
            pence=row.pence,
            reason=row.reason,
            raised_at=instant(row.raised_at),
            raised_by=read.initials(row.raised_by),
            status=row.status,
            settled_pence=row.settled_pence,
            settled_at=instant(row.settled_at) if row.settled_at else None,
            settled_note=row.settled_note,
        )
        for row in look_visit.claims_between(read.connection, *span)
    )


def supplier_files(read: Assembler, suppliers: Iterable[Supplier], on: date) -> tuple[SupplierFile, ...]:
    """The approval file of each, what did not hold on a day, and its score from the larder's own records."""
    counted = scores_of(read.connection)
    found = []
    for one in suppliers:
        approval = approval_of(read.connection, one.code)
        found.append(
            SupplierFile(one, paper_lines(approval), lapsed(approval, on), score_lines(counted.get(one.code)))
        )
    return tuple(found)
