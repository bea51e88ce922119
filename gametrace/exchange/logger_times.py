"""Dates and times as loggers write them, and the instants they mean on a wall clock.

A format is written with the usual letters (%d/%m/%Y %H:%M) and reads a little more kindly than the
standard library does: one or two figures for day, month and hour, any short month name in English, 'Z'
and '+01:00' for %z. Parts of a second are dropped. Only years from 1970 to 2099 are read.
"""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from gametrace.domain.errors import Refusal
from gametrace.exchange.logger_figures import Unreadable, shown

ISO_DATES = ("%Y-%m-%d", "%Y/%m/%d", "%Y.%m.%d", "%Y%m%d")
NAMED_DATES = ("%d %b %Y", "%d-%b-%Y", "%d/%b/%Y", "%d %b %y", "%d-%b-%y", "%b %d %Y")
DAY_FIRST_DATES = ("%d/%m/%Y", "%d.%m.%Y", "%d-%m-%Y", "%d/%m/%y", "%d.%m.%y", "%d-%m-%y")
MONTH_FIRST_DATES = ("%m/%d/%Y", "%m.%d.%Y", "%m-%d-%Y", "%m/%d/%y", "%m.%d.%y", "%m-%d-%y")
# A clock of hours and minutes with a point ('5.30') reads like a temperature, so it is never guessed;
# who has such a logger writes the format down.
CLOCKS = (
    "%H:%M:%S", "%H:%M", "%I:%M:%S %p", "%I:%M %p", "%H:%M:%S.%f",
    "%H:%M:%S%z", "%H:%M%z", "%H:%M:%S.%f%z", "%H.%M.%S",
)  # fmt: skip

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_ZONE_NAMES = {"Z": 0, "UTC": 0, "GMT": 0, "BST": 3600}
_PIECES = {
    "Y": r"(?P<Y>\d{4})", "y": r"(?P<y>\d\d)", "b": r"(?P<b>[A-Za-z]{3,9})\.?",
    "m": r"(?P<m>\d{1,2})", "d": r"(?P<d>\d{1,2})", "H": r"(?P<H>\d{1,2})", "I": r"(?P<I>\d{1,2})",
    "M": r"(?P<M>\d\d)", "S": r"(?P<S>\d\d)", "f": r"(?P<f>\d{1,9})",
    "p": r"\s*(?P<p>[AaPp])\.?[Mm]\.?", "z": r"\s*(?P<z>Z|UTC|GMT|BST|[+-]\d\d(?::?\d\d)?)",
}  # fmt: skip
_EXAMPLE = "Write it with its day first, for example %d/%m/%Y %H:%M or %Y-%m-%d %H:%M:%S."
_EPOCH = datetime(1970, 1, 1)
_EPOCH_DAY = _EPOCH.date().toordinal()


class TimeFormat:
    """A date format and a clock format, for one cell or for two."""

    def __init__(self, text: str) -> None:
        begin = min((at for at in (text.find("%H"), text.find("%I")) if at >= 0), default=-1)
        if begin <= 0 or len(text) > 60:
            raise _not_a_format(text)
        date_part = text[:begin].rstrip(" T,_")
        pattern = _pattern(date_part, text)
        self.text = text
        self.has_offset = "%z" in text[begin:]
        self._date = re.compile(pattern, re.ASCII)
        self._clock = re.compile(_pattern(text[begin:], text), re.ASCII)
        between = text[len(date_part) : begin]
        join = r",?\s+" if between == " " else _plain(between)
        bare = re.sub(r"\?P<.>", "?:", pattern)
        self._cell = re.compile(f"({bare}){join}(.+)", re.ASCII)
        if not _has(self._date, "d") or not (_has(self._date, "m") or _has(self._date, "b")):
            raise _not_a_format(text)
        if not (_has(self._date, "Y") or _has(self._date, "y")) or not _has(self._clock, "M"):
            raise _not_a_format(text)
        if _has(self._clock, "I") != _has(self._clock, "p") or _has(self._clock, "I", "H") == 2:
            raise _not_a_format(text)

    def split(self, cell: str) -> tuple[str, str]:
        """The date and the clock of one cell that holds both."""
        match = self._cell.fullmatch(cell.strip())
        if match is None:
            raise Unreadable(f"'{shown(cell, 32)}' is not a time written as {self.text}")
        return match[1], match[2]

    def day(self, text: str) -> date:
        match = self._date.fullmatch(text.strip())
        if match is None:
            raise Unreadable(f"'{shown(text, 24)}' is not a date written as {self.text}")
        found = match.groupdict()
        year = int(found["Y"]) if found.get("Y") else 2000 + int(found["y"])
        try:
            month = int(found["m"]) if found.get("m") else _MONTHS.index(found["b"][:3].lower()) + 1
            if not 1970 <= year <= 2099:
                raise ValueError
            return date(year, month, int(found["d"]))
        except ValueError:
            raise Unreadable(f"there is no day '{shown(text, 24)}'") from None

    def seconds(self, text: str) -> int:
        """Seconds since midnight; less the offset from UTC, where the clock states one."""
        match = self._clock.fullmatch(text.strip())
        if match is None:
            raise Unreadable(f"'{shown(text, 24)}' is not a time of day written as {self.text}")
        found = match.groupdict()
        hour = int(found["H"]) if found.get("H") else _hour_of_24(int(found["I"]), found["p"])
        minute, second = int(found["M"]), int(found.get("S") or 0)
        if hour is None or hour > 23 or minute > 59 or second > 59:
            raise Unreadable(f"there is no time of day '{shown(text, 24)}'")
        return 3600 * hour + 60 * minute + second - _offset_seconds(found.get("z"))


