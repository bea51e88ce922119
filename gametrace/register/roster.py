"""The roster: students by code. A name is optional, lies on a card of its own, and can be torn up.

What a student cut stays in the register under the code, so that the trace stays whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from gametrace.domain.errors import Refusal
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_sessions, rows

MOST_AT_ONCE = 60


def add_to_roster(
    register: Register,
    *,
    by: str,
    group: str = "",
    names: Sequence[str] = ("",),
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Give out a code ('R001') for each name; an empty name gives a code without one.

    Changes.created are the codes, in order.
    """
    group_words = clean(group, "group", most=60)
    kept = [clean(name, "names", most=80) for name in names]
    if not 1 <= len(kept) <= MOST_AT_ONCE:
        raise Refusal(f"Between 1 and {MOST_AT_ONCE} codes are given out at once.", "Count again.", "names")

    def decide(work: Work) -> Plan:
        first = int(rows.next_code(work.connection, "student", "R")[1:])
        codes = tuple(f"R{first + at:03d}" for at in range(len(kept)))
        students = [
            {
                "student": code,
                "group": group_words,
                "card": rows.write_card(work.connection, code, {"name": name}) if name else "",
            }
            for code, name in zip(codes, kept, strict=True)
        ]
        return Plan({"students": students}, created=codes)

    return perform(register, "roster.added", decide, by=by, happened_at=happened_at, key=key)


def forget_student(
    register: Register,
    *,
    by: str,
    student: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Take a leaver off the roster and tear up the card. The code stays where it is in the register.

    The name is gone from the file, not from backups made before.
    """
    why = clean(reason, "reason", needed="Forgetting a student needs a reason.")

    def decide(work: Work) -> Plan:
        if not look_sessions.is_on_roster(work.connection, student):
            raise Refusal("There is no such code on the roster.", "Choose one from the list.", "student")
        name = rows.cards(work.connection).get(student, {}).get("name", "")
        if name and name.casefold() in why.casefold():
            raise Refusal(
                "The reason holds the name that is to be forgotten, and reasons stay for ever.",
                "Say why without the name.",
                "reason",
            )
        rows.tear_card(work.connection, student)
        body: dict[str, Any] = {"student": student, "reason": why}
        return Plan(body, codes=(student,))

    changes = perform(register, "roster.forgotten", decide, by=by, happened_at=happened_at, key=key)
    register.store.settle()
    return changes
