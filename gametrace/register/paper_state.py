"""How far an animal's paper has come: complete, what is missing, what is lawfully absent."""

from __future__ import annotations

from typing import Any

from gametrace.domain.deliveries import Delivery
from gametrace.domain.papers import Declaration, evidence_line


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


def evidence(delivery: Delivery, boar_result: str = "awaited", boar_reference: str = "") -> str:
    """'complete', 'n missing' or 'lawfully absent', in words. A boar's written result counts as a paper."""
    return evidence_line(
        route=delivery.route,
        origin=delivery.origin,
        species=delivery.species,
        declaration=declaration_of(delivery),
        killed_on=delivery.killed_on,
        kill_time=delivery.kill_time,
        kill_place=delivery.kill_place,
        approval_number=delivery.approval_number,
        tag=delivery.tag,
        boar_result=boar_result,
        boar_reference=boar_reference,
    )


def still_missing(delivery: Any) -> tuple[str, ...]:
    """What can be finished later, in the words of the form: of a Delivery, or a row of `paper_blanks`."""
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


def calls_to_make(row: Any, rung_about: set[str]) -> tuple[str, ...]:
    """Statements nobody can read, and a time or place left out of a declaration, not yet rung about."""
    if not row.has_declaration:
        return ()
    unread = [
        name
        for name in ("no_abnormal_characteristics", "no_abnormal_behaviour", "no_contamination")
        if getattr(row, name) in ("can't read", "not stated")
    ]
    blank = [name for name in ("kill_time", "kill_place", "killed_on") if not getattr(row, name)]
    return tuple(name for name in (*unread, *blank) if name not in rung_about)
