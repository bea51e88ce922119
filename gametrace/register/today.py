"""What wants a person today, in plain sentences, each with the one act it asks for."""

from __future__ import annotations

from datetime import date, timedelta

from gametrace.register import lists
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant_text, wall_instant
from gametrace.register.duties_house import house_duties
from gametrace.register.duties_meat import meat_duties
from gametrace.register.hook_room import hook_duties
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.register.records import Duty, Waiting
from gametrace.store import look_carcasses, look_lots, look_today
from gametrace.store.engine import Connection

LOOKED_BACK_DAYS = 2  # as long as a left-over keeps


def today(register: Register) -> tuple[Duty, ...]:
    """Sentences grouped by when: now, today, this week. Empty on a good day."""
    return _duties(register)[0]


def _duties(register: Register) -> tuple[tuple[Duty, ...], int]:
    """The duties in their order, and how many animals are to be finished."""
    gaps = setup_gaps(register)
    with register.store.reading() as connection:
        day, own = register.today(), policies_of(connection)
        here = Assembler(connection, day).carcasses(look_carcasses.hanging(connection))
        duties = [
            *gaps,
            *meat_duties(connection, day, own, here),
            *house_duties(connection, register.clock(), day, own),
            *hook_duties(connection, day, here),
            *_of_dishes(connection, day),
        ]
    order = {"now": 0, "today": 1, "this week": 2}
    unfinished = sum(bool(one.missing) for one in here)
    return tuple(sorted(duties, key=lambda duty: order[duty.when])), unfinished


def _of_dishes(connection: Connection, day: date) -> list[Duty]:
    """Nothing is imported for it on a day without a dish at work: the window's start waits for this page."""
    since = instant_text(wall_instant(day - timedelta(days=LOOKED_BACK_DAYS), 0))
    dishes = look_today.dishes_at_work(connection, since)
    if not dishes:
        return []
    from gametrace.register.duties_pass import pass_duties

    return list(pass_duties(connection, dishes, day))


def setup_gaps(register: Register) -> tuple[Duty, ...]:
    """What the set-up still waits for. Only the first three are needed for a first delivery."""
    larder = lists.larder(register)
    gaps: list[Duty] = []
    if not larder.name:
        gaps.append(Duty("now", "Give the larder a name and say which country's rules it keeps.", "setup"))
    if not any(person.is_active for person in lists.people(register)):
        gaps.append(Duty("now", "Enrol the first person, so that entries say who wrote them.", "setup"))
    if not lists.places(register):
        gaps.append(Duty("now", "Add a cold store with its rails and shelves.", "setup"))
    if not lists.suppliers(register):
        gaps.append(Duty("now", "Add the first supplier.", "setup"))
    if larder.name and not larder.registration_number:
        gaps.append(Duty("this week", "Write down the larder's food registration number.", "setup"))
    if larder.name and not larder.address:
        gaps.append(Duty("this week", "Write down the larder's address: officers' papers carry it.", "setup"))
    if sum(person.is_active for person in lists.people(register)) == 1:
        gaps.append(
            Duty(
                "this week",
                "Enrol a second person: holds are lifted by another than who placed them.",
                "setup",
            )
        )
    return tuple(gaps)


def waiting(register: Register) -> Waiting:
    """What waits at each station, for the strip."""
    with register.store.reading() as connection:
        count = look_lots.counts(connection)
    duties, unfinished = _duties(register)
    counts = {
        "delivery": unfinished,
        "larder": count.hanging,
        "block": count.open_blocks,
        "pass": count.packs,
        "trace": 0,
        "visit": 0,
        "today": len(duties),
    }
    words = {
        "delivery": f"{unfinished} to finish" if unfinished else "",
        "larder": f"{count.hanging} hanging" if count.hanging else "",
        "block": f"{count.open_blocks} open" if count.open_blocks else "",
        "pass": f"{count.packs} pack{'s' if count.packs > 1 else ''} in" if count.packs else "",
        "trace": "",
        "visit": "",
        "today": str(counts["today"]) if counts["today"] else "",
    }
    return Waiting(counts, words)
