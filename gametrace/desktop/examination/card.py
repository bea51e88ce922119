"""One look at one animal as it is being written: answers, marks, and what the other stage had said.

Kept while the person goes elsewhere, until it is written down. It judges nothing and knows no widget.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from gametrace.domain.errors import Refusal
from gametrace.domain.examination import (
    Answered,
    Look,
    answers_for_what_is_absent,
    examination_findings,
    points_to_look_at,
)
from gametrace.facts.examination import Point
from gametrace.facts.species import species as species_called
from gametrace.register.records import Carcass

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

IN_SKIN, OUT_OF_SKIN = "in the skin", "out of the skin"
_SEEN = (Look.AS_IT_SHOULD_BE, Look.NOT_SO)


@dataclass(frozen=True, slots=True)
class Spot:
    """A mark on the outline: thousandths of the drawing's width and height, which faces left.

    The right side is the drawing's mirror, so one place of the body has one number on both sides.
    """

    x_thousandths: int
    y_thousandths: int
    what: str
    side: str


@dataclass
class LookCard:
    """`key` belongs to what is on the card just now: written twice by a trembling hand it is written once."""

    code: str
    species: str
    stage: str
    points: tuple[Point, ...]
    absent: dict[str, str]  # point -> why it cannot be looked at
    answers: dict[str, Answered] = field(default_factory=dict)
    earlier: dict[str, Answered] = field(default_factory=dict)  # at the other stage
    earlier_stage: str = ""
    spots: list[Spot] = field(default_factory=list)
    earlier_spots: list[Spot] = field(default_factory=list)
    is_touched: bool = False
    key: str = field(default_factory=lambda: str(uuid.uuid4()))

    @property
    def has_outline(self) -> bool:
        """Only a beast on four legs of some size is drawn."""
        return species_called(self.species).group != "small"

    def point(self, point_id: str) -> Point:
        return next(one for one in self.points if one.id == point_id)

    def answer(self, point_id: str, look: str, note: str = "") -> None:
        """Refuses to have seen what did not come with the body."""
        if look in _SEEN and point_id in self.absent:
            raise Refusal(self.absent[point_id], "It is 'not present'.", "answers")
        self.answers[point_id] = Answered(point_id, look, note)
        self._touch()

    def note(self, point_id: str, note: str) -> None:
        """What was seen there, or why it was not looked at."""
        if (given := self.answers.get(point_id)) is not None and given.note != note:
            self.answers[point_id] = Answered(point_id, given.answer, note)
            self._touch()

    def take_back(self, point_id: str) -> None:
        self.answers.pop(point_id, None)
        self._touch()

    def mark(self, spot: Spot) -> None:
        self.spots.append(spot)
        self._touch()

    def unmark(self, at: int) -> None:
        del self.spots[at]
        self._touch()

    def _touch(self) -> None:
        self.is_touched = True
        self.key = str(uuid.uuid4())

    def given(self) -> tuple[Answered, ...]:
        """Every answer in the order of the body."""
        return tuple(self.answers[one.id] for one in self.points if one.id in self.answers)

    def left(self) -> tuple[Point, ...]:
        return tuple(one for one in self.points if one.id not in self.answers)

    def next_open(self, after: str) -> str:
        """The next point without an answer, beginning behind `after`; '' when all have one."""
        ids = [one.id for one in self.points]
        at = ids.index(after) + 1 if after in ids else 0
        return next((one for one in (*ids[at:], *ids[:at]) if one not in self.answers), "")

    def signs_seen(self) -> tuple[Point, ...]:
        """Signs of a notifiable disease answered 'not so'."""
        return tuple(
            one
            for one in self.points
            if one.kind == "sign" and one.id in self.answers and self.answers[one.id].answer == Look.NOT_SO
        )

    def reasons(self, asked: tuple[str, ...]) -> dict[str, str]:
        """The notes as reasons of the findings that ask: which answers each of them rests on."""
        rests_on = {
            "examination-not-so": Look.NOT_SO,
            "said-not-present": Look.NOT_PRESENT,
            "not-looked-at": Look.NOT_LOOKED_AT,
        }
        found: dict[str, str] = {}
        for code in asked:
            notes = [
                f"{self.point(one.point).name}: {one.note}"
                for one in self.given()
                if one.note and one.answer == rests_on.get(code)
            ]
            if notes:
                found[code] = "; ".join(notes)[:500]
        return found


def card_of(file: AnimalFile) -> LookCard:
    """The card as far as it is written, with 'not present' put in for what did not come."""
    one = file.carcass
    stage = IN_SKIN if one.in_skin else OUT_OF_SKIN
    points = points_to_look_at(one.species)
    absent = _absent(one)
    card = LookCard(one.code, one.species, stage, points, absent)
    known = {point.id for point in points}
    for look in file.looks:
        if look.point not in known:
            continue
        given = Answered(look.point, look.answer, look.note)
        if look.stage == stage:
            card.answers[look.point] = given
        else:
            card.earlier[look.point] = given
            card.earlier_stage = look.stage
    for point_id in absent:
        if point_id not in card.answers or card.answers[point_id].answer in _SEEN:
            card.answers[point_id] = Answered(point_id, Look.NOT_PRESENT)
    for mark in file.marks:
        spot = Spot(mark.x_thousandths, mark.y_thousandths, mark.what, mark.side)
        (card.spots if mark.stage == stage else card.earlier_spots).append(spot)
    return card


def _absent(one: Carcass) -> dict[str, str]:
    """Each point that cannot be looked at, with the sentence that says so."""
    head_on, pluck_in = "head on" in one.basis_now, "pluck in" in one.basis_now
    absent = answers_for_what_is_absent(
        species=one.species, head_on=head_on, pluck_in=pluck_in, in_skin=one.in_skin
    )
    return {given.point: _cannot(given.point, one, head_on, pluck_in) for given in absent}


def _cannot(point_id: str, one: Carcass, head_on: bool, pluck_in: bool) -> str:
    """The domain's own sentence."""
    found = examination_findings(
        [Answered(point_id, Look.AS_IT_SHOULD_BE)],
        head_on=head_on,
        pluck_in=pluck_in,
        species=one.species,
        jurisdiction="",
        in_skin=one.in_skin,
    )
    return found[0].sentence
