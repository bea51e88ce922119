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
from gametrace.domain.papers import Declaration, evidence_line, paper_findings
from gametrace.domain.seasons import season_findings
from gametrace.domain.temperatures import temperature_findings
from gametrace.domain.weights import weight_findings
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.facts.species import all_species
from gametrace.facts.species import species as species_called
from gametrace.store import look_carcasses
from gametrace.store.engine import Connection

_LONG_DAYS = 60  # longer than any hanging range we know of; more likely a slip in the year


def judge(
    connection: Connection, delivery: Delivery, *, jurisdiction: str, received_on: date, own_lot: int = 0
) -> tuple[Finding, ...]:
    """All findings on a delivery, stops first. Half-filled input gives the findings it can give.

    `own_lot` is left out when looking for the same tag, so that a correction does not find itself.
    """
    found = [
        *_same_tag(connection, delivery, own_lot),
        *_order_of_days(delivery, received_on),
        *(_by_species(delivery, jurisdiction) if delivery.species in _known() else ()),
    ]
    order = {Severity.STOP: 0, Severity.ASK: 1, Severity.NOTE: 2}
    return tuple(sorted(found, key=lambda finding: order[finding.severity]))


def _known() -> frozenset[str]:
    return frozenset(kind.id for kind in all_species())


def _by_species(delivery: Delivery, jurisdiction: str) -> Iterator[Finding]:
    is_origin, is_sex = delivery.origin in ORIGINS, delivery.sex in ("male", "female", "unknown")
    if delivery.killed_on is not None and jurisdiction and is_origin and is_sex:
        yield from season_findings(
            species=delivery.species, sex=delivery.sex, killed_on=delivery.killed_on,
            jurisdiction=jurisdiction, origin=delivery.origin,
        )
    if delivery.grams > 0 and is_sex and species_called(delivery.species).group != "small":
        basis = delivery.basis
        yield from weight_findings(
            species=delivery.species, sex=delivery.sex, age_class=delivery.age_class or None,
            grams=delivery.grams, in_skin=basis.in_skin, head_on=basis.head_on, feet_on=basis.feet_on,
            pluck_in=basis.pluck_in,
        )
    yield from temperature_findings(
        species=delivery.species, readings=delivery.readings,
        killed_at_known=bool(delivery.killed_on and delivery.kill_time), jurisdiction=jurisdiction,
    )
    if not is_origin or delivery.route not in ROUTES:
        return
    yield from paper_findings(
        route=delivery.route, origin=delivery.origin, species=delivery.species,
        declaration=declaration_of(delivery), killed_on=delivery.killed_on, kill_time=delivery.kill_time,
        kill_place=delivery.kill_place, approval_number=delivery.approval_number, tag=delivery.tag,
        jurisdiction=jurisdiction,
    )


def declaration_of(delivery: Delivery) -> Declaration | None:
    if not delivery.has_declaration:
        return None
    return Declaration(
        number=delivery.declaration_number,
        no_abnormal_characteristics=delivery.no_abnormal_characteristics.value,
        no_abnormal_behaviour=delivery.no_abnormal_behaviour.value,
        no_contamination=delivery.no_contamination.value,
        trained_person=delivery.trained_person,
    )


def evidence(delivery: Delivery) -> str:
    """'complete', 'n missing' or 'lawfully absent', in words."""
    return evidence_line(
        route=delivery.route, origin=delivery.origin, species=delivery.species,
        declaration=declaration_of(delivery), killed_on=delivery.killed_on, kill_time=delivery.kill_time,
        kill_place=delivery.kill_place, approval_number=delivery.approval_number, tag=delivery.tag,
    )


def _same_tag(connection: Connection, delivery: Delivery, own_lot: int) -> Iterator[Finding]:
    if not delivery.tag or not delivery.supplier:
        return
    others = [
        lot for lot in look_carcasses.with_tag(connection, delivery.tag, delivery.supplier) if lot != own_lot
    ]
    if others:
        yield Finding(
            "tag-met-before", Severity.ASK,
            f"This supplier's tag {delivery.tag} is already in the register, on {code_of(others[0])}.",
            "Read the tag again. If it is another body with the same number, say so as the reason.",
            "the register itself",
        )


def _order_of_days(delivery: Delivery, received_on: date) -> Iterator[Finding]:
    if delivery.killed_on is not None and delivery.killed_on > received_on:
        yield Finding(
            "killed-after-receipt", Severity.STOP,
            "The day of killing lies after the day of delivery.",
            "Read the date on the card again.", "the calendar",
        )
    elif delivery.killed_on is not None and (received_on - delivery.killed_on).days > _LONG_DAYS:
        yield Finding(
            "killed-long-before", Severity.ASK,
            f"It was killed {(received_on - delivery.killed_on).days} days before it came.",
            "Read the date on the card again, the year too. If it is right, say where it hung.",
            "the calendar", "inference",
        )


def still_missing(delivery: Delivery) -> tuple[str, ...]:
    """What can be finished later, in the words of the form."""
    blanks = (
        ("the tag number", not delivery.tag),
        ("the day of killing", delivery.killed_on is None),
        ("the time of killing", not delivery.kill_time),
        ("the place of killing", not delivery.kill_place),
        ("a temperature", not delivery.readings),
        ("the sex", delivery.sex == "unknown" and delivery.count == 1),
        ("a hook or shelf", not delivery.place),
        ("the price", delivery.pence_per_kg is None),
    )
    return tuple(words for words, is_missing in blanks if is_missing)
