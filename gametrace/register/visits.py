"""What the officer is shown for a period, worded here so that the paper only has to be drawn."""

from __future__ import annotations

from datetime import date, timedelta

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register import visit_evidence, visit_making, visit_rooms
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, instant, wall_day, wall_instant
from gametrace.register.lists import span
from gametrace.register.old_books import RECEIVED_HEADS, book_list, books_for, received_row
from gametrace.register.opening import Register
from gametrace.register.readiness import readiness
from gametrace.register.records import Amendment, Carcass, Larder, Seal
from gametrace.register.stories import LATE_SECONDS, lines
from gametrace.register.tracing import trace
from gametrace.register.visit_records import Evidence, VisitSheet
from gametrace.store import journal, look_carcasses, look_lots

_MOST_DELIVERIES = 100_000

Fields = tuple[tuple[str, str], ...]


def visit_sheet(
    register: Register, *, first: date, last: date, lot: str = "", with_pictures: bool = False
) -> VisitSheet:
    """Everything of a period (both days included), with a trace back and forth for a chosen lot.

    Without a chosen lot the newest dish of the period is traced, or nothing where there is none. The pictures
    of declarations and tags come with it only when asked for.
    """
    if last < first:
        raise Refusal("The period ends before it begins.", "Swap the two dates.", "last")
    start, end = span(first, last)
    ready = readiness(register, first, min(last, register.today())) if first <= register.today() else ()
    warm, weeks = visit_rooms.warm_times(register, first, last), visit_rooms.weeks(register, first, last)
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = look_carcasses.received_between(connection, start, end, _MOST_DELIVERIES)
        deliveries = read.carcasses(found[::-1])
        holds = tuple(read.hold(row) for row in look_carcasses.holds_between(connection, start, end))
        amendments = tuple(
            Amendment(
                at=instant(row.written_at),
                by=read.initials(row.person),
                code=code_of(row.lot_id),
                field=row.field.replace("_", " "),
                old=_weight(row.field, row.old),
                new=_weight(row.field, row.new),
                reason=row.reason,
            )
            for row in look_carcasses.amendments_between(connection, start, end)
        )
        amendments += visit_evidence.struck(read, (start, end))
        late = lines(read, look_carcasses.late_between(connection, start, end, LATE_SECONDS))
        used = {one.supplier.code for one in deliveries}
        suppliers = tuple(one for one in read.suppliers.values() if one.code in used)
        larder = read.larder()
        head = Seal(*journal.head_of(connection))
        made = visit_making.making(read, (start, end), first, last)
        pictures = visit_making.pictures(read, found) if with_pictures else None
        newest = look_lots.newest_dish(connection, start, end)
        evidence = Evidence(
            looks=visit_evidence.looks(read, (start, end)),
            decided_again=visit_evidence.decided_again(read, (start, end)),
            covers=visit_rooms.covers(
                read, wall_instant(first, 0), wall_instant(last + timedelta(days=1), 0), (start, end), warm
            ),
            rounds=visit_rooms.rounds(read, (start, end)),
            warmth=visit_rooms.warmth(warm),
            probes=visit_rooms.probes_checked(read, (start, end)),
            failures=visit_rooms.failures(read, (start, end)),
            collections=visit_rooms.collections(read, first, last),
            weeks=weeks,
            bins_waiting=visit_rooms.bins_waiting(read),
            suppliers=visit_evidence.supplier_files(read, suppliers, min(last, register.today())),
            calls=visit_evidence.calls(read, (start, end)),
            calls_to_make=visit_evidence.not_rung(read, found),
            claims=visit_evidence.claims(read, (start, end)),
        )
    own = books_for(larder.jurisdiction)[0]
    book = (
        book_list(register, own.id, first=first, last=last)
        if len(own.sorts) > 1 and own.holds_on(first)
        else None
    )
    chosen = lot or (code_of(newest) if newest is not None else "")
    one_trace = trace(register, chosen) if chosen else None
    animal = trace(register, one_trace.animals[0].code) if one_trace and one_trace.animals else None
    return VisitSheet(
        larder=larder,
        first_day=first,
        last_day=last,
        printed_at=register.clock(),
        deliveries=deliveries,
        holds=holds,
        refusals=tuple(one for one in deliveries if one.decision == Decision.REJECT),
        amendments=amendments,
        late_entries=late,
        suppliers=suppliers,
        trace=one_trace,
        animal_trace=animal,
        seal=head,
        eight_fields=tuple(eight_fields(one, larder) for one in deliveries),
        dealer_rows=tuple(tuple(zip(RECEIVED_HEADS, received_row(one), strict=True)) for one in deliveries),
        book=book,
        evidence=evidence,
        making=made,
        ready=ready,
        pictures=pictures,
    )


def _weight(field: str, text: str) -> str:
    return kg_to_the_gram(int(text)) if field == "weight" and text else text


def eight_fields(carcass: Carcass, larder: Larder) -> Fields:
    """Regulation (EU) 931/2011, Article 3(1), (a) to (h), for one delivery in, in the order of the text."""
    supplier = carcass.supplier
    reference = f"{carcass.code}" + (f", supplier's tag {carcass.tag}" if carcass.tag else "")
    dispatched = carcass.dispatched_on
    values = (
        f"{carcass.title}, {carcass.origin_words}, {carcass.basis_words}",
        f"{carcass.count} × {kg_to_the_gram(carcass.grams_received)}"
        if carcass.count == 1
        else f"{carcass.count} bodies, {kg_to_the_gram(carcass.grams_received)}",
        _joined(supplier.name, supplier.address),
        visit_making.SAME,
        _joined(larder.name, larder.address),
        visit_making.SAME,
        reference,
        day_text(dispatched)
        if dispatched
        else f"not stated; received {day_text(wall_day(carcass.received_at))}",
    )
    return tuple(zip(visit_making.EIGHT, values, strict=True))


def _joined(name: str, address: str) -> str:
    return f"{name}, {address}" if address else f"{name} (address not stated)"
