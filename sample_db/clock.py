"""A clock that stands still until it is moved on, so that two years pass in seconds and always alike."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from gametrace.register.clock import wall_day, wall_instant


class SteppedClock:
    """Call it for the time, as a register does. It never goes back."""

    def __init__(self, day: date, hour: int = 8) -> None:
        self._now = wall_instant(day, hour)

    def __call__(self) -> datetime:
        return self._now

    @property
    def day(self) -> date:
        return wall_day(self._now)

    def go_to(self, day: date, hour: int, minute: int = 0) -> None:
        """Move on to a time on the larder's wall, or stay where the work has run over it."""
        self._now = max(self._now, wall_instant(day, hour, minute))

    def pass_seconds(self, seconds: int) -> None:
        self._now += timedelta(seconds=seconds)