class WallClock:
    """What instants a time on the clocks of a zone means: one, two in autumn, none in spring."""

    def __init__(self, zone: str) -> None:
        self._zone = zone_called(zone)

    def midnight(self, day: date) -> tuple[int, bool]:
        """The instant the day's clock counts from, and whether it does so all day.

        On a day on which the clocks change it is the day's midnight in UTC, to be given to `instants`.
        """
        naive = 86_400 * (day.toordinal() - _EPOCH_DAY)
        offsets = {self._offset(naive + second, fold) for second in (0, 86_399) for fold in (0, 1)}
        return (naive - offsets.pop(), True) if len(offsets) == 1 else (naive, False)

    def instants(self, naive: int) -> tuple[int, ...]:
        """The instants, earlier first, at which the clock shows this, given as if it were UTC."""
        before, after = self._offset(naive, 0), self._offset(naive, 1)
        if before == after:
            return (naive - before,)
        return (naive - before, naive - after) if before > after else ()

    def _offset(self, naive: int, fold: int) -> int:
        moment = (_EPOCH + timedelta(seconds=naive)).replace(tzinfo=self._zone, fold=fold)
        offset = moment.utcoffset() or timedelta()
        return 86_400 * offset.days + offset.seconds


def zone_called(name: str) -> ZoneInfo:
    """The time zone; a name that is none is the user's to mend."""
    try:
        return ZoneInfo(name)
    except (OSError, ValueError, KeyError):  # a folder, a path, a name nobody keeps
        raise Refusal(
            f"'{shown(name, 32)}' is not a time zone.",
            "Use Europe/London for the clock on the wall, or UTC if the logger never changes to summer time.",
            "time_zone",
        ) from None


def _pattern(part: str, whole: str) -> str:
    """A format as a regular expression with one named group for each of its letters."""
    pieces = re.split(r"%(.?)", part)
    built = _plain(pieces[0])
    for at in range(1, len(pieces), 2):
        letter, text_after = pieces[at : at + 2]
        piece = _PIECES.get(letter)
        if piece is None or f"(?P<{letter}>" in built:
            raise _not_a_format(whole)
        if not text_after and at + 2 < len(pieces):
            # The next letter follows without a sign between: only fixed widths can be told apart.
            piece = piece.replace("{1,2}", "{2}")
        built += piece + _plain(text_after)
    return built


def _plain(text: str) -> str:
    return "".join(r",?\s*" if sign.isspace() else re.escape(sign) for sign in text)


def _has(pattern: re.Pattern[str], *letters: str) -> int:
    return sum(letter in pattern.groupindex for letter in letters)


def _hour_of_24(hour: int, half: str) -> int | None:
    if not 1 <= hour <= 12:
        return None
    return hour % 12 + (12 if half.lower() == "p" else 0)


def _offset_seconds(text: str | None) -> int:
    if text is None or text in _ZONE_NAMES:
        return _ZONE_NAMES[text] if text else 0
    hours, minutes = int(text[1:3]), int(text[3:].lstrip(":") or 0)
    if hours > 14 or minutes > 59:
        raise Unreadable(f"there is no time zone '{text}'")
    return (3600 * hours + 60 * minutes) * (-1 if text[0] == "-" else 1)


def _not_a_format(text: str) -> Refusal:
    return Refusal(f"'{shown(text, 40)}' is not a way to write a date and a time.", _EXAMPLE, "time_format")
