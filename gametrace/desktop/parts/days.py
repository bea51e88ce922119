"""Reads a day or a time of day as people write them. British order: the day comes first.

A day without a year is the nearest one that makes sense: the last such day for what has happened, the
nearest one for what is planned. Nothing is guessed beyond that.
"""

from __future__ import annotations

import re
from datetime import date, timedelta

from gametrace.domain.errors import Refusal

_MONTH_NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_MONTHS = tuple(name[:3].lower() for name in _MONTH_NAMES)
_HOW = "Write it as 12/11, 12 Nov or 12/11/2026."
_HOW_TIME = "Write it as 07:40."
_NOTHING = frozenset({"", "not stated", "-", "?"})


def parse_day(text: str, today: date, *, looks_back: bool = True, field: str = "") -> date | None:
    """The day meant, None for nothing or 'not stated', a Refusal where it cannot be read."""
    plain = " ".join(text[:60].lower().replace(",", " ").split())
    if plain in _NOTHING:
        return None
    near = {"today": 0, "yesterday": -1, "tomorrow": 1}
    if plain in near:
        return today + timedelta(days=near[plain])
    day, month, year = _parts(plain, field)
    if not 1 <= month <= 12:
        raise Refusal(f"There is no month {month}.", _HOW, field)
    if year is None:
        return _nearest(day, month, today, looks_back, field)
    return _made(day, month, year, field)


def _parts(plain: str, field: str) -> tuple[int, int, int | None]:
    if match := re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", plain, re.ASCII):
        return int(match[3]), int(match[2]), int(match[1])
    if match := re.fullmatch(r"(\d{1,2})[/. -](\d{1,2})(?:[/. -](\d{4}|\d{2}))?", plain, re.ASCII):
        return int(match[1]), int(match[2]), _year(match[3])
    if match := re.fullmatch(
        r"(\d{1,2})(?:st|nd|rd|th)?[ .-]?([a-z]{3,9})[ .-]?(\d{4}|\d{2})?", plain, re.ASCII
    ):
        name = match[2]
        if name[:3] in _MONTHS and _MONTH_NAMES[_MONTHS.index(name[:3])].lower().startswith(name):
            return int(match[1]), _MONTHS.index(name[:3]) + 1, _year(match[3])
    raise Refusal(f"'{plain[:24]}' is not a day.", _HOW, field)


def _year(text: str | None) -> int | None:
    if text is None:
        return None
    return int(text) if len(text) == 4 else 2000 + int(text)


def _made(day: int, month: int, year: int, field: str) -> date:
    try:
        return date(year, month, day)
    except ValueError:
        sentence = f"{year} has no {day} {_MONTH_NAMES[month - 1]}."
        raise Refusal(sentence, "Look at the card again.", field) from None


def _nearest(day: int, month: int, today: date, looks_back: bool, field: str) -> date:
    years = (today.year, today.year - 1, today.year + 1)
    days = []
    for year in years:
        try:
            days.append(date(year, month, day))
        except ValueError:
            continue
    if looks_back:
        days = [one for one in days if one <= today + timedelta(days=30)]
    if not days:
        return _made(day, month, today.year, field)
    if looks_back:
        return max(days)
    return min(days, key=lambda one: abs((one - today).days))


def day_text(day: date) -> str:
    """'12 Nov 2026', the same on every machine."""
    return f"{day.day} {_MONTH_NAMES[day.month - 1][:3]} {day.year}"


def weekday_text(day: date) -> str:
    """'Thu 12 Nov 2026'."""
    return f"{('Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun')[day.weekday()]} {day_text(day)}"


def parse_time(text: str, *, field: str = "") -> str:
    """'HH:MM', '' for nothing or 'not stated', a Refusal where it cannot be read."""
    plain = "".join(text[:40].lower().split())
    if plain in {"", "notstated", "-", "?"}:
        return ""
    match = re.fullmatch(r"(\d{1,2})(?:[:.h]?(\d{2}))?(am|pm)?", plain, re.ASCII)
    if match is None or (match[2] is None and match[3] is None):
        raise Refusal(f"'{plain[:24]}' is not a time.", _HOW_TIME, field)
    hour, minute = int(match[1]), int(match[2] or 0)
    if match[3] and not 1 <= hour <= 12:
        raise Refusal(f"There is no {hour} o'clock {match[3]}.", _HOW_TIME, field)
    if match[3]:
        hour = hour % 12 + (12 if match[3] == "pm" else 0)
    if hour > 23 or minute > 59:
        raise Refusal(f"{hour:02d}:{minute:02d} is not on the clock.", _HOW_TIME, field)
    return f"{hour:02d}:{minute:02d}"
