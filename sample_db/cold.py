"""The cold stores of the last four months: probes, rounds, loggers' files; a warm evening and a flat battery.

It rolls dice of its own, so that nothing here changes what comes through the door. All of it is invented.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from random import Random

from gametrace.register import acts, questions
from gametrace.register.clock import wall_instant
from sample_db.house import House

MONTHS = 4
_STORES = {"C1": 28, "C2": 22, "F3": -191}  # tenths of a degree each is usually at
_HOUR = 3_600
_WARM_DAY, _FLAT_DAY = 38, 61  # days before the last one
_NOT_ANSWERED_DAY = 3


def plan(house: House) -> None:
    """Put everything of the cold stores on the calendar."""
    last = house.terms.last_day
    house.later(last - timedelta(days=MONTHS * 31), lambda: _two_probes(house))
    for month in range(MONTHS):
        ends = last - timedelta(days=31 * month + 1)
        house.later(ends + timedelta(days=1), lambda ends=ends: _files(house, ends))
        house.later(ends - timedelta(days=8), lambda: _check_probes(house))
    house.later(last - timedelta(days=28), lambda: _answer(house))  # when the file has come in


def go_round(house: House) -> None:
    """A round by hand each working morning."""
    if (house.terms.last_day - house.today).days > MONTHS * 31 - 4:
        return
    at = wall_instant(house.today, 8, 5 + house.today.day % 20)
    house.aside(acts.take_round, by="joss", readings=_read(at), probe="T001", happened_at=at)


def last_evening(house: House) -> None:
    """The evening before the register is opened: a round, and the loggers read once more."""
    house.clock.go_to(house.terms.last_day, 19, 40)
    at = wall_instant(house.terms.last_day, 19, 30)
    house.aside(acts.take_round, by="anand", readings=_read(at), probe="T002", happened_at=at)
    last = int(at.timestamp()) // _HOUR * _HOUR
    for store in _STORES:
        readings = [(when, _usual(store, when)) for when in range(last - 20 * _HOUR, last + 1, _HOUR)]
        house.aside(
            acts.import_readings, by="anand", store=store, readings=readings,
            name=f"{store} last evening.csv", mapping={"at": 0, "tenths_c": 1},
        )  # fmt: skip


def _read(at: datetime) -> list[tuple[str, int]]:
    return [(store, _usual(store, int(at.timestamp()))) for store in _STORES]


def _usual(store: str, at: int) -> int:
    """What a store reads at an hour: always the same for the same hour."""
    dice = Random(f"{store} {at // _HOUR}")
    return _STORES[store] + dice.randint(-6, 7) + (4 if at // _HOUR % 24 in (10, 11, 15) else 0)


def _files(house: House, ends: date) -> None:
    """A month of each logger, an hour apart, ending on the evening of a day."""
    first = wall_instant(ends - timedelta(days=31), 22)
    for store in _STORES:
        readings = []
        for hour in range(31 * 24 + 1):
            at = int(first.timestamp()) + hour * _HOUR
            days = (house.terms.last_day - datetime.fromtimestamp(at, first.tzinfo).date()).days
            clock = at // _HOUR % 24
            if store == "C2" and (days == _FLAT_DAY or (days == _FLAT_DAY - 1 and clock < 20)):
                continue  # the battery was flat
            tenths = _usual(store, at)
            if store == "C1" and days == _WARM_DAY and 16 <= clock <= 20:
                tenths = (64, 79, 88, 81, 60)[clock - 16]
            if store == "C2" and days == _NOT_ANSWERED_DAY and 12 <= clock <= 14:
                tenths = (57, 68, 61)[clock - 12]
            readings.append((at, tenths))
        house.aside(
            acts.import_readings, by="joss", store=store, readings=readings,
            name=f"{store} to {ends.isoformat()}.csv", mapping={"at": 0, "tenths_c": 1},
        )  # fmt: skip


def _two_probes(house: House) -> None:
    for name in ("green pocket probe", "probe of the meat chill"):
        house.aside(acts.add_probe, by="joss", name=name)
    _check_probes(house)


def _check_probes(house: House) -> None:
    for probe, ice in (("T001", 1), ("T002", -2)):
        house.aside(acts.check_probe, by="joss", probe=probe, ice_tenths_c=ice, boiling_tenths_c=998)


def _answer(house: House) -> None:
    """The warm evening and the flat battery, as far as they are known by then."""
    end = house.clock()
    for one in questions.episodes(house.register, end - timedelta(days=70), end):
        if one.action or (one.sort == "gap" and one.last_at - one.first_at < timedelta(hours=15)):
            continue
        is_warm = one.sort == "warm"
        house.aside(
            acts.answer_episode, by="maud", store=one.store, first_at=one.first_at, last_at=one.last_at,
            sort=one.sort,
            action="Door found on the latch after the class; shut, carcasses probed in the haunch."
            if is_warm else "The logger's battery was flat; changed. The dial was looked at that evening.",
            result="Highest in the haunch 4.1 °C; back under 4 °C in the store within two hours."
            if is_warm else "The dial showed 3 °C; nothing was written down hour by hour.",
        )  # fmt: skip
