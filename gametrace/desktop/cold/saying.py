"""Times, spans and temperatures of a store in words, short enough for beside a drawing."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from gametrace.desktop.parts.days import day_text
from gametrace.domain.quantities import celsius_text

_HOUR, _DAY = 3600, 86_400  # seconds


def span_text(seconds: int) -> str:
    """'3 h 20 min', '2 days 4 h'."""
    minutes = seconds // 60
    if minutes < 60:
        return f"{minutes} min"
    hours, left = divmod(minutes, 60)
    if hours < 48:
        return f"{hours} h {left} min" if left else f"{hours} h"
    days, over = divmod(hours, 24)
    return f"{days} days {over} h" if over else f"{days} days"


def when_text(moment: datetime, today: date) -> str:
    """'today, 07:40', 'yesterday, 18:05', else the day."""
    from gametrace.register.clock import wall_day, wall_text

    day, clock = wall_day(moment), wall_text(moment).rsplit(", ", 1)[1]
    if day == today:
        return f"today, {clock}"
    if day == today - timedelta(days=1):
        return f"yesterday, {clock}"
    return f"{day_text(day)}, {clock}"


def last_words(reading: tuple[datetime, int] | None, now: datetime, today: date, late_seconds: int) -> str:
    """What a store's last reading says, and for how long nobody read where that is too long."""
    if reading is None:
        return "No temperature has been taken here yet."
    moment, tenths = reading
    said = f"{celsius_text(tenths)}, {when_text(moment, today)}"
    age = int((now - moment).total_seconds())
    return f"{said}: nothing for {span_text(age)}" if age > late_seconds else said


def beside_limit(tenths: int, limit: int) -> str:
    """How a reading stands to the kitchen's own limit."""
    if tenths <= limit:
        return f"within the kitchen's {celsius_text(limit)}"
    return f"above the kitchen's {celsius_text(limit)}"


def tick_seconds(seconds: int, most: int) -> int:
    """A step of hours or days that gives at most `most` ticks."""
    for step in (_HOUR, 2 * _HOUR, 6 * _HOUR, 12 * _HOUR, _DAY, 2 * _DAY, 7 * _DAY, 14 * _DAY, 30 * _DAY):
        if seconds // step <= most:
            return step
    return max(91 * _DAY, seconds // max(most, 1))
