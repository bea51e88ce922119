"""What comes to the door and when: the ordinary round of two years, by month and season.

The odd deliveries, those with a story, are in `stories`; the last fortnight's are in `ending`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from random import Random
from typing import Any

from sample_db.cast import SOURCES
from sample_db.house import Body, House
from sample_db.terms import Terms, in_season

Then = Callable[[House, Body], None]


@dataclass(frozen=True, slots=True)
class Arrival:
    """One body or batch to be received on a day. `change` overrides fields of the Delivery written for it."""

    day: date
    species: str
    sex: str
    age_class: str
    source: str
    count: int = 1
    change: dict[str, Any] = field(default_factory=dict)
    by: str = ""
    hangs_for_good: bool = False  # still on the rail on the last day
    cut_after: int | None = None  # days, where the story needs it
    typed_late_hours: int = 0
    mark: str = ""
    then: Then | None = None


_FALLOW_DOE = ("fallow", "female", "doe")
_YEARLING_DOE = ("fallow", "female", "yearling-doe")
_PRICKET = ("fallow", "male", "pricket")
_SOREL = ("fallow", "male", "sorel")
_FALLOW_BUCK = ("fallow", "male", "buck")
_HIND = ("red", "female", "hind")
_YEARLING_HIND = ("red", "female", "yearling-hind")
_STAG = ("red", "male", "stag")
_SPIKER = ("red", "male", "spiker")
_SIKA_STAG = ("sika", "male", "stag")
_SIKA_HIND = ("sika", "female", "hind")
_ROE_BUCK = ("roe", "male", "buck")
_ROE_DOE = ("roe", "female", "doe")
_ROE_KID = ("roe", "female", "kid")
_MUNTJAC_BUCK = ("muntjac", "male", "buck")
_MUNTJAC_DOE = ("muntjac", "female", "doe")
_CWD_BUCK = ("chinese-water-deer", "male", "buck")
_CWD_DOE = ("chinese-water-deer", "female", "doe")

# What an ordinary month brings: (animal, supplier).
_MONTHS: dict[int, tuple[tuple[tuple[str, str, str], str], ...]] = {
    1: (
        (_FALLOW_DOE, "park"),
        (_YEARLING_DOE, "park"),
        (_ROE_DOE, "idris"),
        (_MUNTJAC_BUCK, "idris"),
        (_CWD_DOE, "idris"),
        (_SIKA_HIND, "moor"),
    ),
    2: ((_FALLOW_DOE, "park"), (_ROE_DOE, "idris"), (_CWD_BUCK, "idris"), (_HIND, "farm")),
    3: (
        (_SIKA_HIND, "dealer"),
        (_ROE_DOE, "idris"),
        (_MUNTJAC_BUCK, "idris"),
        (_YEARLING_HIND, "park"),
        (_CWD_DOE, "idris"),
    ),
    4: ((_ROE_BUCK, "idris"), (_PRICKET, "park"), (_SPIKER, "farm")),
    5: ((_ROE_BUCK, "idris"), (_MUNTJAC_DOE, "idris"), (_YEARLING_HIND, "onfarm")),
    6: ((_ROE_BUCK, "idris"), (_MUNTJAC_BUCK, "idris"), (_SPIKER, "farm")),
    7: ((_ROE_BUCK, "moor"),),
    8: ((_FALLOW_BUCK, "idris"),),
    9: (
        (_STAG, "moor"),
        (_SOREL, "park"),
        (_ROE_BUCK, "idris"),
        (_SIKA_STAG, "moor"),
        (_MUNTJAC_DOE, "idris"),
    ),
    10: ((_PRICKET, "park"), (_SIKA_STAG, "dealer"), (_ROE_BUCK, "idris"), (_MUNTJAC_BUCK, "idris")),
    11: (
        (_FALLOW_DOE, "park"),
        (_HIND, "park"),
        (_ROE_DOE, "idris"),
        (_ROE_KID, "idris"),
        (_CWD_BUCK, "idris"),
        (_CWD_DOE, "idris"),
        (_MUNTJAC_DOE, "idris"),
        (_SIKA_HIND, "moor"),
        (_YEARLING_HIND, "onfarm"),
    ),
    12: ((_FALLOW_DOE, "idris"), (_YEARLING_DOE, "park"), (_CWD_DOE, "idris"), (_MUNTJAC_BUCK, "idris")),
}
# Small game by the bag: (species, supplier, fewest, most).
_BAGS: dict[int, tuple[tuple[str, str, int, int], ...]] = {
    1: (("pheasant", "shoot", 12, 24),),
    2: (("rabbit", "warrener", 8, 14),),
    3: (("woodpigeon", "warrener", 20, 30),),
    5: (("rabbit", "warrener", 8, 12),),
    6: (("woodpigeon", "warrener", 18, 28),),
    9: (("rabbit", "warrener", 10, 14),),
    10: (("red-legged-partridge", "shoot", 20, 30), ("woodpigeon", "warrener", 16, 24)),
    11: (("pheasant", "shoot", 20, 30), ("grey-partridge", "shoot", 8, 12)),
    12: (("pheasant", "shoot", 16, 24),),
}


_VANS_A_MONTH = 2  # several bodies come together, and so their trim meets at the mincer


def ordinary(rng: Random, terms: Terms) -> list[Arrival]:
    """The ordinary deliveries, on working days with time left to hang and cut before a holiday."""
    found: list[Arrival] = []
    for year in range(terms.first_day.year, terms.last_day.year + 1):
        for month in range(1, 13):
            days = [day for day in terms.open_days(year, month) if terms.days_to_holiday(day) > 9]
            vans = rng.sample(days, min(_VANS_A_MONTH, len(days)))
            for (species, sex, age), source in _MONTHS[month]:
                day = rng.choice(vans) if vans else None
                origin = SOURCES[source].origin
                if day and _killed_in_season(terms, species, sex, origin, day):
                    found.append(Arrival(day, species, sex, age, source))
            for species, source, fewest, most in _BAGS.get(month, ()):
                day = rng.choice(days) if days else None
                count = rng.randint(fewest, most)
                if day and _killed_in_season(terms, species, "unknown", "wild-shot", day):
                    found.append(Arrival(day, species, "unknown", "", source, count=count))
    return found


def _killed_in_season(terms: Terms, species: str, sex: str, origin: str, day: date) -> bool:
    """In season a few days before the delivery too, since that is when it was killed; not at the very end."""
    before = date.fromordinal(day.toordinal() - 3)
    is_ending = (terms.last_day - day).days < 12
    return not is_ending and in_season(species, sex, origin, day) and in_season(species, sex, origin, before)
