"""Lets the names of suppliers, hunters and customers go once their records have been kept long enough.

What they brought or had stays under their code, and every trace with it. Until then one step back is what
the law asks a kitchen to know, so nothing is torn up early; a telephone number can be taken out of the
supplier book at any time. People of the house are forgotten by `setup.forget_person`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from gametrace.domain.errors import Refusal
from gametrace.facts.retention import months_to_keep_names
from gametrace.register.clock import day_text, instant, wall_day
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_setup, rows
from gametrace.store.engine import Connection


@dataclass(frozen=True, slots=True)
class KeptName:
    """A supplier, hunter or customer whose name is held, with the day until which it has to be."""

    code: str  # S001, H001
    name: str
    what: str  # supplier | hunter | customer
    last_on: date | None  # of the last lot; None where there is none
    keep_until: date | None

    def may_go(self, today: date) -> bool:
        return self.keep_until is None or today > self.keep_until


def kept_names(register: Register) -> tuple[KeptName, ...]:
    """Everybody from outside whose name is held, whoever may go first on top."""
    with register.store.reading() as connection:
        found = _kept(connection)
    return tuple(sorted(found, key=lambda one: (one.keep_until or date.min, one.code)))


def forget_card(
    register: Register,
    *,
    by: str,
    code: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Tear up a supplier's, hunter's or customer's card. Backups made before still hold it."""
    why = clean(reason, "reason", needed="Forgetting somebody needs a reason.")

    def decide(work: Work) -> Plan:
        one = next((kept for kept in _kept(work.connection) if kept.code == code), None)
        if one is None:
            raise Refusal("No name is held under that code.", "Choose one from the list.", "code")
        if not one.may_go(wall_day(work.written_at)):
            assert one.keep_until is not None
            assert one.last_on is not None
            raise Refusal(
                f"The last entry about {code} is of {day_text(one.last_on)}; the name is kept until "
                f"{day_text(one.keep_until)}.",
                "Until then take out what is not needed, such as the telephone number, in the supplier book.",
                "code",
            )
        if one.name and one.name.casefold() in why.casefold():
            raise Refusal(
                "The reason holds the name that is to be forgotten, and reasons stay for ever.",
                "Say why without the name.",
                "reason",
            )
        rows.tear_card(work.connection, code)
        return Plan({"code": code, "reason": why}, codes=(code,))

    changes = perform(register, "card.forgotten", decide, by=by, happened_at=happened_at, key=key)
    register.store.settle()
    return changes


def _kept(connection: Connection) -> list[KeptName]:
    cards = rows.cards(connection)
    months = months_to_keep_names(rows.settings(connection).get("jurisdiction", ""))
    found = []
    for row in look_setup.names_from_outside(connection):
        if row.code not in cards:
            continue
        last = wall_day(instant(row.last_at)) if row.last_at else None
        until = _months_later(last, months) if last else None
        what = {"S": "supplier", "H": "hunter"}.get(row.code[0], "customer")
        found.append(KeptName(row.code, cards[row.code].get("name", ""), what, last, until))
    return found


def _months_later(day: date, months: int) -> date:
    """The same day so many months on; the month's last where it has none such."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    for last in (day.day, 30, 29, 28):
        try:
            return date(year, month + 1, last)
        except ValueError:
            continue
    raise AssertionError("every month has a 28th")
