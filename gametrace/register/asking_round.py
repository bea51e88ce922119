"""Questions about many lots answered in one act, joined and cut, saved, and put on hold together.

A gathering is a row of steps: each asks one thing, and says how its answer is put to what was gathered
before. The steps are plain values, so that they can be written into an entry and asked again later.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lot_sets import How, combined
from gametrace.domain.lots import GONE_KINDS, StopSort
from gametrace.register import asking_words
from gametrace.register.asking_answers import ANSWERS
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant
from gametrace.register.opening import Register
from gametrace.register.records import Changes, Lot
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots, look_sets, rows

MOST_STEPS = 12
MOST_HELD = 2_000  # a hold each: more than a larder ever holds at once


@dataclass(frozen=True, slots=True)
class Step:
    """One question. `given` are its words: codes, a store, moments as UTC text, days as ISO text."""

    sort: str  # lots | touched | mixed | store | supplier | hunter | place | killed | received | ...
    given: tuple[str, ...]
    how: How = How.JOIN


@dataclass(frozen=True, slots=True)
class Gathering:
    """What the steps brought together."""

    steps: tuple[Step, ...]
    words: str  # the steps as a sentence
    lots: tuple[Lot, ...]
    counts: tuple[int, ...]  # how many lots each step found by itself

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(lot.code for lot in self.lots)

    @property
    def grams_here(self) -> int:
        return sum(lot.grams for lot in self.lots if lot.kind not in (*GONE_KINDS, "dish"))


@dataclass(frozen=True, slots=True)
class SavedSet:
    code: str  # Q001
    name: str
    words: str
    steps: tuple[Step, ...]
    lots: int  # how many were in it when it was saved
    saved_at: datetime
    saved_by: str


def gather(register: Register, steps: Sequence[Step]) -> Gathering:
    """Ask the steps and put the answers together. Refuses what cannot be read, with the step's own words."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = _found(read, steps)
        ids = combined([(step.how, one) for step, one in zip(steps, found, strict=True)])
        shown = read.lots_by_id(sorted(ids))
        return Gathering(
            steps=tuple(steps),
            words=asking_words.sentence(read, [(s.sort, s.given, s.how) for s in steps]),
            lots=tuple(shown[lot] for lot in sorted(shown)),
            counts=tuple(len(one) for one in found),
        )


def _found(read: Assembler, steps: Sequence[Step]) -> list[frozenset[int]]:
    if not steps:
        raise Refusal("Nothing has been asked yet.", "Choose a question first.", "steps")
    if len(steps) > MOST_STEPS:
        raise Refusal(f"At most {MOST_STEPS} steps.", "Save what you have and go on from there.", "steps")
    return [_answer(read, step) for step in steps]


def _answer(read: Assembler, step: Step) -> frozenset[int]:
    answer: Callable[[Assembler, Sequence[str]], frozenset[int]] | None = ANSWERS.get(step.sort)
    if answer is None:
        raise Refusal(f"There is no question called {step.sort}.", "Choose one of the list.", "sort")
    return answer(read, step.given)


def save_set(
    register: Register,
    *,
    by: str,
    name: str,
    steps: Sequence[Step],
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Keep the lots that these steps find now, under a name. Changes.code is the set's, Q001."""
    title = clean(name, "name", most=80, needed="A set needs a name.")

    def decide(work: Work) -> Plan:
        lots = _lots_now(register, work, steps)
        code = rows.next_code(work.connection, "saved_set", "Q")
        body = {"set": code, "name": title, "asked": spelled(steps), "lots": lots}
        return Plan(body, codes=(code,), created=(code,))

    return perform(register, "set.saved", decide, by=by, happened_at=happened_at, key=key)


def hold_set(
    register: Register,
    *,
    by: str,
    steps: Sequence[Step],
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Put everything the steps find on hold in one act: one entry, a hold each, reaching all made of it.

    What has left the larder for good is not held. Changes.codes are the lots, Changes.created the holds.
    """
    why = clean(reason, "reason", most=500, needed="A hold needs a reason.")

    def decide(work: Work) -> Plan:
        holds = new_holds(work, _lots_now(register, work, steps), why)
        if not holds:
            raise Refusal(
                "Nothing of this is here to hold.", "Ask for something that is still here.", "steps"
            )
        body = {"asked": spelled(steps), "reason": why, "holds": holds}
        codes = tuple(code_of(hold["lot"]) for hold in holds)
        return Plan(body, codes=codes, created=tuple(str(hold["hold"]) for hold in holds))

    return perform(register, "set.held", decide, by=by, happened_at=happened_at, key=key)


def new_holds(work: Work, lots: Sequence[int], why: str) -> list[dict[str, Any]]:
    """A hold for each of these lots that has not left for good."""
    if len(lots) > MOST_HELD:
        raise Refusal(
            f"That is {len(lots):,} lots; at most {MOST_HELD:,} are held in one act.",
            "Cut the set smaller: hold the animals, and it reaches all that was made of them.",
            "steps",
        )
    return [
        {"lot": row.id, **work.new_hold(StopSort.HOLD, why)}
        for row in look_lots.lot_rows(work.connection, lots)
        if row.kind not in GONE_KINDS
    ]


def _lots_now(register: Register, work: Work, steps: Sequence[Step]) -> list[int]:
    read = Assembler(work.connection, register.today())
    found = _found(read, steps)
    lots = sorted(combined([(step.how, one) for step, one in zip(steps, found, strict=True)]))
    if not lots:
        raise Refusal("These questions find nothing together.", "Change a step.", "steps")
    return lots


def saved_sets(register: Register) -> tuple[SavedSet, ...]:
    """What was saved, newest first."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return tuple(_saved(read, row) for row in look_sets.saved_sets(connection))


def _saved(read: Assembler, row: Any) -> SavedSet:
    steps = steps_from(json.loads(row.asked))
    return SavedSet(
        code=row.code,
        name=row.name,
        words=asking_words.sentence(read, [(s.sort, s.given, s.how) for s in steps]),
        steps=steps,
        lots=row.lots,
        saved_at=instant(row.happened_at),
        saved_by=read.initials(row.person),
    )


def spelled(steps: Sequence[Step]) -> list[dict[str, Any]]:
    """The steps as an entry holds them; codes as the keys of lots do not change, so they stay text."""
    return [{"sort": step.sort, "given": list(step.given), "how": str(step.how)} for step in steps]


def steps_from(asked: Sequence[dict[str, Any]]) -> tuple[Step, ...]:
    return tuple(Step(one["sort"], tuple(one["given"]), How(one["how"])) for one in asked)


def lots_step(codes: Sequence[str]) -> Step:
    """Just these lots."""
    for code in codes:
        lot_id_of(code)
    return Step("lots", tuple(codes))
