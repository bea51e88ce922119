"""The night rule; the sun against published times and against a second astronomy library."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import ephem
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.night import CIVIL_TIME, night_findings, sun_on
from gametrace.facts import UnknownFact
from gametrace.facts.night import night_rule, united_kingdom
from gametrace.facts.seasons import JURISDICTIONS

TWO_MINUTES = timedelta(minutes=2)
LONDON = (51_500_000, -125_000)
EDINBURGH = (55_953_000, -3_188_000)
INVERNESS = (57_477_000, -4_225_000)
LERWICK = (60_155_000, -1_145_000)

# Daily newspaper in Scotland, 10 December 2019 (scotsman.com, "What time is sunrise and sunset today"). The
# paper's Edinburgh sunset of 10 December is left out: it prints 3.53, between 3.38 on every day beside it.
WINTER = [
    (EDINBURGH, date(2019, 12, 11), "08:33", "15:38"),
    (EDINBURGH, date(2019, 12, 15), "08:37", "15:38"),
    (EDINBURGH, date(2019, 12, 18), "08:39", "15:38"),
    (EDINBURGH, date(2019, 12, 22), "08:42", "15:40"),
    (INVERNESS, date(2019, 12, 10), "08:46", "15:32"),
    (INVERNESS, date(2019, 12, 15), "08:52", "15:31"),
    (INVERNESS, date(2019, 12, 22), "08:57", "15:33"),
    (INVERNESS, date(2019, 12, 23), "08:58", "15:33"),
    # BBC weather page as copied on 18 December 2015 (contemplatingchange.blogspot.com/2015/12/sunset.html).
    (EDINBURGH, date(2015, 12, 18), "08:39", "15:39"),
    (LERWICK, date(2015, 12, 18), "09:06", "14:56"),
]
# London, 51.5 N 0.125 W, June 2025, summer time: the table at
# news.najib.digital/summer-solstice-london-25494.html
SUMMER = [
    (LONDON, date(2025, 6, 15), "04:42", "21:20"),
    (LONDON, date(2025, 6, 20), "04:42", "21:22"),
    (LONDON, date(2025, 6, 26), "04:44", "21:22"),
]


def at(day: date, clock: str) -> datetime:
    hour, minute = clock.split(":")
    return datetime.combine(day, time(int(hour), int(minute)), CIVIL_TIME).astimezone(UTC)


@pytest.mark.parametrize(("place", "day", "rises", "sets"), WINTER + SUMMER)
def test_the_sun_agrees_with_published_times_within_two_minutes(
    place: tuple[int, int], day: date, rises: str, sets: str
) -> None:
    sun = sun_on(day, *place)
    assert abs(sun.rises - at(day, rises)) <= TWO_MINUTES
    assert abs(sun.sets - at(day, sets)) <= TWO_MINUTES


def second_opinion(
    day: date, latitude_millionths: int, longitude_millionths: int
) -> tuple[datetime, datetime]:
    """Rise and set by XEphem's library: upper limb, 34 minutes of refraction, as the almanacs take it."""
    observer = ephem.Observer()
    observer.lat = math.radians(latitude_millionths / 1_000_000)
    observer.lon = math.radians(longitude_millionths / 1_000_000)
    observer.pressure, observer.horizon = 0, "-0:34"
    observer.date = ephem.Date(datetime.combine(day, time(12)))
    rises = observer.previous_rising(ephem.Sun()).datetime().replace(tzinfo=UTC)
    sets = observer.next_setting(ephem.Sun()).datetime().replace(tzinfo=UTC)
    return rises, sets


