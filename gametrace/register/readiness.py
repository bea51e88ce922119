"""What an officer would find, in plain words, each with the record behind it and what to answer from it.

Nothing is made up here: where nobody wrote down what was done, the answer says just that.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from gametrace.register.assembling import Assembler
from gametrace.register.lists import span
from gametrace.register.opening import Register
from gametrace.store.engine import Connection

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
    from gametrace.register import readiness_house, readiness_meat
    from gametrace.register.today import setup_gaps
    from gametrace.register.warm_times import episodes

    until = last or register.today()
    since = first or until - timedelta(days=LOOK_BACK_DAYS)
    period = Period(since, until, *span(since, until))
    gaps = [
        Found("The house", ASK, gap.sentence, station=gap.station, code=gap.code, act="Set it up")
        for gap in setup_gaps(register)
    ]
    begins, ends = readiness_house.instants(register, period)
    warm = episodes(register, begins, ends) if ends > begins else ()
    with register.store.reading() as connection:
        read = Reader(connection, register, period)
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


def shortened(found: Iterable[Found], more: str) -> list[Found]:
    """The first lines one by one; of the rest how many there are, in `more` with a place for the count."""
    lines = list(found)
    left = lines[MOST_LINES:]
    if len(left) < 2:
        return lines
    told = left[0]
    rest = Found(told.group, told.state, more.format(len(left)), station=told.station, act="See them")
    return [*lines[:MOST_LINES], rest]
