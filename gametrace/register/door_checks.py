"""What a delivery must be before it is taken in: tidy texts, weights and days that can be, known words."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import Any, TypeVar

from gametrace.domain.deliveries import Decision, Delivery
from gametrace.domain.errors import Refusal
from gametrace.domain.origins import decisions_allowed
from gametrace.facts.exceptions import exception_type
from gametrace.facts.loading import UnknownFact
from gametrace.facts.origins import check_origin, check_route
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called
from gametrace.register.clock import day_text, wall_day, wall_text
from gametrace.register.work import clean

_Fact = TypeVar("_Fact")

MOST_GRAMS = 500_000
_TIME = re.compile(r"([01]\d|2[0-3]):[0-5]\d")


def is_time(text: str) -> bool:
    """Whether it is a time as it is kept, 07:40."""
    return _TIME.fullmatch(text) is not None


def checked(delivery: Delivery, now: datetime, *, is_new: bool = True) -> Delivery:
    """The delivery with tidy texts, or a Refusal at the field that cannot be.

    What was decided is not asked of a correction: an origin found out later makes it a specimen then.
    """
    kind = _known("species", species_called, delivery.species)
    _known("origin", check_origin, delivery.origin)
    _known("route", check_route, delivery.route)
    if delivery.sex not in ("male", "female", "unknown"):
        raise Refusal(f"“{delivery.sex[:40]}” is not a sex.", "Choose male, female or not known.", "sex")
    if delivery.age_class and delivery.age_class not in {a.id for a in age_classes(kind.id, delivery.sex)}:
        raise Refusal(
            f"“{delivery.age_class[:40]}” is not an age class of this animal.",
            "Choose from the list.",
            "age_class",
        )
    if not 1 <= delivery.grams <= MOST_GRAMS:
        raise Refusal(
            "The weight is missing." if delivery.grams == 0 else "That weight cannot be.",
            f"Give the weight in kilograms, at most {MOST_GRAMS // 1000}.",
            "grams",
        )
    if not 1 <= delivery.count <= 1_000:
        raise Refusal("That count cannot be.", "Give the number of bodies, 1 to 1,000.", "count")
    if delivery.count > 1 and kind.group != "small":
        raise Refusal(
            "Only small game shares a number.", "Receive each animal with its own tag and weight.", "count"
        )
    if delivery.kill_time and not is_time(delivery.kill_time):
        raise Refusal("A time is written 07:40.", "Leave it empty if it is not stated.", "kill_time")
    _check_order_of_days(delivery, now)
    if delivery.supplier_grams is not None and not 1 <= delivery.supplier_grams <= MOST_GRAMS:
        raise Refusal(
            "The supplier's weight cannot be.",
            f"Kilograms, at most {MOST_GRAMS // 1000}, or leave it open.",
            "supplier_grams",
        )
    if delivery.pence_per_kg is not None and not 0 <= delivery.pence_per_kg <= 100_000:
        raise Refusal("That price cannot be.", "Give pounds a kilo, or leave it open.", "pence_per_kg")
    if any(not -500 <= tenths <= 600 for _, tenths in delivery.readings):
        raise Refusal("That temperature cannot be.", "Read the probe again.", "readings")
    tidy = {
        name: clean(getattr(delivery, name), name, most=most)
        for name, most in (
            ("tag", 60),
            ("kill_place", 200),
            ("declaration_number", 60),
            ("trained_person", 120),
            ("certificate_number", 60),
            ("approval_number", 60),
            ("inspection_notes", 2_000),
            ("decision_reason", 500),
            ("exception_number", 120),
            ("probe", 20),
        )
    }
    _check_words(delivery)
    if is_new and delivery.decision.value not in decisions_allowed(delivery.route, delivery.origin):
        raise Refusal(
            "A gift, a road casualty or a beast of unknown origin never goes to a plate.",
            "Take it as a teaching specimen, or reject it.",
            "decision",
        )
    if delivery.decision is not Decision.ACCEPT and not tidy["decision_reason"]:
        raise Refusal(f"“{delivery.decision}” needs a reason.", "Say in a few words why.", "decision_reason")
    reasons = {code: clean(why, "reasons", most=500) for code, why in delivery.reasons.items() if why.strip()}
    readings = tuple((clean(place, "readings", most=60), tenths) for place, tenths in delivery.readings)
    tidied: dict[str, Any] = {**tidy, "species": kind.id, "reasons": reasons, "readings": readings}
    return replace(delivery, **tidied)


def _check_words(delivery: Delivery) -> None:
    """The newer fields: the licence, the place on the map, the ammunition."""
    if delivery.exception_type:
        _known("exception_type", exception_type, delivery.exception_type)
    if delivery.ammunition not in ("", "lead", "not lead"):
        raise Refusal("Ammunition is lead, not lead or not stated.", "Choose one.", "ammunition")
    for name, most in (("latitude_millionths", 90_000_000), ("longitude_millionths", 180_000_000)):
        value = getattr(delivery, name)
        if value is not None and abs(value) > most:
            raise Refusal("That is no place on the map.", "Give latitude and longitude in degrees.", name)


def _known(field: str, look_up: Callable[[str], _Fact], word: str) -> _Fact:
    """What the facts say of a word, or the refusal at its field."""
    try:
        return look_up(word)
    except UnknownFact as error:
        raise Refusal(str(error)[:500], "Choose from the list.", field) from error


def _check_order_of_days(delivery: Delivery, now: datetime) -> None:
    """Killed, then sent, then received, and none of it still to come."""
    received_at = delivery.received_at or now
    received_on, killed_on, sent_on = wall_day(received_at), delivery.killed_on, delivery.dispatched_on
    if killed_on is not None:
        if killed_on > wall_day(now):
            raise Refusal(
                f"{day_text(killed_on)} is still to come.", "Read the day of killing again.", "killed_on"
            )
        if killed_on > received_on:
            raise Refusal(
                "It cannot have been delivered before it was killed.", "Check both dates.", "killed_on"
            )
        if killed_on == received_on and delivery.kill_time > wall_text(received_at)[-5:]:
            raise Refusal(
                "It cannot have been delivered before it was killed.",
                "Check the time of killing.",
                "kill_time",
            )
    if sent_on is not None and (sent_on > received_on or (killed_on is not None and sent_on < killed_on)):
        raise Refusal(
            "It was sent on its way between the kill and the delivery.",
            "Check the date of dispatch.",
            "dispatched_on",
        )
