"""What becomes of a date when meat is packed, packed again, frozen, thawed, mixed or dated by hand.

A date may be shortened by what is done to meat and is never lengthened by packing it again. Nothing here
is recorded, and no date says that meat is good: the kitchen's own food safety plan decides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from gametrace.domain.dates import DateRule, day_words, rule_for
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.shelf_life import date_change, thaw_method
from gametrace.facts.sources import citation

PACKED = ("vacuum", "modified-atmosphere")  # their days run from the first packing


@dataclass(frozen=True, slots=True)
class Dated:
    """A last day, the rule and day it was counted from, and why it is shorter where it is."""

    last_day: date
    rule: DateRule
    counted_from: date
    why_shorter: str = ""

    @property
    def words(self) -> str:
        """'7 January 2027: Vacuum packed, chilled, 10 days from 28 December 2026 (source).'"""
        days = "1 day" if self.rule.days == 1 else f"{self.rule.days} days"
        said = (
            f"{day_words(self.last_day)}: {self.rule.name}, {days} from {day_words(self.counted_from)} "
            f"({self.rule.source})."
        )
        return f"{said} {self.why_shorter}".strip()


def earliest(days: Iterable[date | None]) -> date | None:
    """The earliest day of those that have one."""
    return min((day for day in days if day is not None), default=None)


def packed(state: str, on: date, *, is_mince: bool = False, parents: Iterable[date | None] = ()) -> Dated:
    """A first pack, or a lot made: the rule from that day, and no later than what went in allows.

    `parents` are the last days that bind it: all of them for a mixed lot; none for a cut that is first
    packed, whose carcass has no such day.
    """
    return _no_later(rule_for(state, is_mince), on, earliest(parents), "earliest-of-parents")


def repacked(
    state: str, on: date, first_packed_on: date, present_last_day: date, *, is_mince: bool = False
) -> Dated:
    """Packed again: counted from the first packing, and never later than the day it already had."""
    rule = rule_for(state, is_mince)
    counted_from = first_packed_on if state in PACKED else on
    return _no_later(rule, counted_from, present_last_day, "first-pack")


def _no_later(rule: DateRule, counted_from: date, bound: date | None, change: str) -> Dated:
    last_day = rule.last_day(counted_from)
    if bound is None or bound >= last_day:
        return Dated(last_day, rule, counted_from)
    return Dated(bound, rule, counted_from, date_change(change).note)


@dataclass(frozen=True, slots=True)
class Frozen:
    """A freezing: the best-before day of quality, and the first freezing date that the label keeps."""

    dated: Dated
    first_frozen_on: date

    @property
    def label(self) -> str:
        return f"Frozen on {day_words(self.first_frozen_on)}"


def frozen(on: date, *, is_mince: bool = False, first_frozen_on: date | None = None) -> Frozen:
    """Frozen on a day. If it was frozen before, the first day is kept and the quality is counted from it."""
    first = on if first_frozen_on is None else min(first_frozen_on, on)
    rule = rule_for("frozen", is_mince)
    return Frozen(Dated(rule.last_day(first), rule, first), first)


def freeze_findings(
    on: date, last_day: date | None, *, thawed_before: bool = False, is_raw: bool = True
) -> tuple[Finding, ...]:
    """Whether it may still be frozen that day: by the end of its use-by day, and raw only once."""
    found: list[Finding] = []
    if thawed_before and is_raw:
        sentence = f"It was frozen and thawed before. {date_change('no-second-freezing').note}"
        found.append(
            _stop("freeze-second-time", sentence, "Cook it, use it or bin it.", "no-second-freezing")
        )
    if last_day is not None and on > last_day:
        sentence = f"Its last day was {day_words(last_day)}. {date_change('freeze-by').note}"
        found.append(_stop("freeze-too-late", sentence, "Bin it, and write down why.", "freeze-by"))
    if last_day is None:
        rule = date_change("freeze-by")
        sentence = f"It carries no last day. {rule.note}"
        ask = "Give it a date by rule first."
        found.append(
            Finding("freeze-no-date", Severity.ASK, sentence, ask, citation(rule.source), rule.status)
        )
    return tuple(found)


def _stop(code: str, sentence: str, what_to_do: str, change: str) -> Finding:
    rule = date_change(change)
    return Finding(code, Severity.STOP, sentence, what_to_do, citation(rule.source), rule.status)


def thawed(on: date, method: str, *, is_mince: bool = False, present_last_day: date | None = None) -> Dated:
    """A thawing begun that day: a new short date, never later than the day it had, and none at all beyond
    the day for what is cooked at once."""
    way, rule = thaw_method(method), rule_for("thawed", is_mince)
    if way.must_be_cooked_at_once:
        return Dated(on, rule, on, f"Thawed {way.name}: {way.note}")
    return _no_later(rule, on, present_last_day, "thaw-no-later")


def thaw_findings(on: date, first_frozen_on: date | None, method: str) -> tuple[Finding, ...]:
    """What has to be kept of a thawing, and what is missing."""
    rule = date_change("thaw-record")
    cited = citation(rule.source)
    if first_frozen_on is None or not method.strip():
        missing = "first freezing date" if first_frozen_on is None else "method"
        sentence = f"The {missing} is not known. {rule.note}"
        ask = "Look for it on the old label; write 'not known' only if nobody can say."
        return (Finding("thaw-record-incomplete", Severity.ASK, sentence, ask, cited, rule.status),)
    way = thaw_method(method)
    if first_frozen_on > on:
        sentence = f"It cannot be thawed before it was frozen, on {day_words(first_frozen_on)}."
        return (Finding("thaw-before-frozen", Severity.STOP, sentence, "Read both days again."),)
    sentence = f"Frozen {day_words(first_frozen_on)}, thawed {way.name} on {day_words(on)}. {rule.note}"
    ask = "Cook it at once." if way.must_be_cooked_at_once else "Do not freeze it raw again."
    return (Finding("thaw-record", Severity.NOTE, sentence, ask, cited, rule.status),)


def _days(span: timedelta) -> str:
    return "1 day" if span.days == 1 else f"{span.days} days"


def override_findings(by_rule: Dated, wanted: date, reason: str, tutor: str) -> tuple[Finding, ...]:
    """Whether a date by hand may stand: with a reason and a tutor; a longer one is said to be longer."""
    if wanted == by_rule.last_day:
        return ()
    if not reason.strip() or not tutor.strip():
        missing = " and ".join(
            word for word, given in (("a reason", reason), ("a tutor", tutor)) if not given.strip()
        )
        sentence = f"{day_words(wanted)} is not the day by rule, {day_words(by_rule.last_day)}."
        return (_stop("override-incomplete", sentence, f"It needs {missing}.", "override"),)
    if wanted < by_rule.counted_from:
        sentence = f"{day_words(wanted)} lies before the day it is counted from."
        return (_stop("override-before-start", sentence, "Read the day again.", "override"),)
    if wanted < by_rule.last_day:
        sentence = f"Shortened by hand to {day_words(wanted)} by {tutor}: {reason}"
        return (Finding("override-shorter", Severity.NOTE, sentence),)
    rule = by_rule.rule
    sentence = (
        f"Lengthened by hand to {day_words(wanted)}, "
        f"{_days(wanted - by_rule.last_day)} beyond the rule, by {tutor}: {reason.rstrip('. ')}. {rule.note}"
    )
    ask = "Keep with it what shows that the longer life holds; the local authority may ask."
    return (Finding("override-longer", Severity.ASK, sentence, ask, rule.source, rule.status),)
