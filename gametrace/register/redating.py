"""What a change would make of a lot's date: worked out once, shown before it is done and written when it is.

Each change gives the new day with the rule and source it rests on. None of them gains a day but freezing and
a date by hand. Refuses what may not be done; nothing is written here.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from gametrace.domain.date_changes import (
    Dated,
    freeze_findings,
    frozen,
    override_findings,
    packed,
    repacked,
    thaw_findings,
    thawed,
)
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import KEPT_KINDS, LotKind
from gametrace.facts.loading import UnknownFact
from gametrace.register.clock import day_text
from gametrace.register.lot_facts import LotFacts, lot_facts
from gametrace.register.opening import Register
from gametrace.register.pack_dates import PACK_STATES, date_words, is_minced, refuse_frozen
from gametrace.register.records import Redating

LOOSE = "chilled-loose"  # what meat is that nobody packed


def redating(
    register: Register,
    code: str,
    change: str,
    *,
    method: str = "",
    pack_state: str = "",
    to: date | None = None,
    reason: str = "",
) -> Redating:
    """The old and the new date of a change made today: freeze, thaw (`method`), repack or override (`to`)."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today())
    today = register.today()
    match change:
        case "freeze":
            return freezing(lot, today)
        case "thaw":
            return thawing(lot, today, method)
        case "repack":
            return repacking(lot, today, pack_state)
        case "override":
            return overriding(lot, today, to, reason, "the tutor")
    raise ValueError(f"there is no change of a date called {change}")


def freezing(lot: LotFacts, on: date) -> Redating:
    """By the end of its last day; the first freezing date is kept."""
    _refuse_absent(lot)
    if lot.is_frozen:
        raise Refusal(f"{lot.code} is frozen already.", "Choose another.", "code")
    asked = freeze_findings(on, _last_day_to_freeze(lot, on), thawed_before=lot.thawed_on is not None)
    _refuse_stops(lot, asked)
    made = frozen(on, is_mince=is_minced(lot.product, "frozen"), first_frozen_on=lot.first_frozen_on)
    return _told(lot, "freeze", made.dated, "frozen", asked, first_frozen_on=made.first_frozen_on)


def _last_day_to_freeze(lot: LotFacts, on: date) -> date | None:
    """Its date. A part that has none counts as loose meat from the day it was cut, while that lasts."""
    if lot.use_by is None and lot.kind == LotKind.PART:
        loose = packed(LOOSE, lot.made_on, is_mince=is_minced(lot.product, LOOSE)).last_day
        return loose if on <= loose else None
    return lot.use_by


def thawing(lot: LotFacts, on: date, method: str) -> Redating:
    """A new short date, with the way it was thawed. Past its best-by only a tutor's date leads on."""
    _refuse_absent(lot)
    if not lot.is_frozen:
        raise Refusal(f"{lot.code} is not frozen.", "Check which pack is in your hand.", "code")
    _refuse_past(lot, on)
    if not method:
        raise Refusal("It is not said how it is thawed.", "Choose the way.", "method")
    try:
        asked = thaw_findings(on, lot.first_frozen_on, method)
        dated = thawed(on, method, is_mince=is_minced(lot.product, "thawed"), present_last_day=lot.use_by)
    except UnknownFact as error:
        raise Refusal(str(error), "Choose the way from the list.", "method") from error
    _refuse_stops(lot, asked)
    return _told(lot, "thaw", dated, "thawed", asked, first_frozen_on=lot.first_frozen_on, thawed_on=on)


def repacking(lot: LotFacts, on: date, pack_state: str) -> Redating:
    """Another wrapping: its days go on from the first one."""
    _refuse_absent(lot)
    if pack_state not in PACK_STATES or pack_state == "frozen":
        raise Refusal(
            "It is packed loose, in vacuum or in modified air.",
            "Choose one; freezing it is an act of its own.",
            "pack_state",
        )
    refuse_frozen(lot)
    _refuse_past(lot, on)
    minced = is_minced(lot.product, pack_state)
    if lot.use_by is None:
        dated = packed(pack_state, on, is_mince=minced)
    else:
        first = lot.first_packed_on or lot.made_on
        dated = repacked(pack_state, on, first, lot.use_by, is_mince=minced)
    return _told(
        lot, "repack", dated, pack_state, first_frozen_on=lot.first_frozen_on, thawed_on=lot.thawed_on
    )


def overriding(lot: LotFacts, on: date, to: date | None, reason: str, tutor: str) -> Redating:
    """A tutor's own date. What has passed its use-by day is not dated on."""
    _refuse_absent(lot)
    if to is None:
        raise Refusal("The new date is missing.", "Write the day, for example 4 Dec.", "to")
    if lot.use_by is not None and lot.use_by < on and not lot.is_frozen:
        raise Refusal(f"Its use-by day has gone: {day_text(lot.use_by)}.", "It can only be binned.", "to")
    if to < on:
        raise Refusal("That day has gone already.", "Write a day to come, or today.", "to")
    by_rule = _date_it_has(lot)
    if to == lot.use_by:
        raise Refusal("That is the date it has.", "Write the other one.", "to")
    asked = override_findings(by_rule, to, reason, tutor)
    for one in asked:
        if one.severity is Severity.STOP:
            raise Refusal(one.sentence, one.what_to_do, "to" if reason.strip() else "reason")
    dated = Dated(to, by_rule.rule, by_rule.counted_from)
    told = _told(
        lot, "override", dated, lot.pack_state, asked,
        first_frozen_on=lot.first_frozen_on, thawed_on=lot.thawed_on,
    )  # fmt: skip
    return told


def _date_it_has(lot: LotFacts) -> Dated:
    """The day it carries, as the rule's; of one without a day, loose meat's from the day it was made."""
    state = lot.pack_state or LOOSE
    first = lot.first_frozen_on if lot.is_frozen else lot.thawed_on or lot.first_packed_on
    by_rule = packed(state, first or lot.made_on, is_mince=is_minced(lot.product, state))
    return Dated(lot.use_by or by_rule.last_day, by_rule.rule, by_rule.counted_from)


def _told(
    lot: LotFacts,
    change: str,
    dated: Dated,
    state: str,
    findings: tuple[Finding, ...] = (),
    *,
    first_frozen_on: date | None,
    thawed_on: date | None = None,
) -> Redating:
    return Redating(
        code=lot.code,
        change=change,
        was=lot.use_by,
        was_rule=lot.date_rule,
        was_state=lot.pack_state,
        now=dated.last_day,
        rule=date_words(dated),
        state=state,
        first_frozen_on=first_frozen_on,
        thawed_on=thawed_on,
        findings=findings,
    )


def _refuse_absent(lot: LotFacts) -> None:
    if lot.kind not in KEPT_KINDS and lot.kind != LotKind.BATCH:
        raise Refusal(
            f"{lot.code} is no part, pack or mix.", "Freeze, thaw and date what was cut or packed.", "code"
        )
    if lot.grams_left == 0:
        raise Refusal(f"Nothing is left of {lot.code}.", "Check the number.", "code")


def _refuse_past(lot: LotFacts, on: date) -> None:
    if lot.use_by is not None and lot.use_by < on:
        words = "Its best-by day" if lot.is_frozen else "Its use-by day"
        raise Refusal(f"{words} has gone: {day_text(lot.use_by)}.", "Ask a tutor, or bin it.", "code")


def _refuse_stops(lot: LotFacts, asked: Iterable[Finding]) -> None:
    for one in asked:
        if one.severity is Severity.STOP:
            raise Refusal(f"{lot.code}: {one.sentence}", one.what_to_do, "code")
