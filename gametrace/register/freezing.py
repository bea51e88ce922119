"""Acts on how a lot is kept: freeze it, thaw it, pack it again, or give it a tutor's own date."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.places import check_free_place, check_kept_at, has_freezer
from gametrace.register.records import Changes, Redating
from gametrace.register.redating import freezing, overriding, repacking, thawing
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_setup


def freeze_lot(
    register: Register,
    *,
    by: str,
    code: str,
    place: str = "",
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Freeze a whole lot, by the end of its last day, on a shelf of a freezer. Raw only once.

    A part of a lot is packed first, as a frozen pack at once or as a pack that is then frozen: what is in the
    freezer has a label of its own.
    A `reason` is asked where it carries no date to go by. The first freezing date is kept for ever.
    """
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        told = freezing(lot, work.day)
        for asked in told.findings:
            if asked.severity is Severity.ASK and not why:
                raise Refusal(asked.sentence, f"{asked.what_to_do} Or say why it may be frozen.", "reason")
        return _plan(work, lot, told, place, reason=why)

    return perform(register, "lot.frozen", decide, by=by, happened_at=happened_at, key=key)


def thaw_lot(
    register: Register,
    *,
    by: str,
    code: str,
    method: str,
    place: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Thaw a whole lot: a new short date; the first freezing date, this day and the way are kept with it."""

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        return _plan(work, lot, thawing(lot, work.day, method), place, method=method)

    return perform(register, "lot.thawed", decide, by=by, happened_at=happened_at, key=key)


def repack(
    register: Register,
    *,
    by: str,
    code: str,
    pack_state: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Pack a lot again, loose, in vacuum or in modified air. It gains no day by it."""

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        return _plan(work, lot, repacking(lot, work.day, pack_state), lot.place)

    return perform(register, "lot.repacked", decide, by=by, happened_at=happened_at, key=key)


def override_date(
    register: Register,
    *,
    by: str,
    code: str,
    to: date,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A tutor's own date with a reason. The date by rule stays on view beside it.

    Changes.findings say how far it goes beyond the rule, and what to keep with it.
    """
    why = clean(reason, "reason", most=500, needed="A date by hand needs a reason.")

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        told = overriding(lot, work.day, to, why, by)
        return _plan(work, lot, told, lot.place, rule=f"a tutor's own date: {why}", reason=why)

    return perform(register, "date.overridden", decide, by=by, happened_at=happened_at, key=key)


def _plan(work: Work, lot: LotFacts, told: Redating, place: str, *, rule: str = "", **also: str) -> Plan:
    was = {
        "use_by": _text(lot.use_by),
        "date_rule": lot.date_rule,
        "pack_state": lot.pack_state,
        "first_frozen_on": _text(lot.first_frozen_on),
        "thawed_on": _text(lot.thawed_on),
        "place": lot.place,
    }
    now = {
        "use_by": told.now.isoformat(),
        "date_rule": rule or told.rule,
        "pack_state": told.state,
        "first_frozen_on": _text(told.first_frozen_on),
        "thawed_on": _text(told.thawed_on),
        "place": _place(work, lot, place, is_frozen=told.state == "frozen"),
    }
    body: dict[str, Any] = {"lot": lot.id, "was": was, "now": now, **also}
    return Plan(body, codes=(lot.code,), findings=told.findings)


def _place(work: Work, lot: LotFacts, place: str, *, is_frozen: bool) -> str:
    """Where it lies from now on. It stays where it is when that suits it; otherwise the place is asked."""
    if place and place != lot.place:
        found = check_free_place(work.connection, place, lot=lot.id)
        check_kept_at(work.connection, found, is_frozen=is_frozen)
        return found
    row = look_setup.place_row(work.connection, lot.place) if lot.place else None
    if row is not None and (row.sort == "freezer") == is_frozen:
        return lot.place
    if is_frozen and has_freezer(work.connection):
        raise Refusal("It is not said in which freezer it lies.", "Choose a shelf in a freezer.", "place")
    if row is not None and not is_frozen:
        raise Refusal(f"{row.name} is in a freezer.", "Choose where it lies from now on.", "place")
    return ""  # nobody wrote down where it is


def _text(day: date | None) -> str | None:
    return day.isoformat() if day else None
