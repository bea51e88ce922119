"""The invented college's year: when the larder is at work, and whether a kill would have been in season."""

from __future__ import annotations

from datetime import date, timedelta

from gametrace.domain.seasons import rule_season

# (month, day) of the first and last day of each closure. The larder is emptied before each.
_CLOSED = (((12, 20), (12, 31)), ((1, 1), (1, 4)), ((4, 3), (4, 14)), ((7, 18), (8, 24)))
_ALWAYS_OPEN_DAYS = 14  # whatever the calendar says: a practice register should be found at work


class Terms:
    """Working days between a first and a last day."""

    def __init__(self, first_day: date, last_day: date) -> None:
        self.first_day = first_day
        self.last_day = last_day

    def is_open(self, day: date) -> bool:
        if 0 <= (self.last_day - day).days < _ALWAYS_OPEN_DAYS:
            return True
        return day.weekday() < 5 and not self.is_holiday(day)

    def is_holiday(self, day: date) -> bool:
        at = (day.month, day.day)
        return any(first <= at <= last for first, last in _CLOSED)

    def open_on_or_after(self, day: date) -> date:
        while not self.is_open(day):
            day += timedelta(days=1)
        return day

    def is_block_day(self, day: date) -> bool:
        """Tuesdays and Thursdays, when a group stands at the block; any day of the last fortnight."""
        is_ending = (self.last_day - day).days < _ALWAYS_OPEN_DAYS
        return self.is_open(day) and (is_ending or day.weekday() in (1, 3))

    def block_day_near(self, day: date) -> date:
        """The block day on that day or within three before it; failing that the next working day."""
        before = [day - timedelta(days=n) for n in range(4) if self.is_block_day(day - timedelta(days=n))]
        return before[0] if before else self.open_on_or_after(day)

    def open_on_or_before(self, day: date) -> date:
        while not self.is_open(day):
            day -= timedelta(days=1)
        return day

    def days_to_holiday(self, day: date) -> int:
        """Days until the larder next shuts for a holiday; 99 when that is far off or past the end."""
        if (self.last_day - day).days < _ALWAYS_OPEN_DAYS:
            return 99
        ahead = (
            n
            for n in range(1, 21)
            if not self.is_open(day + timedelta(days=n)) and self.is_holiday(day + timedelta(days=n))
        )
        return next(ahead, 99)

    def open_days(self, year: int, month: int) -> list[date]:
        day, found = date(year, month, 1), []
        while day.month == month:
            if self.first_day <= day <= self.last_day and self.is_open(day) and day.weekday() < 5:
                found.append(day)
            day += timedelta(days=1)
        return found

    def newest(self, month: int, day: int, years_back: int = 0) -> date:
        """The newest working day on or after month and day that leaves two weeks to the end."""
        limit = self.last_day - timedelta(days=_ALWAYS_OPEN_DAYS + 1)
        year = self.last_day.year
        while self.open_on_or_after(date(year, month, day)) > limit:
            year -= 1
        wanted = self.open_on_or_after(date(year - years_back, month, day))
        return wanted if wanted > self.first_day else self.open_on_or_after(date(year, month, day))


def in_season(species: str, sex: str, origin: str, killed_on: date) -> bool:
    ruling = rule_season(
        species=species, sex=sex, killed_on=killed_on, jurisdiction="england-wales", origin=origin
    )
    return ruling.open is not False
