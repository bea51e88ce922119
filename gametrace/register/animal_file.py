"""One animal's whole file beyond the delivery: looks, calls, pictures, decisions, claims, results, plans."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.conversions import Estimate, basis_of, estimate
from gametrace.domain.deliveries import Basis, Delivery
from gametrace.domain.findings import Finding
from gametrace.domain.hanging import HangingPlan, hanging_findings, hanging_plan
from gametrace.facts.conversions import DRESSED
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant
from gametrace.register.delivery_text import delivery_from
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.paper_state import calls_to_make
from gametrace.register.policies import policies_of
from gametrace.register.records import Carcass
from gametrace.store import attachments, look_carcasses, look_door


@dataclass(frozen=True, slots=True)
class LookLine:
    stage: str  # in the skin | out of the skin
    point: str
    answer: str
    note: str


@dataclass(frozen=True, slots=True)
class MarkLine:
    stage: str
    x_thousandths: int
    y_thousandths: int
    side: str
    what: str


@dataclass(frozen=True, slots=True)
class Call:
    about: str
    answer: str
    spoken_by: str
    taken_by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Picture:
    what: str
    hash: str
    original_hash: str
    media_type: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Claim:
    id: int
    code: str
    rule: str
    grams: int
    pence: int
    reason: str
    raised_at: datetime
    status: str
    settled_pence: int | None
    settled_note: str


@dataclass(frozen=True, slots=True)
class AnimalFile:
    """`calls_to_make` are fields of the declaration that nobody can read and nobody has rung about."""

    carcass: Carcass
    delivery: Delivery  # as it stands, corrections included
    looks: tuple[LookLine, ...]
    marks: tuple[MarkLine, ...]
    calls: tuple[Call, ...]
    calls_to_make: tuple[str, ...]
    pictures: tuple[Picture, ...]
    second_decision: str
    second_reason: str
    claims: tuple[Claim, ...]
    laboratory_reference: str
    laboratory_result: str  # '' | negative | positive
    plan: HangingPlan | None
    hanging: tuple[Finding, ...]
    estimates: tuple[tuple[str, Estimate], ...]  # (basis in words, its estimate): never measurements


def animal_file(register: Register, code: str) -> AnimalFile:
    """Everything known of one animal."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        lot = lot_facts(connection, code, register.today())
        carcass = read.carcasses([lot.id])[0]
        calls = tuple(
            Call(row.about, row.answer, row.spoken_by, read.initials(row.person), instant(row.happened_at))
            for row in look_door.calls_of(connection, [lot.id]).get(lot.id, ())
        )
        second = look_door.second_decisions_of(connection, [lot.id]).get(lot.id)
        answer = look_door.laboratory_of(connection, [lot.id]).get(lot.id)
        own = (policies_of(connection).hanging_days or {}).get(carcass.species)
        row = look_carcasses.carcass_rows(connection, [lot.id])[0]
        delivery = delivery_from(connection, lot.id)
        assert delivery is not None  # it has a carcass row
        return AnimalFile(
            carcass=carcass,
            delivery=delivery,
            looks=tuple(
                LookLine(one.stage, one.point, one.answer, one.note)
                for one in look_door.looks_of(connection, [lot.id]).get(lot.id, ())
            ),
            marks=tuple(
                MarkLine(one.stage, one.x_thousandths, one.y_thousandths, one.side, one.what)
                for one in look_door.marks_of(connection, [lot.id]).get(lot.id, ())
            ),
            calls=calls,
            calls_to_make=calls_to_make(row, {call.about for call in calls}),
            pictures=tuple(
                Picture(
                    one.what,
                    one.hash,
                    one.original_hash,
                    one.media_type,
                    read.initials(one.person),
                    instant(one.happened_at),
                )
                for one in look_door.pictures_of(connection, [lot.id]).get(lot.id, ())
            ),
            second_decision=second.decision if second else "",
            second_reason=second.reason if second else "",
            claims=tuple(
                _claim(one, carcass.code) for one in look_door.claims_of(connection, [lot.id]).get(lot.id, ())
            ),
            laboratory_reference=answer.reference if answer else "",
            laboratory_result=answer.result if answer else "",
            plan=_plan(carcass, row.age_class, own),
            hanging=_hanging(carcass, row.age_class, own),
            estimates=_estimates(carcass, delivery.basis),
        )


def _claim(row: Any, code: str) -> Claim:
    return Claim(
        id=row.id,
        code=code,
        rule=row.rule,
        grams=row.grams,
        pence=row.pence,
        reason=row.reason,
        raised_at=instant(row.raised_at),
        status=row.status,
        settled_pence=row.settled_pence,
        settled_note=row.settled_note,
    )


def _is_large(carcass: Carcass) -> bool:
    return carcass.lot.kind == "carcass"


def _plan(carcass: Carcass, age_class: str, own: tuple[int, int] | None) -> HangingPlan | None:
    return hanging_plan(carcass.species, age_class, own) if carcass.killed_on else None


def _hanging(carcass: Carcass, age_class: str, own: tuple[int, int] | None) -> tuple[Finding, ...]:
    if carcass.days_hung is None or carcass.lot.grams == 0:
        return ()
    return hanging_findings(
        species=carcass.species, age_class=age_class, days_hung=carcass.days_hung, own_days=own
    )


def _estimates(carcass: Carcass, received: Basis) -> tuple[tuple[str, Estimate], ...]:
    """The weight received in other bases, as ranges with their source."""
    start = basis_of(received)
    if start is None or not _is_large(carcass):
        return ()
    found = []
    for basis, words in DRESSED.items():
        if basis == start:
            continue
        one = estimate(
            species=carcass.species,
            sex=carcass.sex,
            grams=carcass.grams_received,
            from_basis=start,
            to_basis=basis,
        )
        if one is not None:
            found.append((words, one))
    return tuple(found)


def picture(register: Register, found: str) -> tuple[str, bytes] | None:
    """(media type, bytes) of a picture by its hash."""
    with register.store.reading() as connection:
        return attachments.content_of(connection, found)


def open_claims(register: Register) -> tuple[Claim, ...]:
    """Claims that still wait for the supplier."""
    with register.store.reading() as connection:
        return tuple(_claim(row, code_of(row.lot_id)) for row in look_door.open_claims(connection))


def first_day_ready(carcass: Carcass, plan: HangingPlan | None) -> tuple[date, date] | None:
    """The days the plan gives: ready from, and by."""
    if plan is None or carcass.killed_on is None:
        return None
    return (
        carcass.killed_on + timedelta(days=plan.ready_from_days),
        carcass.killed_on + timedelta(days=plan.by_days),
    )
