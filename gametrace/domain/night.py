"""Whether a deer was killed in the hours of night that the law closes, by the sun at that place.

Sunrise and sunset are computed for level ground and the upper limb on the horizon; hills, weather and a
watch that is off are not known here. So a ruling is an indication, and a night kill may be licensed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from gametrace.domain.dates import day_words
from gametrace.domain.exceptions import Given, answered_by
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.night import NightRule, farmed_night, night_rule, united_kingdom
from gametrace.facts.origins import FARMED_ORIGINS, check_origin
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called

CIVIL_TIME = ZoneInfo("Europe/London")
FIRST_YEAR, LAST_YEAR = 1900, 2199  # outside these a date is a slip of the pen, not a kill
CLOSE_TO_THE_LIMIT = timedelta(minutes=5)
INDICATION = "The sun's times are computed for level ground: an indication, not a proof."

_CLOCK = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)", re.ASCII)


@dataclass(frozen=True, slots=True)
class Sun:
    """Sunrise and sunset of one civil day at one place, as instants."""

    rises: datetime
    sets: datetime


@dataclass(frozen=True, slots=True)
class Night:
    """One night's closed hours, as instants; the limits themselves are open."""

    begins: datetime
    ends: datetime

    def holds(self, instant: datetime) -> bool:
        return self.begins < instant < self.ends

    def is_close_to(self, instant: datetime) -> bool:
        """Whether either limit lies within a few minutes of the instant."""
        return any(abs(instant - limit) <= CLOSE_TO_THE_LIMIT for limit in (self.begins, self.ends))


@lru_cache(maxsize=512)
def sun_on(day: date, latitude_millionths: int, longitude_millionths: int) -> Sun:
    """The sun of a day at a place in the United Kingdom."""
    from astral import Observer  # late: only a delivery with a time and a place needs it
    from astral.sun import sunrise, sunset

    # Floats live only inside this call; nothing of them is recorded.
    place = Observer(latitude_millionths / 1_000_000, longitude_millionths / 1_000_000, 0)
    return Sun(_minute(sunrise(place, day, UTC)), _minute(sunset(place, day, UTC)))


def _minute(instant: datetime) -> datetime:
    """To the nearest minute, as almanacs print it."""
    return (instant + timedelta(seconds=30)).replace(second=0, microsecond=0)


def night_findings(
    *,
    species: str,
    origin: str,
    jurisdiction: str,
    killed_on: date,
    kill_time: str,
    latitude_millionths: int | None = None,
    longitude_millionths: int | None = None,
    exception: Given | None = None,
) -> tuple[Finding, ...]:
    """At most one finding. Only deer have a night rule; without a time nothing can be said.

    Without a place, a note only, and only where it was night wherever in the United Kingdom it was.
    """
    kind = species_called(species)
    check_origin(origin)
    rule = night_rule(jurisdiction)
    written = kill_time.strip()
    if not kind.deer or not written or not FIRST_YEAR <= killed_on.year <= LAST_YEAR:
        return ()
    killed_at = _instant(killed_on, written)
    if killed_at is None:
        return (_unread(written, rule),)
    farmed = origin in FARMED_ORIGINS
    if farmed and farmed_night(jurisdiction).exempt:
        return ()
    if latitude_millionths is None or longitude_millionths is None:
        return () if farmed else _without_place(killed_on, written, killed_at, rule)
    if not united_kingdom().holds(latitude_millionths, longitude_millionths):
        return (_elsewhere(rule),)
    found = _at_place(killed_on, killed_at, rule, (latitude_millionths, longitude_millionths), farmed)
    return (answered_by(found, exception, lifts="night", species=kind.id, where=jurisdiction),)


def _instant(day: date, written: str) -> datetime | None:
    """The instant of a civil time such as 7:05 or 07:05; None for anything else."""
    match = _CLOCK.fullmatch(written)
    if match is None:
        return None
    local = datetime.combine(day, time(int(match[1]), int(match[2])), CIVIL_TIME)
    return local.astimezone(UTC)


def _nights(day: date, rule: NightRule, place: tuple[int, int]) -> tuple[Night, Night]:
    """The night that ends on a day and the night that begins on it."""
    after = timedelta(minutes=rule.after_sunset_minutes)
    before = timedelta(minutes=rule.before_sunrise_minutes)
    eve, same, morrow = (sun_on(day + timedelta(days=n), *place) for n in (-1, 0, 1))
    return (
        Night(eve.sets + after, same.rises - before),
        Night(same.sets + after, morrow.rises - before),
    )


def _at_place(
    day: date, killed_at: datetime, rule: NightRule, place: tuple[int, int], farmed: bool
) -> Finding:
    nights = _nights(day, rule, place)
    sun = sun_on(day, *place)
    at_night = any(night.holds(killed_at) for night in nights)
    where = JURISDICTIONS[rule.jurisdiction]
    told = (
        f"{_clock(killed_at)} on {day_words(day)} lies {'in' if at_night else 'outside'} the closed hours of "
        f"night: there the sun rose at {_clock(sun.rises)} and set at {_clock(sun.sets)}, and deer may not "
        f"be killed in {where} from an hour after sunset ({_clock(nights[1].begins)}) to an hour before "
        f"sunrise ({_clock(nights[0].ends)})."
    )
    if any(night.is_close_to(killed_at) for night in nights):
        told = f"{told} It is within five minutes of the limit."
    told = f"{told} {INDICATION}"
    source, status = citation(rule.source), rule.status
    if not at_night:
        return Finding("day-kill", Severity.NOTE, told, "", source, status)
    if farmed:
        doubt = farmed_night(rule.jurisdiction)
        ask = "Ask the supplier and the local authority, and write down what they say."
        sentence = f"{told} {doubt.note}"
        return Finding("night-unclear", Severity.ASK, sentence, ask, citation(doubt.source), doubt.status)
    return Finding(
        "night-kill",
        Severity.STOP,
        told,
        "Hold it. Read the time on the card again; a night licence or an act of mercy may make it lawful: "
        "ask for its type and number, and record both.",
        source,
        status,
    )


def _without_place(day: date, written: str, killed_at: datetime, rule: NightRule) -> tuple[Finding, ...]:
    """A note where it was night at all four corners of the United Kingdom, and so everywhere in it."""
    corners = united_kingdom().corners
    if not all(any(n.holds(killed_at) for n in _nights(day, rule, corner)) for corner in corners):
        return ()
    sentence = (
        f"{written} on {day_words(day)} was more than an hour after sunset and before sunrise anywhere in "
        f"the United Kingdom. {INDICATION}"
    )
    ask = "Ask where it was killed, and under what licence."
    return (Finding("night-likely", Severity.NOTE, sentence, ask, citation(rule.source), rule.status),)


def _unread(written: str, rule: NightRule) -> Finding:
    shown = written if len(written) <= 24 else written[:24] + "…"
    sentence = f"'{shown}' is not a time of day, so the night rule cannot be applied."
    ask = "Write hours and minutes, for example 07:40."
    return Finding("kill-time-unread", Severity.NOTE, sentence, ask, citation(rule.source), rule.status)


def _elsewhere(rule: NightRule) -> Finding:
    sentence = "The place of killing lies outside the United Kingdom, so the night rule cannot be applied."
    ask = "Look at the figures again: west of Greenwich the longitude has a minus sign."
    return Finding("place-outside", Severity.ASK, sentence, ask, citation(rule.source), rule.status)


def _clock(instant: datetime) -> str:
    return instant.astimezone(CIVIL_TIME).strftime("%H:%M")
