"""A delivery between its typed values and its columns, both ways: a correction starts from what stands."""

from __future__ import annotations

from datetime import date, datetime
from enum import Enum
from typing import Any

from gametrace.domain.deliveries import Answer, Basis, Decision, Delivery
from gametrace.register.clock import day_text, instant, instant_text
from gametrace.store import look_carcasses, look_lots, rows
from gametrace.store.engine import Connection


def basis_letters(basis: Basis) -> str:
    """'ynnn': skin, head, feet, pluck."""
    parts = (basis.in_skin, basis.head_on, basis.feet_on, basis.pluck_in)
    return "".join("y" if part else "n" for part in parts)


def basis_from(letters: str) -> Basis:
    return Basis(*(letter == "y" for letter in letters))


def animal_columns(delivery: Delivery, received_at: datetime, trained: str) -> dict[str, Any]:
    """The columns of the carcass table for a delivery. `trained` is the code on the trained person's card."""
    letters = basis_letters(delivery.basis)
    return {
        "supplier": delivery.supplier,
        "tag": delivery.tag,
        "count": delivery.count,
        "species": delivery.species,
        "sex": delivery.sex,
        "age_class": delivery.age_class,
        "origin": delivery.origin,
        "route": delivery.route,
        "received_at": instant_text(received_at),
        "dispatched_on": _iso(delivery.dispatched_on),
        "killed_on": _iso(delivery.killed_on),
        "kill_time": delivery.kill_time,
        "kill_place": delivery.kill_place,
        "has_declaration": int(delivery.has_declaration),
        "declaration_number": delivery.declaration_number,
        "no_abnormal_characteristics": delivery.no_abnormal_characteristics.value,
        "no_abnormal_behaviour": delivery.no_abnormal_behaviour.value,
        "no_contamination": delivery.no_contamination.value,
        "trained_person": trained,
        "certificate_number": delivery.certificate_number,
        "approval_number": delivery.approval_number,
        "inspection_notes": delivery.inspection_notes,
        "grams_received": delivery.grams,
        "received_basis": letters,
        "basis": letters,
        "supplier_grams": delivery.supplier_grams,
        "pence_per_kg": delivery.pence_per_kg,
        "decision": delivery.decision.value,
        "decision_reason": delivery.decision_reason,
        "exception_type": delivery.exception_type,
        "exception_number": delivery.exception_number,
        "latitude_millionths": delivery.latitude_millionths,
        "longitude_millionths": delivery.longitude_millionths,
        "probe": delivery.probe,
        "ammunition": delivery.ammunition,
        "number_on": delivery.tag,
        "dressed_at": None,
    }


def delivery_from(connection: Connection, lot: int) -> Delivery | None:
    """The delivery as it stands now, corrections included; None where the lot is not an animal."""
    found = look_carcasses.carcass_rows(connection, [lot])
    lot_row = look_lots.lot_row(connection, lot)
    if not found or lot_row is None:
        return None
    row = found[0]
    findings = look_carcasses.findings_of(connection, [lot]).get(lot, ())
    return delivery_from_row(
        row,
        lot_row.place,
        rows.cards(connection).get(row.trained_person, {}).get("name", ""),
        tuple(look_carcasses.readings_of(connection, [lot]).get(lot, ())),
        {finding.code: finding.reason for finding in findings if finding.reason},
    )


def delivery_from_row(
    row: Any, place: str, trained_person: str, readings: tuple[tuple[str, int], ...], reasons: dict[str, str]
) -> Delivery:
    """The same from a row already read."""
    return Delivery(
        supplier=row.supplier,
        species=row.species,
        sex=row.sex,
        origin=row.origin,
        route=row.route,
        grams=row.grams_received,
        basis=basis_from(row.received_basis),
        count=row.count,
        tag=row.tag,
        age_class=row.age_class,
        killed_on=_day(row.killed_on),
        kill_time=row.kill_time,
        kill_place=row.kill_place,
        has_declaration=bool(row.has_declaration),
        declaration_number=row.declaration_number,
        no_abnormal_characteristics=Answer(row.no_abnormal_characteristics),
        no_abnormal_behaviour=Answer(row.no_abnormal_behaviour),
        no_contamination=Answer(row.no_contamination),
        trained_person=trained_person,
        exception_type=row.exception_type,
        exception_number=row.exception_number,
        latitude_millionths=row.latitude_millionths,
        longitude_millionths=row.longitude_millionths,
        ammunition=row.ammunition,
        probe=row.probe,
        certificate_number=row.certificate_number,
        approval_number=row.approval_number,
        inspection_notes=row.inspection_notes,
        readings=readings,
        supplier_grams=row.supplier_grams,
        pence_per_kg=row.pence_per_kg,
        place=place,
        received_at=instant(row.received_at),
        dispatched_on=_day(row.dispatched_on),
        decision=Decision(row.decision),
        decision_reason=row.decision_reason,
        reasons=reasons,
    )


def shown(value: Any) -> str:
    """A value as the history shows it; '' for what was never given."""
    if value is None or value == () or value == "" or value is False or value == Answer.NOT_STATED:
        return ""
    if value is True:
        return "yes"
    if isinstance(value, date):
        return day_text(value)
    if isinstance(value, Basis):
        return value.words
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple):
        return ", ".join(f"{place} {tenths / 10:.1f} °C" for place, tenths in value)
    return "" if value == "unknown" else str(value)


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None
