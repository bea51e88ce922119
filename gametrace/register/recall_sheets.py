"""A recall as it stands now: affected lots, services, whom to call, what was answered. Asks, never writes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS, MEAT_KINDS
from gametrace.facts.recall import recall_steps
from gametrace.facts.sources import citation
from gametrace.register.assembling import FORGOTTEN, Assembler
from gametrace.register.clock import instant, iso_day_text
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, Lot
from gametrace.store import lineage, look_lots, look_plates, look_tracing

AUTHORITY = "the local authority's food team"


@dataclass(frozen=True, slots=True)
class Service:
    """A service or class where something affected was served."""

    kind: str
    name: str
    on: str  # '13 Nov 2026'
    dishes: tuple[str, ...]  # codes
    portions: int

    @property
    def words(self) -> str:
        return f"{self.name}, {self.on}"


@dataclass(frozen=True, slots=True)
class ToCall:
    whom: str
    why: str
    phone: str


@dataclass(frozen=True, slots=True)
class CallMade:
    whom: str
    answer: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class StepNow:
    """One step of the list with its source, and its answer where there is one."""

    id: str
    words: str
    source: str
    status: str
    note: str  # of the source
    answer: str = ""
    said: str = ""
    at: datetime | None = None
    by: str = ""


@dataclass(frozen=True, slots=True)
class RecallLine:
    """A recall in the list of them."""

    code: str
    what: str
    opened_at: datetime
    is_open: bool


@dataclass(frozen=True, slots=True)
class RecallSheet:
    code: str
    what: str
    reason: str
    opened_at: datetime
    opened_by: str
    closed_at: datetime | None
    closed_by: str
    outcome: str
    named: tuple[Lot, ...]
    animals: tuple[Carcass, ...]
    affected: tuple[Lot, ...]  # the named ones and all made of them
    services: tuple[Service, ...]
    to_call: tuple[ToCall, ...]
    calls: tuple[CallMade, ...]
    steps: tuple[StepNow, ...]

    @property
    def is_open(self) -> bool:
        return self.closed_at is None

    @property
    def still_here(self) -> tuple[Lot, ...]:
        return tuple(lot for lot in self.affected if lot.kind in MEAT_KINDS and lot.grams)

    @property
    def still_to_call(self) -> tuple[ToCall, ...]:
        rung = {call.whom for call in self.calls}
        return tuple(one for one in self.to_call if one.whom not in rung)


def recalls(register: Register) -> tuple[RecallLine, ...]:
    """Running ones first."""
    with register.store.reading() as connection:
        return tuple(
            RecallLine(row.code, row.what, instant(row.opened_at), row.closed_at is None)
            for row in look_tracing.recalls(connection)
        )


def recall_sheet(register: Register, code: str) -> RecallSheet:
    """Everything of one recall, as the register stands now."""
    with register.store.reading() as connection:
        row = look_tracing.recall(connection, code)
        if row is None:
            raise Refusal(f"There is no recall {code}.", "Choose one of the list.", "recall")
        read = Assembler(connection, register.today())
        named = look_tracing.recalled_lots(connection, code)
        reached = sorted({*named, *(e.child for e in lineage.edges_below(connection, named))})
        above = {*named, *(e.parent for e in lineage.edges_above(connection, named))}
        lots = read.lots_by_id({*reached, *above})
        animals = read.carcasses(sorted(lot for lot in above if lots[lot].kind in ANIMAL_KINDS))
        services = _services(read, reached)
        return RecallSheet(
            code=code,
            what=row.what,
            reason=row.reason,
            opened_at=instant(row.opened_at),
            opened_by=read.initials(row.opened_by),
            closed_at=instant(row.closed_at) if row.closed_at else None,
            closed_by=read.initials(row.closed_by) if row.closed_by else "",
            outcome=row.outcome,
            named=tuple(lots[lot] for lot in named),
            animals=tuple(animals),
            affected=tuple(lots[lot] for lot in reached),
            services=services,
            to_call=_to_call(animals, services, _handed_on(read, reached)),
            calls=tuple(_call(read, one) for one in look_tracing.recall_calls(connection, code)),
            steps=_steps(read, code),
        )


def _services(read: Assembler, lots: list[int]) -> tuple[Service, ...]:
    found: dict[tuple[str, str, str], list[Any]] = {}
    for dish in look_lots.dish_details(read.connection, lots).values():
        found.setdefault((dish.on_day, dish.occasion, dish.occasion_kind), []).append(dish)
    return tuple(
        Service(
            kind,
            name,
            iso_day_text(day),
            tuple(code_of(dish.lot_id) for dish in dishes),
            sum(dish.portions for dish in dishes),
        )
        for (day, name, kind), dishes in sorted(found.items())
    )


def _to_call(
    animals: Iterable[Carcass], services: Iterable[Service], handed_on: Iterable[ToCall]
) -> tuple[ToCall, ...]:
    """The authority, the suppliers, then whoever received any of it; each once."""
    called = [ToCall(AUTHORITY, "told at once; it says what else must be done", "")]
    for animal in animals:
        supplier = animal.supplier
        called.append(ToCall(supplier.name, f"supplied {animal.code}", supplier.phone))
    called += [ToCall(f"whoever answers for {one.words}", f"{one.portions} portions", "") for one in services]
    called += handed_on
    return tuple({one.whom: one for one in reversed(called)}.values())[::-1]


def _handed_on(read: Assembler, lots: list[int]) -> Iterator[ToCall]:
    """The businesses that were supplied, with their telephone, and the classes meat was issued to."""
    for row in look_plates.supplied(read.connection, lots):
        card = read.cards.get(row.customer, {})
        words = f"supplied with {code_of(row.lot_id)} on {iso_day_text(row.dispatched_on)}"
        yield ToCall(card.get("name", FORGOTTEN), words, card.get("phone", ""))
    for row in look_plates.issued(read.connection, lots):
        words = f"issued {code_of(row.lot_id)} on {iso_day_text(row.on_day)}"
        yield ToCall(f"whoever answers for {row.sort} {row.charged_to}", words, "")


def _call(read: Assembler, row: Any) -> CallMade:
    return CallMade(row.whom, row.answer, instant(row.happened_at), read.initials(row.person))


def _steps(read: Assembler, code: str) -> tuple[StepNow, ...]:
    answered = {row.step: row for row in look_tracing.recall_steps(read.connection, code)}
    steps = []
    for step in recall_steps():
        source, row = citation(step.source), answered.get(step.id)
        if row is None:
            steps.append(StepNow(step.id, step.name, source, step.status, step.note))
            continue
        at, by = instant(row.happened_at), read.initials(row.person)
        steps.append(
            StepNow(step.id, step.name, source, step.status, step.note, row.answer, row.note, at, by)
        )
    return tuple(steps)
