"""How a new lot is kept: its packing, its last day and the rule, and the days it inherits from its parents.

Works out; writes nothing. The rules themselves are the facts', and what they may do is the domain's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from gametrace.domain.date_changes import PACKED, Dated, earliest, freeze_findings, frozen, packed
from gametrace.domain.dates import DateRule
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.register.lot_facts import LotFacts, lot_facts
from gametrace.register.opening import Register

PACK_STATES = ("chilled-loose", "vacuum", "modified-atmosphere", "frozen")
_MINCED = frozenset({"mince", "sausage-meat"})
_SHORT_FROZEN = _MINCED | {"dice"}  # the published freezer life is of mince and stewing meat together


@dataclass(frozen=True, slots=True)
class Kept:
    """What an entry keeps of how a lot is kept. Days that never were are left out of it."""

    pack_state: str = ""
    use_by: date | None = None
    date_rule: str = ""
    first_packed_on: date | None = None
    first_frozen_on: date | None = None
    thawed_on: date | None = None

    def body(self) -> dict[str, Any]:
        """As entries spell it."""
        days = {
            "first_packed_on": self.first_packed_on,
            "first_frozen_on": self.first_frozen_on,
            "thawed_on": self.thawed_on,
        }
        return {
            "pack_state": self.pack_state,
            "use_by": self.use_by.isoformat() if self.use_by else None,
            "date_rule": self.date_rule,
            **{name: day.isoformat() for name, day in days.items() if day},
        }


NOT_KEPT = Kept()


def is_minced(product_id: str, pack_state: str) -> bool:
    """Whether the shorter life of minced meat is its life."""
    return product_id in (_SHORT_FROZEN if pack_state == "frozen" else _MINCED)


def rule_words(rule: DateRule) -> str:
    """'Vacuum packed, chilled: 10 days (source)'."""
    return f"{rule.name}: {rule.days} day{'' if rule.days == 1 else 's'} ({rule.source})"


def date_words(dated: Dated) -> str:
    """The rule a date rests on, or why it is shorter than that."""
    return (
        f"shorter than {rule_words(dated.rule)}: {dated.why_shorter}"
        if dated.why_shorter
        else rule_words(dated.rule)
    )


def kept_as(
    pack_state: str,
    product_id: str,
    day: date,
    parents: Sequence[LotFacts],
    also_by: Iterable[date | None] = (),
) -> Kept:
    """A pack or a mix made that day: the rule's date or the earliest of what went in, whichever is first.

    `also_by` are the last days of other things in it. Refuses to freeze raw what was thawed, and to chill
    what is still frozen. The first freezing date and the thawing go on to the new lot.
    """
    if pack_state not in PACK_STATES:
        raise Refusal(f"“{pack_state[:40]}” is not a way to pack.", "Choose one from the list.", "pack_state")
    first_frozen_on = earliest(lot.first_frozen_on for lot in parents)
    thawed_on = earliest(lot.thawed_on for lot in parents)
    minced = is_minced(product_id, pack_state)
    if pack_state == "frozen":
        _refuse_freezing(day, parents)
        made = frozen(day, is_mince=minced, first_frozen_on=first_frozen_on)
        dated, first_frozen_on = made.dated, made.first_frozen_on
        bound = earliest(lot.use_by for lot in parents if lot.is_frozen)
        last = min(dated.last_day, bound) if bound else dated.last_day
    else:
        for lot in parents:
            refuse_frozen(lot)
        dated = packed(pack_state, day, is_mince=minced, parents=[*(lot.use_by for lot in parents), *also_by])
        last = dated.last_day
    words = "the earliest date of what went in" if last < dated.rule.last_day(dated.counted_from) else ""
    return Kept(
        pack_state,
        last,
        words or rule_words(dated.rule),
        earliest([day, *(lot.first_packed_on for lot in parents)]) if pack_state in PACKED else day,
        first_frozen_on,
        thawed_on,
    )


def kept_with(parent: LotFacts) -> Kept:
    """A part weighed off another lot: it keeps that lot's date, and is frozen or thawed as that is."""
    return Kept(
        "frozen" if parent.is_frozen else "",
        parent.use_by,
        "the date of the lot it came from" if parent.use_by else "",
        None,
        parent.first_frozen_on,
        parent.thawed_on,
    )


def packing_date(
    register: Register,
    codes: Sequence[str],
    pack_state: str,
    product: str = "",
    also_by: Sequence[date | None] = (),
) -> tuple[date, str]:
    """The date that a pack or mix of these lots would get today, and its rule; the Refusal where none may be.

    `product` is what the first lot is of unless it is named; `also_by` are the last days of other things.
    """
    with register.store.reading() as connection:
        lots = [lot_facts(connection, code, register.today()) for code in codes]
    named = product or (lots[0].product if lots else "")
    kept = kept_as(pack_state, named, register.today(), lots, also_by)
    assert kept.use_by is not None
    return kept.use_by, kept.date_rule


def refuse_frozen(lot: LotFacts) -> None:
    """Frozen meat is thawed, with its day and way, before anything chilled is made of it."""
    if lot.is_frozen:
        raise Refusal(
            f"{lot.code} is still frozen.", "Thaw it first, so that the day and the way are kept.", "code"
        )


def _refuse_freezing(day: date, parents: Iterable[LotFacts]) -> None:
    for lot in parents:
        if lot.is_frozen:
            continue
        for found in freeze_findings(day, lot.use_by or day, thawed_before=lot.thawed_on is not None):
            if found.severity is Severity.STOP:
                raise Refusal(f"{lot.code}: {found.sentence}", found.what_to_do, "pack_state")
