"""A delivery as the door sees it: one body, or one batch of small game, with its paper.

Frozen values with no judgement in them; `domain.seasons`, `weights`, `temperatures` and `papers` judge.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum


class Answer(StrEnum):
    """How one statement on a hunter's declaration reads."""

    YES = "yes"
    NO = "no"
    NOT_STATED = "not stated"
    CANT_READ = "can't read"


class Decision(StrEnum):
    """What was decided at the door."""

    ACCEPT = "accept"
    TRIM = "accept with trim"
    HOLD = "hold"
    SPECIMEN = "teaching specimen"
    REJECT = "reject"


@dataclass(frozen=True, slots=True)
class Basis:
    """What was on the scale: a bare weight means nothing without it."""

    in_skin: bool = True
    head_on: bool = False
    feet_on: bool = False
    pluck_in: bool = False

    @property
    def words(self) -> str:
        """For people: 'in the skin, head off, feet off, pluck out'."""
        return ", ".join(
            (
                "in the skin" if self.in_skin else "skinned",
                "head on" if self.head_on else "head off",
                "feet on" if self.feet_on else "feet off",
                "pluck in" if self.pluck_in else "pluck out",
            )
        )


@dataclass(frozen=True, slots=True)
class Delivery:
    """Everything asked at the door. Empty text and None mean 'not given yet', never 'none'.

    Units: grams, tenths of a degree Celsius, pence a kilo. `kill_time` is local 'HH:MM'.
    `readings` are (where on the body, tenths of a degree). `statements` follow Regulation 853/2004,
    Annex III, Section IV, Chapter II, 4(a). `reasons` answer findings, by the finding's code.
    """

    supplier: str  # supplier code, "S001"
    species: str
    sex: str = "unknown"  # male | female | unknown
    origin: str = "wild-shot"
    route: str = "wild-direct"
    grams: int = 0
    basis: Basis = field(default_factory=Basis)
    count: int = 1  # bodies under this number; more than one makes it a batch
    tag: str = ""
    age_class: str = ""
    killed_on: date | None = None
    kill_time: str = ""
    kill_place: str = ""
    has_declaration: bool = False
    declaration_number: str = ""
    no_abnormal_characteristics: Answer = Answer.NOT_STATED
    no_abnormal_behaviour: Answer = Answer.NOT_STATED
    no_contamination: Answer = Answer.NOT_STATED
    trained_person: str = ""  # a name; kept on a card outside the sealed entry
    certificate_number: str = ""
    approval_number: str = ""
    exception_type: str = ""  # a licence or exception for a kill out of season or at night (facts.exceptions)
    exception_number: str = ""
    latitude_millionths: int | None = None  # of the place of killing
    longitude_millionths: int | None = None
    ammunition: str = ""  # "lead", "not lead" or not stated
    probe: str = ""  # code of the probe the readings were taken with
    inspection_notes: str = ""
    readings: tuple[tuple[str, int], ...] = ()
    supplier_grams: int | None = None
    pence_per_kg: int | None = None
    place: str = ""  # a hook or shelf code
    received_at: datetime | None = None  # None: now
    dispatched_on: date | None = None
    decision: Decision = Decision.ACCEPT
    decision_reason: str = ""
    reasons: dict[str, str] = field(default_factory=dict)
