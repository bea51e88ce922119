"""How numbers, days and instants are written on paper.

Grams are whole, so kilograms with three decimals are exact and columns add up in print. Instants are kept
in UTC and written in the time of the kitchen's clock, because the time of killing on a card is that too.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, tzinfo
from fractions import Fraction
from functools import cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

NOT_STATED = "not stated"
KITCHEN_ZONE = "Europe/London"
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@cache
def _zone() -> tzinfo:
    """The kitchen's zone; UTC, said as such, on a machine without a time-zone table."""
    try:
        return ZoneInfo(KITCHEN_ZONE)
    except ZoneInfoNotFoundError:
        return UTC


def kg(grams: int) -> str:
    """'0.850 kg'"""
    return f"{kg_number(grams)} kg"


def kg_number(grams: int) -> str:
    """'0.850', for a column whose head says kg."""
    whole, rest = divmod(abs(grams), 1000)
    return f"{'−' if grams < 0 else ''}{whole}.{rest:03d}"


def degrees(tenths_c: int) -> str:
    """'5.2 °C'"""
    whole, rest = divmod(abs(tenths_c), 10)
    return f"{'−' if tenths_c < 0 else ''}{whole}.{rest} °C"


def pounds(pence: int) -> str:
    """'£4.20'"""
    whole, rest = divmod(pence, 100)
    return f"£{whole}.{rest:02d}"


def percent(share: Fraction) -> str:
    """'12.3 %', rounded half up; the exact share stands beside it."""
    per_mille = (share.numerator * 2000 + share.denominator) // (2 * share.denominator)
    whole, rest = divmod(per_mille, 10)
    return f"{whole}.{rest} %"


def fraction(share: Fraction) -> str:
    """'3/8', and '1/1' for all of it."""
    return f"{share.numerator}/{share.denominator}"


def day(given: date | None) -> str:
    """'12 Nov 2026'"""
    if given is None:
        return NOT_STATED
    return f"{given.day} {_MONTHS[given.month - 1]} {given.year}"


def instant(given: datetime | None) -> str:
    """'12 Nov 2026, 14:05' by the kitchen's clock."""
    if given is None:
        return NOT_STATED
    local = given.astimezone(_zone())
    mark = " UTC" if _zone() is UTC else ""
    return f"{day(local.date())}, {local.hour:02d}:{local.minute:02d}{mark}"


def local_day(given: datetime) -> str:
    """The day of an instant by the kitchen's clock."""
    return day(given.astimezone(_zone()).date())


def killed(killed_at: str) -> str:
    """'12 Nov 2026, 07:40' from '2026-11-12T07:40', a bare day, or ''."""
    when, _, clock = killed_at.partition("T")
    try:
        words = day(date.fromisoformat(when))
    except ValueError:
        return killed_at or NOT_STATED
    return f"{words}, {clock}" if clock else f"{words}, time {NOT_STATED}"


def counted(count: int, one: str, many: str = "") -> str:
    """'1 lot', '3 lots'"""
    return f"{count} {one}" if count == 1 else f"{count:,} {many or one + 's'}"
