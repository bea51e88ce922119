"""What the officer is shown for a period, worded here so that the paper only has to be drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from gametrace.register.readiness import Reader, found_by, house_gaps, period_of
from gametrace.register.records import Amendment, Carcass, Larder, Seal
from gametrace.register.stories import LATE_SECONDS, lines
from gametrace.register.tracing import trace
from gametrace.register.visit_records import Evidence, VisitSheet
from gametrace.register.warm_times import episodes_of_days
from gametrace.store import journal, look_carcasses, look_lots

_MOST_DELIVERIES = 100_000
_TOLD_EVERY = 250  # deliveries
_PARTS, _ANIMALS = 100, 60  # of the whole way, so many are the animals; the rest what was done to them

Fields = tuple[tuple[str, str], ...]


def visit_sheet(
    register: Register,
    *,
    first: date,
    last: date,
    lot: str = "",
    with_pictures: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> VisitSheet:
    """Everything of a period (both days included), with a trace back and forth for a chosen lot.

    Without a chosen lot the newest dish of the period is traced, or nothing where there is none. The pictures
    of declarations and tags come with it only when asked for. `progress(done, of)` is told on the way;
    raising there ends it.
    """
    if last < first:
        raise Refusal("The period ends before it begins.", "Swap the two dates.", "last")
    chosen = trace(register, lot) if lot else None  # what cannot be traced is refused before the long work
    start, end = span(first, last)
    until = min(last, register.today())
    warm, weeks = episodes_of_days(register, first, last), visit_rooms.weeks(register, first, last)
    gaps = house_gaps(register)
    with register.store.reading() as connection:
        read = Reader(connection, register, period_of(first, until))
        found = look_carcasses.received_between(connection, start, end, _MOST_DELIVERIES)
        step = progress or _silent
        deliveries = _animals(read, found[::-1], step)
        step(_ANIMALS, _PARTS)
        ready = found_by(read, gaps, warm) if first <= register.today() else ()
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
        step(_ANIMALS + 10, _PARTS)
        late = lines(read, look_carcasses.late_between(connection, start, end, LATE_SECONDS))
        used = {one.supplier.code for one in deliveries}
        suppliers = tuple(one for one in read.suppliers.values() if one.code in used)
        larder = read.larder()
        head = Seal(*journal.head_of(connection))
        made = visit_making.making(read, (start, end), first, last)
        step(_ANIMALS + 20, _PARTS)
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
    step(_ANIMALS + 30, _PARTS)
    own = books_for(larder.jurisdiction)[0]
    book = (
        book_list(register, own.id, first=first, last=last)
        if len(own.sorts) > 1 and own.holds_on(first)
        else None
    )
    one_trace = chosen or (trace(register, code_of(newest)) if newest is not None else None)
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


def _silent(_done: int, _of: int) -> None:
    return


def _animals(read: Assembler, lots: Sequence[int], step: Callable[[int, int], None]) -> tuple[Carcass, ...]:
    """Told in portions: they take the longest of all that is gathered."""
    found: list[Carcass] = []
    for at in range(0, len(lots), _TOLD_EVERY):
        step(_ANIMALS * at // len(lots), _PARTS)
        found += read.carcasses(lots[at : at + _TOLD_EVERY])
    return tuple(found)


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
