"""What was made, dated, served, supplied and practised in a period, for the officer's paper.

Supplies and drills are read from the entries that tell of them: the paper fills as soon as they are written.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from gametrace.domain.codes import code_of
from gametrace.domain.lots import LotKind
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.assembling import FORGOTTEN, Assembler
from gametrace.register.clock import instant, iso_day_text
from gametrace.register.visit_records import (
    BrokenDown,
    DatesGiven,
    Dished,
    Drilled,
    Making,
    Mixed,
    Pictured,
)
from gametrace.store import attachments, journal, look_visit

Span = tuple[str, str]
Fields = tuple[tuple[str, str], ...]
EIGHT = (
    "description of the food",
    "quantity",
    "dispatched from, name and address",
    "consignor or owner, if different",
    "dispatched to, name and address",
    "consignee or owner, if different",
    "lot, batch or consignment reference",
    "date of dispatch",
)
SAME = "the same"
_MEAT = (LotKind.PART, LotKind.PACK, LotKind.MIX, LotKind.DISH)
_OFF = (LotKind.BY_PRODUCT, LotKind.WASTE)


def making(read: Assembler, span: Span, first: date, last: date) -> Making:
    return Making(
        mixed=mixes(read, span),
        broken=break_downs(read, span),
        dates=dates(read, span),
        dishes=dishes(read, first, last),
        supplied=supplies(read, span),
        drills=drills(read, span),
    )


def mixes(read: Assembler, span: Span) -> tuple[Mixed, ...]:
    """Everything mixed of several lots, with its parents and the grams each gave."""
    parts = defaultdict(list)
    rows = {}
    for row in look_visit.made_of_several(read.connection, LotKind.MIX, *span):
        rows[row.id] = row
        parts[row.id].append((code_of(row.parent), row.parent_name, row.grams))
    return tuple(
        Mixed(
            code_of(lot),
            row.name,
            instant(row.made_at),
            read.initials(row.made_by),
            tuple(parts[lot]),
            row.grams_made,
            row.unaccounted,
            date.fromisoformat(row.use_by) if row.use_by else None,
        )
        for lot, row in rows.items()
    )


def break_downs(read: Assembler, span: Span) -> tuple[BrokenDown, ...]:
    """Every break-down closed in the period: what went in, what came of it, what was never found."""
    rows = look_visit.closed_between(read.connection, *span)
    came: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for one in look_visit.came_of(read.connection, [row.id for row in rows]):
        came[one.parent][one.kind] += one.grams
    reasons = {
        entry.seq: entry.body["reason"] for entry in journal.entries(read.connection, [r.seq for r in rows])
    }
    return tuple(
        BrokenDown(
            code_of(row.id),
            row.name,
            instant(row.happened_at),
            read.initials(row.person),
            row.grams_in,
            sum(grams for kind, grams in came[row.id].items() if kind in _MEAT),
            sum(grams for kind, grams in came[row.id].items() if kind in _OFF),
            sum(grams for kind, grams in came[row.id].items() if kind not in (*_MEAT, *_OFF)),
            row.unaccounted,
            reasons[row.seq],
        )
        for row in rows
    )


def dates(read: Assembler, span: Span) -> tuple[DatesGiven, ...]:
    return tuple(
        DatesGiven(
            row.date_rule,
            row.pack_state.replace("-", " "),
            row.lots,
            date.fromisoformat(row.earliest),
            date.fromisoformat(row.latest),
        )
        for row in look_visit.dates_given(read.connection, *span)
    )


def dishes(read: Assembler, first: date, last: date) -> tuple[Dished, ...]:
    return tuple(
        Dished(
            code_of(row.lot_id),
            row.name,
            date.fromisoformat(row.on_day),
            f"{row.occasion_kind} {row.occasion}",
            row.portions,
            row.grams_made,
        )
        for row in look_visit.dishes_on(read.connection, first.isoformat(), last.isoformat())
    )


@dataclass(frozen=True, slots=True)
class SuppliedLot:
    """One lot that left for another business, with its eight fields."""

    code: str
    on: date
    fields: Fields


def supplies(read: Assembler, span: Span) -> tuple[Fields, ...]:
    """Regulation (EU) 931/2011, Article 3(1), (a) to (h), for every lot that left for another business."""
    return tuple(one.fields for one in supplied_lots(read, span))


def supplied_lots(read: Assembler, span: Span) -> tuple[SuppliedLot, ...]:
    found = []
    seqs = look_visit.entries_of_kind(read.connection, "lots.supplied", *span)
    for entry in journal.entries(read.connection, seqs):
        body = entry.body
        card = read.cards.get(body["customer"], {"name": FORGOTTEN})
        customer = ", ".join(filter(None, (card.get("name", ""), card.get("address", ""))))
        for output in body["outputs"]:
            code = code_of(output["lot"])
            values = (
                output["description"],
                kg_to_the_gram(output["grams"]),
                body["from_words"],
                body["owner_before"] or SAME,
                customer,
                body["owner_after"] or SAME,
                f"{code}, out of {code_of(output['parent'])}",
                iso_day_text(body["dispatched_on"]),
            )
            fields = tuple(zip(EIGHT, values, strict=True))
            found.append(SuppliedLot(code, date.fromisoformat(body["dispatched_on"]), fields))
    return tuple(found)


def drills(read: Assembler, span: Span) -> tuple[Drilled, ...]:
    seqs = look_visit.entries_of_kind(read.connection, "drill.ended", *span)
    return tuple(
        Drilled(
            entry.body["drill"],
            instant(entry.happened_at),
            read.initials(entry.by),
            entry.body["seconds"],
            len(entry.body["asked"]),
            len(entry.body["found"]),
            entry.body["received_grams"],
            entry.body["unaccounted_grams"],
            entry.body["note"],
        )
        for entry in journal.entries(read.connection, seqs)
    )


def pictures(read: Assembler, lots: Iterable[int]) -> tuple[Pictured, ...]:
    """The pictures of these animals' papers and tags, bytes and all."""
    found = []
    for row in look_visit.pictures_of(read.connection, lots):
        kept = attachments.content_of(read.connection, row.hash)
        media_type, content = kept or (row.media_type, b"")
        found.append(
            Pictured(
                code_of(row.lot_id),
                row.what,
                instant(row.happened_at),
                read.initials(row.person),
                row.hash,
                media_type,
                content,
            )
        )
    return tuple(found)
