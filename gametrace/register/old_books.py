"""The lists that dealers in game and venison had to keep, drawn from the register for a period.

Which of them anybody still has to keep is for the local authority to say; a list says what it rests on.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from gametrace.domain.deliveries import Decision
from gametrace.domain.findings import rests_on
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.facts.sources import citation
from gametrace.facts.traceability import OldBook, old_book, old_books
from gametrace.register import visit_making, visit_rooms
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, wall_day, wall_text
from gametrace.register.lists import span
from gametrace.register.opening import Register
from gametrace.register.records import Carcass
from gametrace.register.visit_records import BookList
from gametrace.store import look_carcasses

_MOST = 100_000
RECEIVED_HEADS = (
    "date bought or received",
    "name and address of the person it came from",
    "number of carcasses and sex",
    "species, if it can be identified",
)
FULL_HEADS = ("date", "purchase, receipt, sale or disposal", "person and address", "what", "quantity")


def books_for(jurisdiction: str) -> tuple[OldBook, ...]:
    """The book of a jurisdiction first, then the others: each is a plain list anywhere."""
    return tuple(sorted(old_books(), key=lambda one: one.jurisdiction != jurisdiction))


def book_list(
    register: Register, which: str, *, first: date | None = None, last: date | None = None
) -> BookList:
    """A book for its year that holds today, or for a period of one's own (both days included)."""
    book = old_book(which)
    begins, ends = book.year_of(last or register.today())
    since, until = first or begins, last if first else ends
    until = until or register.today()
    start, end = span(since, until)
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = look_carcasses.received_between(connection, start, end, _MOST)[::-1]
        carcasses = read.carcasses(found)
        heads: tuple[str, ...]
        rows: list[tuple[str, ...]]
        if book.sorts == ("received",):
            heads, rows = RECEIVED_HEADS, [received_row(one) for one in carcasses]
        else:
            heads = FULL_HEADS
            told = [*_received(carcasses), *_gone(read, (start, end), since, until)]
            rows = [row for _, row in sorted(told, key=lambda one: one[0])]
    return BookList(book, since, until, heads, tuple(rows), _words(book, register.larder.jurisdiction, until))


def received_row(carcass: Carcass) -> tuple[str, ...]:
    """The four entries of the Scottish record, as councils summarise its form."""
    return (
        wall_text(carcass.received_at),
        _person(carcass),
        f"{carcass.count}, {carcass.sex}",
        carcass.species_name,
    )


def _person(carcass: Carcass) -> str:
    supplier = carcass.supplier
    return f"{supplier.name}, {supplier.address or 'address not stated'}"


def _received(carcasses: tuple[Carcass, ...]) -> Iterator[tuple[date, tuple[str, ...]]]:
    for one in carcasses:
        day = wall_day(one.received_at)
        sort = "purchase" if one.pence_per_kg else "receipt"
        words = f"{one.code} {one.title}, {one.sex}" + (f", tag {one.tag}" if one.tag else "")
        amount = f"{one.count}, {kg_to_the_gram(one.grams_received)}"
        yield day, (day_text(day), sort, _person(one), words, amount)
        if one.decision == Decision.REJECT:
            gone = (day_text(day), "disposal: refused at the door", _person(one), words, amount)
            yield day, gone


def _gone(
    read: Assembler, reach: tuple[str, str], first: date, last: date
) -> Iterator[tuple[date, tuple[str, ...]]]:
    for one in visit_making.dishes(read, first, last):
        what = f"{one.code} {one.name}, {one.portions} portions"
        row = (day_text(one.on), "sale: to those who ate it", one.occasion, what, kg_to_the_gram(one.grams))
        yield one.on, row
    for supply in visit_making.supplied_lots(read, reach):
        fields = dict(supply.fields)
        yield (
            supply.on,
            (
                day_text(supply.on),
                "sale: to another business",
                fields["dispatched to, name and address"],
                f"{supply.code} {fields['description of the food']}",
                fields["quantity"],
            ),
        )
    for taken in visit_rooms.collections(read, first, last):
        grams = sum(lot[3] for lot in taken.lots)
        what = f"by-products and waste, {len(taken.lots)} lots, document {taken.document_number}"
        who = f"{taken.collector}, to {taken.destination}"
        yield taken.on, (day_text(taken.on), "disposal: collected", who, what, kg_to_the_gram(grams))


def _words(book: OldBook, jurisdiction: str, on: date) -> str:
    said = [f"{book.name}: {rests_on(citation(book.source), book.status)}. {book.note}"]
    if book.jurisdiction != jurisdiction:
        said.append("This larder is not there: shown as a plain list.")
    if not book.holds_on(on):
        assert book.valid_to is not None
        said.append(f"Not asked of anybody since {day_text(book.valid_to)}: shown as a plain list.")
    said.append("Whether it has to be kept is for the local authority to say.")
    return " ".join(said)
