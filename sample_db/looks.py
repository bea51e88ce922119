"""Examinations of the last two months in the order of the body, and the decision out of the skin.

What did not come with the body is answered 'not present', never as it should be. All of it is invented.
"""

from __future__ import annotations

from datetime import timedelta

from gametrace.domain.deliveries import Decision
from gametrace.domain.examination import Answered
from gametrace.facts.examination import points_for
from gametrace.facts.species import species as species_called
from gametrace.register import acts
from sample_db.house import Body, House

_DAYS = 60


def go_round(house: House) -> None:
    """Everything received in these weeks is looked at, and decided again when its skin is off."""
    if (house.terms.last_day - house.today).days > _DAYS:
        return
    since = house.today - timedelta(days=7)
    for body in house.bodies:
        if body.is_stopped or body.is_cut or body.received_on < since:
            continue
        if species_called(body.species).group != "large":
            continue
        if body.in_skin and not body.is_looked_at:
            _look(house, body)
        elif not body.in_skin and body.is_looked_at and not body.is_decided:
            _decide(house, body)


def _look(house: House, body: Body) -> None:
    body.is_looked_at = True
    answers = []
    for point in points_for("large"):
        if point.kind == "sign":
            continue
        is_there = point.needs in ("none", "skin-on") or (point.needs == "head" and body.head_on)
        if point.id == "flies" and house.today.month < 11 and body.code[-1] in "ABCDE":
            answers.append(Answered(point.id, "as it should be", "looked at twice, a warm day"))
        else:
            answers.append(Answered(point.id, "as it should be" if is_there else "not present"))
    house.aside(acts.examine_carcass, by="joss", code=body.code, answers=answers)


def _decide(house: House, body: Body) -> None:
    body.is_decided = True
    is_bruised = body.code[-1] in "MNPQ"
    house.aside(
        acts.decide_again, by="maud", code=body.code,
        decision=Decision.TRIM if is_bruised else Decision.ACCEPT,
        reason="bruised behind the shoulder, to be trimmed" if is_bruised else "clean under the skin",
    )  # fmt: skip
