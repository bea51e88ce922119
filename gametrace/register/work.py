"""One act, one unit of work: begin, rule, seal, project, commit. Every act goes through `perform`."""

from __future__ import annotations

import unicodedata
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from gametrace.domain.codes import code_of, next_lot_id
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding
from gametrace.register.clock import instant, instant_text, wall_day, wall_text
from gametrace.register.lot_facts import LotFacts, lot_facts
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.roles import MAY, who_may
from gametrace.store import rows
from gametrace.store.engine import Connection
from gametrace.store.journal import Entry, append

AHEAD = timedelta(minutes=5)  # clocks of two stations differ a little
_FIRST_YEAR = 2000  # before this a time is a slip of the finger
_WITHOUT_A_PERSON = frozenset({"larder.set", "person.enrolled"})  # what a new register begins with
# What is done with nobody at the keyboard, or by nobody knows whom.
_BY_ITSELF = frozenset({"backup.kept", "pin.lifted"})
_SEVERAL_LINES = 500  # texts shorter than this stay on one line: names, tags, places


@dataclass(frozen=True, slots=True)
class Plan:
    """What an act has decided to write. `created` are codes for people, first one first."""

    body: dict[str, Any]
    codes: tuple[str, ...] = ()
    created: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


class Work:
    """What an act sees while it decides: the tables, the time, and numbers to give out."""

    def __init__(
        self,
        connection: Connection,
        register: Register,
        happened_at: datetime,
        standing: rows.Standing,
        *,
        is_told: bool = False,
    ) -> None:
        self.connection = connection
        self.happened_at = happened_at
        self._is_told = is_told  # a person gave the time; otherwise it is the clock's
        self.written_at = register.clock()
        self._last_lot = standing.last_lot
        self._last_hold = standing.last_hold

    def lot(self, code: str) -> LotFacts:
        """The lot behind a code, as it stands. Refuses a told time at which it was not there yet.

        A clock that was set back is no reason to refuse: only a time that a person gave is held to this.
        """
        facts = lot_facts(self.connection, code, self.day)
        if self._is_told and instant_text(self.happened_at + AHEAD) < facts.made_at:
            raise Refusal(
                f"{facts.code} was only made on {wall_text(instant(facts.made_at))}.",
                "Give the time it happened again.",
                "happened_at",
            )
        return facts

    def new_lot(self) -> int:
        """The next lot number. A number that a person has seen is never given out again."""
        self._last_lot = next_lot_id(self._last_lot, wall_day(self.written_at).year)
        return self._last_lot

    def new_hold(self, sort: str, reason: str) -> dict[str, Any]:
        """A hold with the next number, as entries spell it."""
        self._last_hold += 1
        return {"hold": self._last_hold, "sort": str(sort), "reason": reason}

    @property
    def day(self) -> date:
        """The larder's day on which it happened."""
        return wall_day(self.happened_at)


def perform(
    register: Register,
    kind: str,
    decide: Callable[[Work], Plan],
    *,
    by: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Run `decide` inside one unit of work, seal what it planned, and say what changed.

    An act done again with the same `key` writes nothing and returns what the first one did. Raises the
    Refusal of `decide`, a Refusal for an unknown person or a time to come, or Trouble; then nothing changed.
    """
    now = register.clock()
    when = happened_at or now
    if when.tzinfo is None:
        raise ValueError("happened_at needs a time zone")
    if when.year < _FIRST_YEAR:
        raise Refusal("That time is too long ago.", "Check the year.", "happened_at")
    if when > now + AHEAD:
        raise Refusal(
            "That time is still to come.", "Give the time it happened, or leave it for now.", "happened_at"
        )
    with register.store.writing() as connection:
        standing = rows.standing(connection, key=key or "", person=by)
        if key and (done := standing.done):
            if done.kind != kind:
                raise ValueError(f"the key of a {done.kind} was given again for a {kind}")
            return _changes(done, rows.created_by(done), was_repeat=True)
        _check_person(connection, register, kind, by, standing)
        plan = decide(Work(connection, register, when, standing, is_told=happened_at is not None))
        entry = append(
            connection,
            after=standing.head,
            kind=kind,
            body=plan.body,
            by=by,
            happened_at=instant_text(when),
            written_at=instant_text(now),
            key=key or str(uuid.uuid4()),
        )
        from gametrace.store.projection import project  # late: a start needs none of it

        project(connection, entry)
    return Changes(
        seq=entry.seq,
        kind=kind,
        codes=plan.codes or plan.created,
        created=plan.created,
        findings=plan.findings,
    )


def _changes(entry: Entry, created: list[int | str], *, was_repeat: bool) -> Changes:
    codes = tuple(code_of(item) if isinstance(item, int) else item for item in created)
    return Changes(seq=entry.seq, kind=entry.kind, codes=codes, created=codes, was_repeat=was_repeat)


def _check_person(
    connection: Connection, register: Register, kind: str, by: str, standing: rows.Standing
) -> None:
    if not by and kind in _WITHOUT_A_PERSON and not rows.has_people(connection):
        return
    if not by and kind in _BY_ITSELF:
        return
    if not standing.role:
        raise Refusal("Nobody has been chosen.", "Choose who you are at the top of the window.", "by")
    if standing.pin_seq and register.shown.get(by) != standing.pin_seq:
        raise Refusal(
            "This name has a PIN, and it has not been given here.",
            "Choose the name at the top of the window and type its PIN.",
            "by",
        )
    role = standing.role
    if role == "officer":
        raise Refusal(
            "An officer may look at everything and change nothing.", "Let the larder write it.", "by"
        )
    if role not in MAY[kind]:
        raise Refusal(
            f"A {role} may not do this.",
            f"Ask a {' or '.join(who_may(kind))} to do it under their own name.",
            "by",
        )


def clean(text: str, field: str, *, most: int = 200, needed: str = "") -> str:
    """Text as it is kept: trimmed, composed, without control characters. Refuses what is too long.

    `needed` is the sentence for when it is empty and must not be.
    """
    kept = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\t", " "))
    if most < _SEVERAL_LINES:
        kept = " ".join(kept.splitlines())
    kept = "".join(c for c in kept if c == "\n" or unicodedata.category(c) not in ("Cc", "Cs")).strip()
    if not any(unicodedata.category(c)[0] in "LNPS" for c in kept):
        kept = ""  # nothing in it that a person could see
    if len(kept) > most:
        raise Refusal(
            f"That is {len(kept):,} characters; {most:,} fit here.", "Shorten it to what matters.", field
        )
    if needed and not kept:
        raise Refusal(needed, "Type it, then go on.", field)
    return kept
