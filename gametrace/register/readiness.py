"""What an officer would find, in plain words, each with the record behind it and what to answer from it.

Nothing is made up here: where nobody wrote down what was done, the answer says just that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, TypeVar

from gametrace.register.assembling import Assembler
from gametrace.register.lists import span
from gametrace.register.opening import Register
from gametrace.store.engine import Connection

if TYPE_CHECKING:
    from gametrace.register.warm_times import Episode

Thing = TypeVar("Thing")
LOOK_BACK_DAYS = 92  # common practice, no source: an officer reads back over some months of diary
MOST_LINES = 6  # of one group one by one; the others are counted

READY, ASK, STOPPED = "ready", "ask", "on hold"


@dataclass(frozen=True, slots=True)
class Found:
    """One thing an officer would find."""

    group: str
    state: str  # ready | ask | on hold
    sentence: str
    answer: str = ""  # how to answer, from the records
    record: str = ""  # 'entry 118', '26-00417-E'
    station: str = ""  # where to go about it, with the code and the word of the act
    code: str = ""
    act: str = ""


@dataclass(frozen=True, slots=True)
class Period:
    """The days looked back over, both included, and the same as UTC instants, the end excluded."""

    first: date
    last: date
    start: str
    end: str


class Reader(Assembler):
    """One consistent view, with the register and the period beside it."""

    def __init__(self, connection: Connection, register: Register, period: Period) -> None:
        super().__init__(connection, register.today())
        self.now = register.clock()
        self.period = period


def readiness(register: Register, first: date | None = None, last: date | None = None) -> tuple[Found, ...]:
    """In the order an officer asks; a group where all is well says so in one line."""
    from gametrace.register.warm_times import episodes_of_days

    until = last or register.today()
    since = first or until - timedelta(days=LOOK_BACK_DAYS)
    warm, gaps = episodes_of_days(register, since, until), house_gaps(register)
    with register.store.reading() as connection:
        return found_by(Reader(connection, register, period_of(since, until)), gaps, warm)


def period_of(first: date, last: date) -> Period:
    return Period(first, last, *span(first, last))


def house_gaps(register: Register) -> list[Found]:
    """What the house has not set up yet."""
    from gametrace.register.today import setup_gaps

    return [
        Found("The house", ASK, gap.sentence, station=gap.station, code=gap.code, act="Set it up")
        for gap in setup_gaps(register)
    ]


def found_by(read: Reader, gaps: Sequence[Found], warm: Sequence[Episode]) -> tuple[Found, ...]:
    """Everything in one reading, with what was read before: the gaps of the house, the warm times."""
    from gametrace.register import readiness_house, readiness_meat

    groups = (
        gaps,
        readiness_meat.papers(read),
        readiness_house.suppliers(read),
        readiness_meat.refusals(read),
        readiness_house.temperatures(warm),
        readiness_house.probes(read),
        readiness_meat.holds(read),
        readiness_meat.weights(read),
        readiness_meat.late(read),
        readiness_meat.corrections(read),
        readiness_house.drills(read),
        readiness_house.backups(read),
    )
    return tuple(one for group in groups for one in group)


def full(text: str) -> str:
    """A person's words as a sentence, ended once."""
    kept = text.strip()
    return kept if not kept or kept.endswith((".", "!", "?", "…")) else f"{kept}."


def shortened(things: Sequence[Thing], told: Callable[[Thing], Found], more: str) -> list[Found]:
    """The first told one by one; of the rest how many there are, in `more` with a place for the count.

    What is only counted is not told: it would be read for nothing.
    """
    left = len(things) - MOST_LINES
    if left < 2:
        return [told(thing) for thing in things]
    *lines, next_one = (told(thing) for thing in things[: MOST_LINES + 1])
    words = more.format(left)
    return [*lines, Found(next_one.group, next_one.state, words, station=next_one.station, act="See them")]


def as_told(found: Found) -> Found:
    """For `shortened`, where the lines are told already."""
    return found
