"""Holds a delivery against every ruling at once: season, weight, warmth, papers, the tag met before.

The same judging serves the live findings beside the form, the sealed delivery, and a correction that needs
everything ruled on again. It warns, asks and stops; it decides nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Delivery
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.night import night_findings
from gametrace.domain.origins import origin_findings
from gametrace.domain.papers import paper_findings
from gametrace.domain.sale import forbidden_day_findings
from gametrace.domain.seasons import season_findings
from gametrace.domain.temperatures import probe_findings, temperature_findings
from gametrace.domain.weights import weight_findings
from gametrace.facts.exceptions import exception_types
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.facts.species import all_species
from gametrace.register.clock import instant, wall_day
from gametrace.register.paper_state import declaration_of
from gametrace.register.policies import Policies, policies_of
from gametrace.register.supplier_book import approval_of, lapsed
from gametrace.store import look_carcasses, look_door, look_rooms, look_setup
from gametrace.store.engine import Connection

_LONG_DAYS = 60  # longer than any hanging range we know of; more likely a slip in the year


def judge(
    connection: Connection, delivery: Delivery, *, jurisdiction: str, received_on: date, own_lot: int = 0
) -> tuple[Finding, ...]:
    """All findings on a delivery, stops first. Half-filled input gives the findings it can give.

    `own_lot` is left out when looking for the same tag, so that a correction does not find itself.
    """
    own = policies_of(connection)
    found = [
        *_same_tag(connection, delivery, own_lot),
        *_order_of_days(delivery, received_on),
        *_supplier(connection, delivery, received_on),
    ]
    if delivery.species in _known():
        found += _the_kill(delivery, jurisdiction)
        found += _the_body(connection, delivery, jurisdiction, own, received_on)
        found += _the_paper(connection, delivery, jurisdiction, own, own_lot)
    order = {Severity.STOP: 0, Severity.ASK: 1, Severity.NOTE: 2}
    return tuple(sorted(found, key=lambda finding: order[finding.severity]))


def _known() -> frozenset[str]:
    return frozenset(kind.id for kind in all_species())


def _the_kill(delivery: Delivery, jurisdiction: str) -> Iterator[Finding]:
    """The day, the hour and the licence."""
    if delivery.killed_on is None or not jurisdiction or delivery.origin not in ORIGINS:
        return
    if delivery.sex not in ("male", "female", "unknown"):
        return
    exception = (
        (delivery.exception_type, delivery.exception_number)
        if delivery.exception_type in {one.id for one in exception_types(jurisdiction)}
        else None
    )
    yield from season_findings(
        species=delivery.species,
        sex=delivery.sex,
        killed_on=delivery.killed_on,
        jurisdiction=jurisdiction,
        origin=delivery.origin,
        exception=exception,
    )
    yield from forbidden_day_findings(
        species=delivery.species, killed_on=delivery.killed_on, jurisdiction=jurisdiction
    )
    if delivery.kill_time:
        yield from night_findings(
            species=delivery.species,
            origin=delivery.origin,
            jurisdiction=jurisdiction,
            killed_on=delivery.killed_on,
            kill_time=delivery.kill_time,
            latitude_millionths=delivery.latitude_millionths,
            longitude_millionths=delivery.longitude_millionths,
            exception=exception,
        )


def _the_body(
    connection: Connection, delivery: Delivery, jurisdiction: str, own: Policies, received_on: date
) -> Iterator[Finding]:
    """Its weight and its warmth, and the probe that read it."""
    if delivery.grams > 0 and delivery.sex in ("male", "female", "unknown"):
        basis = delivery.basis
        yield from weight_findings(
            species=delivery.species,
            sex=delivery.sex,
            age_class=delivery.age_class or None,
            grams=delivery.grams,
            in_skin=basis.in_skin,
            head_on=basis.head_on,
            feet_on=basis.feet_on,
            pluck_in=basis.pluck_in,
            count=max(1, delivery.count),
        )
    yield from temperature_findings(
        species=delivery.species,
        readings=delivery.readings,
        killed_at_known=bool(delivery.killed_on and delivery.kill_time),
        jurisdiction=jurisdiction,
        own_limit_tenths_c=own.own_limit_tenths_c,
    )
    if delivery.readings and delivery.probe:
        checked_at = next(
            (row.checked_at for row in look_rooms.probe_rows(connection) if row.code == delivery.probe), None
        )
        yield from probe_findings(
            probe=delivery.probe,
            last_checked_on=wall_day(instant(checked_at)) if checked_at else None,
            on=received_on,
            days=own.probe_days,
        )


def _the_paper(
    connection: Connection, delivery: Delivery, jurisdiction: str, own: Policies, own_lot: int
) -> Iterator[Finding]:
    if delivery.origin not in ORIGINS or delivery.route not in ROUTES:
        return
    yield from origin_findings(delivery.origin, own.accepted_origins)
    answer = look_door.laboratory_of(connection, [own_lot]).get(own_lot)
    yield from paper_findings(
        route=delivery.route,
        origin=delivery.origin,
        species=delivery.species,
        declaration=declaration_of(delivery),
        killed_on=delivery.killed_on,
        kill_time=delivery.kill_time,
        kill_place=delivery.kill_place,
        approval_number=delivery.approval_number,
        tag=delivery.tag,
        jurisdiction=jurisdiction,
        boar_result=answer.result if answer else "awaited",
        boar_reference=answer.reference if answer else "",
    )


def _supplier(connection: Connection, delivery: Delivery, received_on: date) -> Iterator[Finding]:
    """Papers of the supplier that no longer hold. The door stays open; a person answers for it."""
    if not delivery.supplier or look_setup.supplier_row(connection, delivery.supplier) is None:
        return
    approval = approval_of(connection, delivery.supplier)
    if approval.lead_free == "yes" and delivery.ammunition == "lead":
        yield Finding(
            "lead-against-statement",
            Severity.ASK,
            "This supplier states that no lead is shot, and this animal was shot with lead.",
            "Ask which of the two is right, and write the answer here.",
            "the supplier book",
        )
    if gone := lapsed(approval, received_on):
        yield Finding(
            "supplier-lapsed",
            Severity.ASK,
            f"Of this supplier, {' and '.join(gone)} no longer {'holds' if len(gone) == 1 else 'hold'}.",
            "Ask for the new paper, or say why it is taken all the same.",
            "the supplier book",
        )


def _same_tag(connection: Connection, delivery: Delivery, own_lot: int) -> Iterator[Finding]:
    if not delivery.tag or not delivery.supplier:
        return
    others = [
        lot for lot in look_carcasses.with_tag(connection, delivery.tag, delivery.supplier) if lot != own_lot
    ]
    if others:
        yield Finding(
            "tag-met-before",
            Severity.ASK,
            f"This supplier's tag {delivery.tag} is already in the register, on {code_of(others[0])}.",
            "Read the tag again. If it is another body with the same number, say so as the reason.",
            "the register itself",
        )


def _order_of_days(delivery: Delivery, received_on: date) -> Iterator[Finding]:
    if delivery.killed_on is not None and delivery.killed_on > received_on:
        yield Finding(
            "killed-after-receipt",
            Severity.STOP,
            "The day of killing lies after the day of delivery.",
            "Read the date on the card again.",
            "the calendar",
        )
    elif delivery.killed_on is not None and (received_on - delivery.killed_on).days > _LONG_DAYS:
        yield Finding(
            "killed-long-before",
            Severity.ASK,
            f"It was killed {(received_on - delivery.killed_on).days} days before it came.",
            "Read the date on the card again, the year too. If it is right, say where it hung.",
            "the calendar",
            "inference",
        )
