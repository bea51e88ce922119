"""Time as the register writes it: instants in UTC, days as the larder's wall calendar shows them."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

_WALL = ZoneInfo("Europe/London")  # all three jurisdictions keep one civil time


def now_utc() -> datetime:
    return datetime.now(UTC)


def instant_text(moment: datetime) -> str:
    """'2026-11-25T09:53:45Z'. Raises ValueError for a time without a zone: it would be guessed wrong."""
    if moment.tzinfo is None:
        raise ValueError("an instant needs a time zone")
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def instant(text: str) -> datetime:
    return datetime.fromisoformat(text)


def wall_day(moment: datetime) -> date:
    """The day on the larder's calendar at that instant."""
    return moment.astimezone(_WALL).date()


def wall_text(moment: datetime) -> str:
    """'25 Nov 2026, 09:53' on the larder's clock."""
    local = moment.astimezone(_WALL)
    return f"{day_text(local.date())}, {local:%H:%M}"


def wall_instant(day: date, hour: int = 12, minute: int = 0) -> datetime:
    """The UTC instant of a time on the larder's clock."""
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=_WALL).astimezone(UTC)


def iso_day_text(iso: str) -> str:
    """The same from ISO text."""
    return day_text(date.fromisoformat(iso))


def day_text(day: date) -> str:
    """'05 Dec 2026': unambiguous on paper on both sides of any border, whatever the computer's language."""
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    return f"{day.day:02d} {months[day.month - 1]} {day.year}"
