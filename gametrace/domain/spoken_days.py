"""Reads a day as people type it: 12 nov 2026, 12/11/26, 2026-11-12, yesterday. Day before month."""

from __future__ import annotations

import re
from datetime import date, timedelta

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_FIGURES = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{2}|\d{4})")
_WORDS = re.compile(r"(\d{1,2})\s+([a-z]{3,9})(?:\s+(\d{2}|\d{4}))?")
_AGO = {"today": 0, "yesterday": 1}


def read_day(text: str, today: date) -> date | None:
    """The day meant, or None where the text is no day. Without a year it is the last such day."""
    wanted = " ".join(text.lower().replace(",", " ").split())
    if wanted in _AGO:
        return today - timedelta(days=_AGO[wanted])
    if match := _ISO.fullmatch(wanted):
        return _day(int(match[1]), int(match[2]), int(match[3]))
    if match := _FIGURES.fullmatch(wanted):
        return _day(_year(match[3]), int(match[2]), int(match[1]))
    if match := _WORDS.fullmatch(wanted):
        month = next((at for at, name in enumerate(_MONTHS, 1) if match[2].startswith(name)), 0)
        if match[3]:
            return _day(_year(match[3]), month, int(match[1]))
        this = _day(today.year, month, int(match[1]))
        return this if this is None or this <= today else _day(today.year - 1, month, int(match[1]))
    return None


def _year(text: str) -> int:
    return int(text) + (2000 if len(text) == 2 else 0)


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
