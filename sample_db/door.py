"""The door: writes the paper for an arrival, receives it, hangs it, prints its tag."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from gametrace.domain.deliveries import Answer, Basis, Decision, Delivery
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.species import species as species_called
from gametrace.register import acts
from gametrace.register.clock import wall_instant
from sample_db.animals import HANGING, weight
from sample_db.arrivals import Arrival
from sample_db.cast import SOURCES, Source
from sample_db.house import Body, House

_REASONS = {
    "no-temperature": "Probe away for its yearly check; the van's own display read 3.1 °C.",
    "declaration-call-back": "Rang the hunter the same day; answers written on the back of the card.",
    "weight-unusual": "Weighed twice on the rail scale; the figure stands.",
    "route-and-origin": "Asked the supplier; it is as written.",
    "tag-met-before": "The supplier's tag book was started again at 0401; it is another body.",
    "approval-number-missing": "The mark was cut through; number read from the delivery note.",
    "kill-day-missing": "Asked for by telephone.",
}
_HEAD_ON = ("roe", "muntjac")  # small deer sometimes come with the head on
_PRICES = {
    "fallow": 340,
    "red": 320,
    "sika": 330,
    "red-sika-hybrid": 320,
    "roe": 420,
    "muntjac": 300,
    "chinese-water-deer": 310,
    "pheasant": 180,
    "red-legged-partridge": 390,
    "grey-partridge": 520,
    "rabbit": 240,
    "woodpigeon": 260,
    "wild-boar": 360,
}


def receive(house: House, arrival: Arrival) -> Body:
    """One arrival through the door; what its story asks for next happens at once."""
    received_on = arrival.day
    hours = arrival.typed_late_hours
    house.clock.go_to(arrival.day + timedelta(days=hours // 24), 9)
    delivery = _delivery(house, arrival, SOURCES[arrival.source])
    if hours:
        delivery = replace(delivery, received_at=wall_instant(received_on, 10, 20))
    found = acts.preview_delivery(house.register, delivery)
    delivery = replace(delivery, reasons={**_answers(found), **delivery.reasons})
    by = arrival.by or house.rng.choice(("maud", "joss", "joss", "anand"))
    code = house.do(acts.receive_delivery, by=by, delivery=delivery).code
    house.do(acts.note_labels_printed, by=by, codes=[code], sort="carcass")
    body = _body(house, arrival, delivery, code, found)
    house.bodies.append(body)
    if arrival.mark:
        house.marks[arrival.mark] = code
    if arrival.then:
        arrival.then(house, body)
    return body


def _answers(found: tuple[Finding, ...]) -> dict[str, str]:
    asked = (one.code for one in found if one.severity is Severity.ASK)
    return {code: _REASONS.get(code, "Asked the supplier; answer noted.") for code in asked}


def _delivery(house: House, arrival: Arrival, source: Source) -> Delivery:
    rng = house.rng
    group = species_called(arrival.species).group
    is_slaughtered = source.route == "farmed-slaughterhouse"
    basis = Basis(in_skin=not is_slaughtered)
    if group == "small":
        basis = Basis(True, True, True, True)
    elif group == "boar":
        basis = Basis(True, True, True, False)
    elif arrival.species in _HEAD_ON and rng.randrange(4) == 0:
        basis = Basis(in_skin=True, head_on=True)
    grams = weight(rng, arrival.species, arrival.age_class, arrival.count)
    if basis.head_on and group == "large":
        grams = grams * 107 // 100 // 20 * 20
    wanted: dict[str, Any] = {
        "supplier": house.suppliers[arrival.source],
        "species": arrival.species,
        "sex": arrival.sex,
        "age_class": arrival.age_class,
        "origin": source.origin,
        "route": source.route,
        "grams": grams,
        "basis": basis,
        "count": arrival.count,
        "place": "C1.S1" if group == "small" else house.free_hook(("C1.R1", "C1.R2")),
        "readings": _readings(house, group),
        "pence_per_kg": _PRICES[arrival.species] + rng.randint(-3, 3) * 10,
        "inspection_notes": rng.choice(
            (
                "Clean, dry, smells fresh.",
                "Clean; a little hair at the neck.",
                "Dry, good cover of fat.",
                "Shot high in the chest; clean gralloch.",
                "",
            )
        ),
        **_killing(house, arrival, source),
        **_paper(house, source, group),
        **arrival.change,
    }
    if is_slaughtered and not arrival.change.get("place"):
        wanted["place"] = house.free_hook(("C2.R1", "C1.R2"))
    return Delivery(**wanted)


def _readings(house: House, group: str) -> tuple[tuple[str, int], ...]:
    """Tenths of a degree, deep in the haunch, behind the shoulder, inside the ribs; a bag of birds once."""
    if group == "small":
        return (("breast of the middle bird", house.rng.randint(12, 36)),)
    first = house.rng.randint(22, 58)
    return (
        ("haunch", first),
        ("shoulder", first - house.rng.randint(0, 6)),
        ("ribs", first - house.rng.randint(4, 12)),
    )


def _killing(house: House, arrival: Arrival, source: Source) -> dict[str, Any]:
    rng = house.rng
    killed_on: date = arrival.day - timedelta(days=rng.randint(0, 2) + (1 if source.approval else 0))
    if species_called(arrival.species).group == "small":
        killed_on = _not_forbidden(killed_on)
    place = rng.choice(source.places) if source.places else ""
    hour = rng.choice((6, 7, 7, 8, 15, 16)) if not source.approval else rng.choice((9, 10, 11))
    is_today = killed_on == arrival.day
    time = f"{min(hour, 7) if is_today else hour:02d}:{rng.randrange(0, 60, 5):02d}"
    if source.route == "wild-direct" and rng.randrange(9) == 0:
        time = ""  # the field most often missing
    return {"killed_on": killed_on, "kill_time": time, "kill_place": place}


def _not_forbidden(day: date) -> date:
    """No bird falls on a Sunday or on Christmas Day, so that none lies on hold for it for ever."""
    while day.weekday() == 6 or (day.month, day.day) == (12, 25):
        day -= timedelta(days=1)
    return day


def _paper(house: House, source: Source, group: str) -> dict[str, Any]:
    """The declaration of a wild body, or the approval number of one that came through an establishment."""
    if source.approval:
        return {"approval_number": source.approval, "tag": house.next_tag(source.tag_letters)}
    if not source.tag_letters:
        return {}
    tag = house.next_tag(source.tag_letters)
    if group == "small" or not source.hunter:
        return {"tag": tag}  # the number of the bag
    if source.tag_letters == "IF" and house.rng.randrange(6) == 0:
        return {"tag": tag}  # small, local and direct: lawfully without a declaration
    return {
        "tag": tag,
        "has_declaration": True,
        "declaration_number": tag.replace(" ", "/"),
        "no_abnormal_characteristics": Answer.YES,
        "no_abnormal_behaviour": Answer.YES,
        "no_contamination": Answer.YES,
        "trained_person": source.hunter,
        "certificate_number": source.certificate,
    }


def _body(house: House, arrival: Arrival, delivery: Delivery, code: str, found: tuple[Finding, ...]) -> Body:
    fewest, most = HANGING[arrival.species]
    days = arrival.cut_after if arrival.cut_after is not None else house.rng.randint(fewest, most)
    cut_on = house.terms.block_day_near(arrival.day + timedelta(days=days))
    cut_on = max(cut_on, house.terms.open_on_or_after(house.today))
    dress_on = max(house.terms.open_on_or_before(cut_on - timedelta(days=1)), house.today)
    is_stopped = (
        arrival.hangs_for_good
        or delivery.decision not in (Decision.ACCEPT, Decision.TRIM)
        or any(one.severity is Severity.STOP for one in found)
    )
    return Body(
        code=code,
        species=arrival.species,
        sex=arrival.sex,
        origin=delivery.origin,
        source=arrival.source,
        grams=delivery.grams,
        received_on=arrival.day,
        dress_on=dress_on,
        cut_on=cut_on,
        hook=delivery.place,
        in_skin=delivery.basis.in_skin,
        head_on=delivery.basis.head_on,
        count=arrival.count,
        is_stopped=is_stopped,
    )
