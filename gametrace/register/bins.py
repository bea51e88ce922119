"""What is not for food: by-products and waste, their category, collector and papers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from gametrace.domain.by_products import Confirmed, category_of, keep_papers_until
from gametrace.domain.codes import code_of, first_lot_id
from gametrace.domain.costing import spread_by_weight
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind, StopSort
from gametrace.facts.cuts import product
from gametrace.register.clock import day_text, instant, wall_day
from gametrace.register.lists import span
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_rooms
from gametrace.store.engine import Connection


@dataclass(frozen=True, slots=True)
class BinLine:
    """One skin, head, tray of bone or waste: its weight and category, and the collection that took it."""

    code: str
    name: str
    item: str  # what the facts call it: skin, head, bone
    kind: str
    grams: int
    category: int
    is_confirmed: bool  # the kitchen has settled the category with its authority
    made_on: date
    reason: str
    collector: str = ""
    document_number: str = ""
    collected_on: date | None = None
    keep_until: date | None = None


@dataclass(frozen=True, slots=True)
class BinWeek:
    """The week's total by category, Monday first."""

    first_day: date
    grams_by_category: dict[int, int]


def collect_by_products(
    register: Register,
    *,
    by: str,
    codes: Sequence[str],
    on: date,
    collector: str,
    document_number: str,
    destination: str,
    note: str = "",
    pence: int | None = None,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """By-products leave with a collector, with the number of the commercial document that goes along.

    `pence`: what was paid for all of it, where it was sold; it comes off the cost of the meat, by weight.
    """
    who = clean(collector, "collector", needed="Write down who took them.")
    number = clean(document_number, "document_number", most=80, needed="The document's number is missing.")
    where = clean(destination, "destination", needed="Write down where they go.")
    words = clean(note, "note", most=500)
    if not codes:
        raise Refusal("Nothing has been chosen.", "Choose what was taken.", "codes")
    if pence is not None and not 0 <= pence <= 1_000_000:
        raise Refusal("That sum cannot be.", "Give pounds and pence.", "pence")

    def decide(work: Work) -> Plan:
        confirmed = confirmed_categories(work.connection)
        if on > work.day:
            raise Refusal(f"{day_text(on)} is still to come.", "Give the day they were taken.", "on")
        lots: list[dict[str, Any]] = []
        grams: dict[int, int] = {}
        chosen = {one.id: one for one in (work.lot(code) for code in codes)}
        taken = look_rooms.collected_of(work.connection, chosen)
        for lot in chosen.values():
            if lot.kind not in (LotKind.BY_PRODUCT, LotKind.WASTE):
                raise Refusal(f"{lot.code} is not a by-product.", "Choose from the list.", "codes")
            if lot.id in taken:
                raise Refusal(f"{lot.code} has been collected already.", "Choose another.", "codes")
            _refuse_held(lot)
            grams[lot.id] = lot.grams_made
            lots.append({"lot": lot.id, "category": category_of(product(lot.product).by_product, confirmed)})
        if pence is not None:
            paid = spread_by_weight(pence, grams)
            lots = [{**one, "pence": paid[one["lot"]]} for one in lots]
        body = {
            "lots": lots,
            "on_day": on.isoformat(),
            "collector": who,
            "document_number": number,
            "destination": where,
            "note": words,
        }
        return Plan(body, codes=tuple(code_of(int(lot["lot"])) for lot in lots))

    return perform(register, "by-products.collected", decide, by=by, happened_at=happened_at, key=key)


def _refuse_held(lot: LotFacts) -> None:
    """What waits for an answer is kept, skin and head too. What is locked leaves as the authority says."""
    sorts = {stop.sort for stop in lot.stops}
    if sorts & {StopSort.HOLD, StopSort.RESULT} and StopSort.LOCKED not in sorts:
        raise Refusal(f"{lot.why}.", "Keep it until that is settled.", "codes")


def confirmed_categories(connection: Connection) -> dict[str, Confirmed]:
    """What the kitchen settled once with its authority."""
    kept = policies_of(connection).categories or {}
    return {
        item: Confirmed(category, said_by, date.fromisoformat(on))
        for item, (category, said_by, on) in kept.items()
    }


@dataclass(frozen=True, slots=True)
class BinPaper:
    """One collection: the document that went along, and what it was for."""

    seq: int
    on: date
    collector: str
    document_number: str
    pieces: int
    grams: int
    keep_until: date


def bins(register: Register, *, only_waiting: bool = False) -> tuple[BinLine, ...]:
    """What is not for food, newest first: all of all years, or what nobody has collected yet."""
    with register.store.reading() as connection:
        confirmed = confirmed_categories(connection)
        found = look_rooms.by_product_rows(connection, only_waiting=only_waiting)
        return tuple(_line(row, confirmed) for row in found)


def bins_since(register: Register) -> date | None:
    """The day the first by-product fell; None where none has."""
    with register.store.reading() as connection:
        row = look_rooms.first_by_product(connection)
        return wall_day(instant(row.made_at)) if row else None


def bin_paper_count(register: Register) -> int:
    with register.store.reading() as connection:
        return look_rooms.collection_count(connection)


def bin_papers(register: Register, limit: int = 200, first: int = 0) -> tuple[BinPaper, ...]:
    """The papers of collections, the newest first, from the `first` on."""
    with register.store.reading() as connection:
        return tuple(
            BinPaper(
                row.seq,
                on := date.fromisoformat(row.on_day),
                row.collector,
                row.document_number,
                row.pieces,
                int(row.grams),
                keep_papers_until(on),
            )
            for row in look_rooms.collection_rows(connection, limit, first)
        )


def _line(lot: Any, confirmed: dict[str, Confirmed]) -> BinLine:
    item = product(lot.product).by_product
    collected_on = date.fromisoformat(lot.on_day) if lot.on_day else None
    return BinLine(
        code=code_of(lot.id),
        name=lot.name,
        item=item,
        kind=lot.kind,
        grams=lot.grams_made,
        category=lot.taken_as or category_of(item, confirmed),
        is_confirmed=item in confirmed,
        made_on=wall_day(instant(lot.made_at)),
        reason=lot.note,
        collector=lot.collector or "",
        document_number=lot.document_number or "",
        collected_on=collected_on,
        keep_until=keep_papers_until(collected_on) if collected_on else None,
    )


def bin_weeks(register: Register, first: date, last: date) -> tuple[BinWeek, ...]:
    """Totals of what fell on these days (both included), newest week first: some councils ask for them."""
    with register.store.reading() as connection:
        confirmed = confirmed_categories(connection)
        return weeks_of(
            (
                wall_day(instant(f"{row.hour}:00:00Z")),  # the larder's clock is whole hours from UTC
                row.taken_as or category_of(product(row.product).by_product, confirmed),
                row.grams,
            )
            for row in look_rooms.by_products_fallen(connection, *span(first, last), first_lot_id(first.year))
        )


def weeks_of(fallen: Iterable[tuple[date, int, int]]) -> tuple[BinWeek, ...]:
    """(day, category, grams) of whatever fell, as weeks, newest first."""
    weeks: dict[date, dict[int, int]] = defaultdict(lambda: defaultdict(int))
    for day, category, grams in fallen:
        weeks[day - timedelta(days=day.weekday())][category] += grams
    return tuple(BinWeek(day, dict(weeks[day])) for day in sorted(weeks, reverse=True))
