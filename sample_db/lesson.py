"""Two cutting sessions of the last days: one that is over, left beside right, and one left open overnight.

The roster is given out here. Names on it are invented, and two of its codes have none.
"""

from __future__ import annotations

from datetime import timedelta

from gametrace.register import acts
from sample_db.animals import SMALL_DEER
from sample_db.house import Body, House, Lesson

_TABLES = ("table 1", "table 2")
_GROUP = "Level 3 game cookery, group A"
_NAMES = ("Nell Farrowby", "Osric Pemble", "Tansy Willowmere", "Jude Corvane", "", "")
_LAST_DAYS = timedelta(days=9)


def begins_with(house: House, body: Body) -> bool:
    """Whether this is the first large deer cut in the last days: the one that the group learns on."""
    is_time = house.terms.last_day - house.today <= _LAST_DAYS
    return is_time and not house.roster and body.species not in SMALL_DEER


def begin(house: House) -> None:
    if not house.roster:
        made = house.aside(acts.add_to_roster, by="joss", group=_GROUP, names=_NAMES).created
        house.roster = made
    session = house.aside(acts.open_session, by="anand", group=_GROUP, stations=_TABLES).created[0]
    house.lesson = Lesson(session, _TABLES, house.roster[:2])


def at_table(house: House, code: str, side: str = "") -> dict[str, str]:
    """Lay it where its side is cut, and say who cuts there; nothing where no lesson is on."""
    if house.lesson is None:
        return {}
    at = 1 if side == "right" else 0
    house.aside(
        acts.lay_on_table,
        by="anand",
        session=house.lesson.session,
        station=house.lesson.tables[at],
        code=code,
    )
    return {"cutter": house.lesson.cutters[at]}


def end(house: House) -> None:
    if house.lesson is not None:
        house.aside(acts.close_session, by="anand", session=house.lesson.session)
        house.lesson = None
