"""What wants a person today, in plain sentences, each with the one act it asks for."""

from __future__ import annotations

from gametrace.facts.hanging import hanging_ranges
from gametrace.register import lists
from gametrace.register.clock import day_text
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, Duty, Waiting
from gametrace.store import look_lots

_SOON_DAYS = 2


def today(register: Register) -> tuple[Duty, ...]:
    """Sentences grouped by when: now, today, this week. Empty on a good day."""
    return _duties(register, lists.to_finish(register))


def _duties(register: Register, unfinished: tuple[Carcass, ...]) -> tuple[Duty, ...]:
    duties = [
        *setup_gaps(register),
        *_holds(register),
        *_dates(register),
        *_on_the_rail(register),
        *_blocks(register),
        *_unfinished(unfinished),
    ]
    order = {"now": 0, "today": 1, "this week": 2}
    return tuple(sorted(duties, key=lambda duty: order[duty.when]))


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


def _holds(register: Register) -> list[Duty]:
    return [
        Duty("now", f"{hold.code} is on hold: {hold.reason}", "larder", hold.code)
        for hold in lists.holds(register)
    ]


def _dates(register: Register) -> list[Duty]:
    found = []
    for lot in lists.stock(register):
        if lot.use_by is None or lot.state == "on hold":
            continue
        days = (lot.use_by - register.today()).days
        if days < 0:
            found.append(
                Duty(
                    "now",
                    f"{lot.code} {lot.name} is past its date ({day_text(lot.use_by)}): bin it.",
                    "pass",
                    lot.code,
                )
            )
        elif days <= _SOON_DAYS:
            when = "today" if days == 0 else "this week"
            found.append(
                Duty(
                    when, f"{lot.code} {lot.name} is to be used by {day_text(lot.use_by)}.", "pass", lot.code
                )
            )
    return found


def _on_the_rail(register: Register) -> list[Duty]:
    found = []
    for store in lists.larder_view(register):
        for rail in store.rails:
            for hook in rail.hooks:
                if hook.carcass is not None and hook.carcass.lot.state == "hanging":
                    found += _hung_long_enough(hook.carcass)
    return found


def _hung_long_enough(carcass: Carcass) -> list[Duty]:
    target = _longest_cautious(carcass.species)
    if target is None or carcass.days_hung is None or carcass.days_hung < target:
        return []
    where = "to the block" if not carcass.in_skin else "skin and dress it"
    return [
        Duty(
            "today",
            f"{carcass.code} {carcass.title} has hung {carcass.days_hung} days of {target}: {where}.",
            "block" if not carcass.in_skin else "larder",
            carcass.code,
        )
    ]


def _longest_cautious(species: str) -> int | None:
    """The shortest of the published upper limits: sources differ, and the first to pass is worth a look."""
    return min((row.high_days for row in hanging_ranges(species)), default=None)


def _blocks(register: Register) -> list[Duty]:
    return [
        Duty(
            "today",
            f"{lot.code} {lot.name} is open on the block with {lot.grams / 1000:.3f} kg unweighed.",
            "block",
            lot.code,
        )
        for lot in lists.open_blocks(register)
    ]


def _unfinished(carcasses: tuple[Carcass, ...]) -> list[Duty]:
    found = []
    for carcass in carcasses:
        asked = [words for words in carcass.missing if not words.startswith("a reason: ")]
        reasons = len(carcass.missing) - len(asked)
        words = ", ".join(asked)
        if reasons:
            words += (" and " if words else "") + ("a reason" if reasons == 1 else f"{reasons} reasons")
        found.append(
            Duty(
                "this week", f"{carcass.code} {carcass.title} still wants {words}.", "delivery", carcass.code
            )
        )
    return found


def waiting(register: Register) -> Waiting:
    """What waits at each station, for the strip."""
    with register.store.reading() as connection:
        count = look_lots.counts(connection)
    to_finish = lists.to_finish(register)
    unfinished = len(to_finish)
    counts = {
        "delivery": unfinished,
        "larder": count.hanging,
        "block": count.open_blocks,
        "pass": count.packs,
        "trace": 0,
        "visit": 0,
        "today": len(_duties(register, to_finish)),
    }
    words = {
        "delivery": f"{unfinished} to finish" if unfinished else "",
        "larder": f"{count.hanging} hanging" if count.hanging else "",
        "block": f"{count.open_blocks} open" if count.open_blocks else "",
        "pass": f"{count.packs} packs in" if count.packs else "",
        "trace": "",
        "visit": "",
        "today": str(counts["today"]) if counts["today"] else "",
    }
    return Waiting(counts, words)