@given(
    day=st.dates(date(1991, 1, 1), date(2060, 12, 31)),
    latitude=st.integers(united_kingdom().south, united_kingdom().north),
    longitude=st.integers(united_kingdom().west, united_kingdom().east),
)
def test_the_sun_agrees_with_a_second_library_anywhere_in_the_kingdom(
    day: date, latitude: int, longitude: int
) -> None:
    sun = sun_on(day, latitude, longitude)
    rises, sets = second_opinion(day, latitude, longitude)
    # Two minutes, and half of one for rounding to the minute.
    assert abs(sun.rises - rises) <= TWO_MINUTES + timedelta(seconds=30)
    assert abs(sun.sets - sets) <= TWO_MINUTES + timedelta(seconds=30)


def say(**given_: Any) -> Any:
    whole: dict[str, Any] = {
        "species": "fallow",
        "origin": "wild-shot",
        "jurisdiction": "england-wales",
        "killed_on": date(2026, 11, 14),
        "kill_time": "23:10",
        "latitude_millionths": LONDON[0],
        "longitude_millionths": LONDON[1],
    } | given_
    found = night_findings(**whole)
    assert len(found) <= 1
    return found[0] if found else None


# Deer Act 1991 s.3 (docslib.org/doc/758659); Deer (Scotland) Act 1996 s.18(1) (gov.scot, Deer Working Group
# report, section 6); Wildlife (NI) Order 1985 art.19(2).
@pytest.mark.parametrize(
    ("where", "law"),
    [
        ("england-wales", "Deer Act 1991, s.3"),
        ("scotland", "Deer (Scotland) Act 1996, s.18"),
        ("northern-ireland", "Wildlife (Northern Ireland) Order 1985"),
    ],
)
def test_the_night_runs_from_an_hour_after_sunset_to_an_hour_before_sunrise(where: str, law: str) -> None:
    rule = night_rule(where)
    assert (rule.after_sunset_minutes, rule.before_sunrise_minutes) == (60, 60)
    finding = say(jurisdiction=where)
    assert (finding.code, finding.severity) == ("night-kill", Severity.STOP)
    assert law in finding.source
    assert "indication" in finding.sentence
    assert "type and number" in finding.what_to_do


def test_the_limits_themselves_are_not_yet_night_and_a_minute_beyond_is() -> None:
    day = date(2026, 11, 14)
    sun = sun_on(day, *LONDON)
    dusk = (sun.sets + timedelta(hours=1)).astimezone(CIVIL_TIME)
    dawn = (sun.rises - timedelta(hours=1)).astimezone(CIVIL_TIME)
    assert say(kill_time=f"{dusk:%H:%M}").code == "day-kill"
    assert say(kill_time=f"{dusk + timedelta(minutes=1):%H:%M}").code == "night-kill"
    assert say(kill_time=f"{dawn:%H:%M}").code == "day-kill"
    assert say(kill_time=f"{dawn - timedelta(minutes=1):%H:%M}").code == "night-kill"
    assert "within five minutes of the limit" in say(kill_time=f"{dusk:%H:%M}").sentence
    assert "within five minutes" not in say(kill_time="12:00").sentence


def test_the_small_hours_belong_to_the_night_that_began_the_day_before() -> None:
    assert say(kill_time="00:30").code == "night-kill"
    assert say(kill_time="5:00").code == "night-kill"


def test_the_card_is_read_in_civil_time_summer_and_winter() -> None:
    # Sunset in London is about 21:22 summer time: 22:10 is still within the hour, 22:40 is not.
    assert say(killed_on=date(2025, 6, 20), kill_time="22:10").code == "day-kill"
    assert say(killed_on=date(2025, 6, 20), kill_time="22:40").code == "night-kill"
    # The clock goes back on 25 October 2026: sunrise 6:43 by the new time, so 5:50 is day and 5:30 night.
    assert say(killed_on=date(2026, 10, 25), kill_time="05:50").code == "day-kill"
    assert say(killed_on=date(2026, 10, 25), kill_time="05:30").code == "night-kill"
    for clock in ("01:30", "00:59"):
        assert say(killed_on=date(2026, 10, 25), kill_time=clock).code == "night-kill"
    assert say(killed_on=date(2027, 3, 28), kill_time="01:30").code == "night-kill"


