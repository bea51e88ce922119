"""What was put on hold together: what of it is still held, and lifting it together, by another person."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant
from gametrace.register.opening import Register
from gametrace.register.pins import refuse_one_person
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import journal, look_carcasses, look_sets
from gametrace.store.engine import Connection


@dataclass(frozen=True, slots=True)
class HeldSet:
    """Lots held in one act, as far as they still are."""

    seq: int
    reason: str
    codes: tuple[str, ...]
    held_at: datetime
    held_by: str


def held_sets(register: Register) -> tuple[HeldSet, ...]:
    """Every set of which something is still held, newest first."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = list(journal.entries(connection, look_sets.held_together(connection)))
        return tuple(
            HeldSet(
                seq=entry.seq,
                reason=entry.body["reason"],
                codes=tuple(code_of(one["lot"]) for one in still_held(connection, entry)),
                held_at=instant(entry.happened_at),
                held_by=read.initials(entry.by),
            )
            for entry in found
        )


def still_held(connection: Connection, entry: journal.Entry) -> list[dict[str, Any]]:
    """Hold and lot of what this entry held and nobody has lifted."""
    held = entry.body["holds"]
    still = look_carcasses.not_lifted(connection, [hold["hold"] for hold in held])
    return [{"hold": hold["hold"], "lot": hold["lot"]} for hold in held if hold["hold"] in still]


def release_set(
    register: Register,
    *,
    by: str,
    seq: int,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Lift all that is left of what one `set.held` entry held: another person, with a reason."""
    why = clean(reason, "reason", most=500, needed="Lifting a hold needs a reason.")

    def decide(work: Work) -> Plan:
        entry = next(iter(journal.entries(work.connection, [seq])), None) if seq > 0 else None
        if entry is None or entry.kind != "set.held":
            raise Refusal("That is no set that was held together.", "Choose it from the list.", "seq")
        if entry.by == by:
            raise Refusal(
                "You placed these holds, so another person lifts them.",
                "Ask a colleague to look and decide.",
                "by",
            )
        held = still_held(work.connection, entry)
        if not held:
            raise Refusal("These holds have been lifted already.", "", "seq")
        refuse_one_person(work, entry.by, by)
        return Plan({"holds": held, "reason": why}, codes=tuple(code_of(one["lot"]) for one in held))

    return perform(
        register,
        "set.released",
        decide,
        by=by,
        happened_at=happened_at,
        key=key,
    )
