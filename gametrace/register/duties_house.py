"""What the house asks for today: rounds, warm stores, probes, suppliers' papers, bins that wait.

Warm times are looked for in the last fortnight only; the larder's own page shows all of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from gametrace.domain.excursions import excursions
from gametrace.domain.quantities import celsius_text
from gametrace.facts.temperatures import probe_check
from gametrace.register.clock import day_text, instant, instant_text, wall_day, wall_instant, wall_text
from gametrace.register.expected_list import expected_in
from gametrace.register.places import stores_of
from gametrace.register.policies import Policies
from gametrace.register.records import Duty
from gametrace.store import journal, look_rooms, look_setup, look_today, look_visit, rows
from gametrace.store.engine import Connection

_LOOK_BACK = timedelta(days=14)
_AHEAD_DAYS = 31  # suppliers' papers are asked for a month before they lapse
_YEAR_DAYS = 366  # a supplier that brought nothing for so long is not asked for papers

_PAPERS = {
    "certificate_until": "the trained person's certificate",
    "lead_free_until": "the lead-free statement",
    "insured_until": "the insurance",
    "review_on": "the yearly review",
}


def house_duties(connection: Connection, now: datetime, today: date, own: Policies) -> list[Duty]:
    """Everything about stores, instruments, suppliers and bins."""
    return [
        *_warm(connection, now, own),
        *_rounds(connection, now, own),
        *_probes(connection, today, own),
        *_suppliers(connection, today),
        *_bins(connection, today),
        *_backup(connection, now, own),
        *_pins_lifted(connection, now),
        *_expected(connection, today),
    ]


def _warm(connection: Connection, now: datetime, own: Policies) -> Iterator[Duty]:
    last, first = int(now.timestamp()), int((now - _LOOK_BACK).timestamp())
    for store, (name, sort) in stores_of(connection).items():
        limit = own.limit_of(sort)
        begins = look_today.first_above(connection, store, first, last, limit)
        if begins is None:
            continue
        answered = [row for row in look_rooms.answered(connection, store) if row.sort == "warm"]
        for one in excursions(
            look_rooms.series(connection, store, begins, last),
            limit_tenths_c=limit,
            tolerance_seconds=own.tolerance_minutes * 60,
            longest_gap_seconds=own.reading_minutes * 90,
        ):
            # One that began before the look back is met here from its middle on.
            if any(row.first_at <= one.last_at and row.last_at >= one.first_at for row in answered):
                continue
            at = wall_text(datetime.fromtimestamp(one.first_at, UTC))
            yield Duty(
                "now",
                f"{name} was above {celsius_text(limit)} from {at}, at most "
                f"{celsius_text(one.highest_tenths_c)}: say what was done.",
                "cold",
                store,
                "Answer it",
            )


def _rounds(connection: Connection, now: datetime, own: Policies) -> Iterator[Duty]:
    """One round for all stores with something in them that were not read as often as the kitchen set."""
    in_use, late, first = look_today.stores_in_use(connection), [], ""
    for store, (name, _sort) in stores_of(connection).items():
        if store not in in_use:
            continue
        reading = look_rooms.last_reading(connection, store)
        if reading is None:
            late.append(f"{name} never")
        elif now - (at := datetime.fromtimestamp(reading[0], UTC)) > timedelta(minutes=own.reading_minutes):
            late.append(f"{name} last on {wall_text(at)}")
        else:
            continue
        first = first or store
    if late:
        yield Duty("today", f"Temperatures not taken: {'; '.join(late)}.", "cold", first, "Take a round")


def _probes(connection: Connection, today: date, own: Policies) -> Iterator[Duty]:
    days = own.probe_days or probe_check().days
    for row in look_rooms.probe_rows(connection):
        if row.checked_at is None:
            words = f"Probe {row.code} {row.name} has never been checked"
        else:
            checked = wall_day(instant(row.checked_at))
            if (today - checked).days <= days:
                continue
            words = f"Probe {row.code} {row.name} was last checked on {day_text(checked)}, {days} days hold"
        yield Duty(
            "this week", f"{words}: hold it in melting ice or boiling water.", "cold", row.code, "Check it"
        )


def _suppliers(connection: Connection, today: date) -> Iterator[Duty]:
    found = {row.code: _lapsing(row, today) for row in look_setup.supplier_rows(connection)}
    lapsing = {code: words for code, words in found.items() if words}
    if not lapsing:
        return
    since = instant_text(wall_instant(today - timedelta(days=_YEAR_DAYS), 0))
    recent, cards = look_today.bought_since(connection, since), rows.cards(connection)
    for code, words in lapsing.items():
        if code in recent:
            name = cards.get(code, {}).get("name", code)
            yield Duty("this week", f"{name}: {words}.", "setup", code, "To the supplier")


def _lapsing(row: object, today: date) -> str:
    """'the insurance lapses on 02 Dec 2026', for what lapses within a month or has lapsed."""
    said = []
    for column, words in _PAPERS.items():
        until = getattr(row, column)
        if until is None:
            continue
        day = date.fromisoformat(until)
        if (day - today).days > _AHEAD_DAYS:
            continue
        if column == "review_on":
            said.append(f"{words} {'was' if day < today else 'is'} due on {day_text(day)}")
        else:
            said.append(f"{words} {'lapsed' if day < today else 'lapses'} on {day_text(day)}")
    return " and ".join(said)


def _expected(connection: Connection, today: date) -> Iterator[Duty]:
    """What is to come today, and what did not come."""
    for one in expected_in(connection):
        if one.on > today:
            continue
        came = f", {one.came} came" if one.came else ""
        if one.on == today:
            at = f" at {one.at}" if one.at else ""
            yield Duty("today", f"Expected{at}: {one.words}{came}.", "delivery", "", "Take it in")
        else:
            sentence = f"Expected on {day_text(one.on)}{came}: {one.words}. Tick it off, or say why not."
            yield Duty("today", sentence, "expected", one.code, "Settle it")


def _bins(connection: Connection, today: date) -> Iterator[Duty]:
    row = look_today.by_products_waiting(connection)
    if row is None or not row.lots:
        return
    since = wall_day(instant(row.since))
    what = "One by-product or bin waits" if row.lots == 1 else f"{row.lots} by-products and bins wait"
    yield Duty(
        "this week",
        f"{what} for a collector, {row.grams / 1000:.3f} kg since {day_text(since)}.",
        "bins",
        "",
        "To the bins",
    )


def _backup(connection: Connection, now: datetime, own: Policies) -> Iterator[Duty]:
    """A practice register needs none, nor does one in which nothing was delivered yet."""
    if rows.settings(connection).get("is_practice") == "yes" or not look_setup.count_of_carcasses(connection):
        return
    last = look_setup.last_backup(connection)
    if last is not None and now - instant(last.happened_at) < timedelta(days=own.backup_days):
        return
    since = f"since {wall_text(instant(last.happened_at))}" if last else "at all yet"
    yield Duty("now", f"No backup of the register was kept {since}.", "setup", "backups", "Back up")


def _pins_lifted(connection: Connection, now: datetime) -> Iterator[Duty]:
    """Said for a fortnight, whoever sets a PIN meanwhile: a tutor asks who it was."""
    since = instant_text(now - _LOOK_BACK)
    seqs = look_visit.entries_of_kind(connection, "pin.lifted", since)
    cards = rows.cards(connection) if seqs else {}
    for entry in journal.entries(connection, seqs):
        who = cards.get(entry.body["person"], {}).get("initials", entry.body["person"])
        yield Duty(
            "today",
            f"The PIN of {who} was taken away outside the window on {wall_text(instant(entry.written_at))}, "
            "by somebody with the file; nobody knows by whom. A tutor asks who it was.",
            "setup",
            "people",
            "To the people",
        )