def test_only_deer_have_a_night_rule() -> None:
    assert say(species="wild-boar") is None
    assert say(species="brown-hare") is None


# Deer (Scotland) Act 1996 s.43: the Act is not for farmed deer. Elsewhere no exemption was read.
def test_farmed_deer_are_outside_the_rule_in_scotland_and_not_settled_elsewhere() -> None:
    assert say(origin="field-farmed", jurisdiction="scotland") is None
    for where in ("england-wales", "northern-ireland"):
        finding = say(origin="field-farmed", jurisdiction=where)
        assert (finding.code, finding.severity) == ("night-unclear", Severity.ASK)
        assert finding.status == "unresolved"
    assert say(origin="field-farmed", kill_time="11:00").code == "day-kill"


def test_without_a_place_only_what_was_night_everywhere_is_noted() -> None:
    lost = {"latitude_millionths": None, "longitude_millionths": None}
    finding = say(**lost)
    assert (finding.code, finding.severity) == ("night-likely", Severity.NOTE)
    assert say(kill_time="17:30", **lost) is None  # night in Lowestoft, not yet at St Kilda
    assert say(kill_time="12:00", **lost) is None
    assert say(killed_on=date(2026, 6, 21), kill_time="00:01", **lost) is None
    assert say(latitude_millionths=None).code == "night-likely"


def test_a_lost_minus_sign_is_asked_about() -> None:
    finding = say(longitude_millionths=4_225_000)
    assert (finding.code, finding.severity) == ("place-outside", Severity.ASK)
    assert "minus" in finding.what_to_do


@pytest.mark.parametrize("clock", ["", "   "])
def test_without_a_time_nothing_is_said(clock: str) -> None:
    assert say(kill_time=clock) is None


@pytest.mark.parametrize("clock", ["dawn", "24:00", "7.40", "07:60", "٠٧:٤٠", "-1:00", "x" * 5000])
def test_a_time_that_is_none_is_said_to_be_so(clock: str) -> None:
    finding = say(kill_time=clock)
    assert (finding.code, finding.severity) == ("kill-time-unread", Severity.NOTE)
    assert len(finding.sentence) < 120


def test_a_word_nobody_knows_is_refused() -> None:
    for spoilt in ({"species": "dodo"}, {"origin": "shop"}, {"jurisdiction": "france"}):
        with pytest.raises(UnknownFact):
            say(**spoilt)


@given(
    day=st.dates(),
    clock=st.times().map(lambda one: f"{one:%H:%M}") | st.text(max_size=8),
    where=st.sampled_from(sorted(JURISDICTIONS)),
    latitude=st.none() | st.integers(-(10**9), 10**9),
    longitude=st.none() | st.integers(-(10**9), 10**9),
)
def test_any_day_time_and_place_gets_at_most_one_finding_with_a_source(
    day: date, clock: str, where: str, latitude: int | None, longitude: int | None
) -> None:
    finding = say(
        killed_on=day,
        kill_time=clock,
        jurisdiction=where,
        latitude_millionths=latitude,
        longitude_millionths=longitude,
    )
    if finding is not None:
        assert finding.source
        assert finding.status


@given(day=st.dates(date(1991, 1, 1), date(2100, 1, 1)), hour=st.integers(0, 23), minute=st.integers(0, 59))
def test_what_is_night_everywhere_is_night_at_every_place(day: date, hour: int, minute: int) -> None:
    clock = f"{hour:02d}:{minute:02d}"
    lost = {"latitude_millionths": None, "longitude_millionths": None}
    if say(killed_on=day, kill_time=clock, **lost) is None:
        return
    for place in (LONDON, EDINBURGH, INVERNESS, LERWICK):
        here = {"latitude_millionths": place[0], "longitude_millionths": place[1]}
        assert say(killed_on=day, kill_time=clock, **here).code == "night-kill"
