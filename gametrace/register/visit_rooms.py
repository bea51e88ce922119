"""What was measured in the cold stores in a period, what was warm or failed, and what was taken away.

For the officer's paper. A time nobody measured is told as one: it never counts as cold.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date, datetime, timedelta

from gametrace.domain.by_products import keep_papers_until
from gametrace.domain.codes import code_of
from gametrace.register.assembling import Assembler
from gametrace.register.bins import bin_weeks
from gametrace.register.clock import instant
from gametrace.register.opening import Register
from gametrace.register.places import stores_of
from gametrace.register.policies import policies_of
from gametrace.register.visit_records import (
    Collected,
    ProbeChecked,
    Round,
    StoreCover,
    StoreFailed,
    Warmth,
    WeekOfBins,
)
from gametrace.register.warm_times import Episode
from gametrace.store import journal, look_carcasses, look_rooms, look_today, look_visit

Span = tuple[str, str]


def warmth(found: tuple[Episode, ...]) -> tuple[Warmth, ...]:
    return tuple(
        Warmth(
            one.store_name,
            one.sort,
            one.first_at,
            one.last_at,
            one.highest_tenths_c,
            one.limit_tenths_c,
            one.lots,
            one.action,
            one.result,
            one.answered_by,
        )
        for one in found
    )


def covers(
    read: Assembler, first: datetime, last: datetime, span: Span, found: tuple[Episode, ...]
) -> tuple[StoreCover, ...]:
    """A line a store: how many readings, how cold and how warm, which files, how long nobody measured."""
    own = policies_of(read.connection)
    seen = {
        row.store: row
        for row in look_visit.stores_read(read.connection, int(first.timestamp()), int(last.timestamp()))
    }
    files: dict[str, list[str]] = defaultdict(list)
    imported = look_visit.entries_of_kind(read.connection, "readings.imported", *span)
    for entry in journal.entries(read.connection, imported):
        files[entry.body["store"]].append(f"{entry.body['name']} ({entry.body['count']:,} readings)")
    lines = []
    for store, (name, sort) in stores_of(read.connection).items():
        row = seen.get(store)
        apart = [_minutes(one) for one in found if one.store == store and one.sort == "gap"]
        lines.append(
            StoreCover(
                name=name,
                sort=sort,
                limit_tenths_c=own.limit_of(sort),
                readings=row.readings if row else 0,
                coldest_tenths_c=row.coldest if row else None,
                warmest_tenths_c=row.warmest if row else None,
                files=tuple(files[store]),
                gaps=len(apart),
                longest_gap_minutes=max(apart, default=0),
                gap_minutes=sum(apart),
            )
        )
    return tuple(lines)


def _minutes(one: Episode) -> int:
    return int((one.last_at - one.first_at).total_seconds()) // 60


def rounds(read: Assembler, span: Span) -> tuple[Round, ...]:
    names = {store: name for store, (name, _) in stores_of(read.connection).items()}
    probes = _probe_names(read)
    seqs = look_visit.entries_of_kind(read.connection, "round.taken", *span)
    return tuple(
        Round(
            instant(entry.happened_at),
            read.initials(entry.by),
            probes.get(entry.body["probe"], entry.body["probe"]),
            tuple((names.get(r["store"], r["store"]), r["tenths_c"]) for r in entry.body["readings"]),
        )
        for entry in journal.entries(read.connection, seqs)
    )


def probes_checked(read: Assembler, span: Span) -> tuple[ProbeChecked, ...]:
    probes = _probe_names(read)
    seqs = look_visit.entries_of_kind(read.connection, "probe.checked", *span)
    return tuple(
        ProbeChecked(
            instant(entry.happened_at),
            read.initials(entry.by),
            probes.get(entry.body["probe"], entry.body["probe"]),
            entry.body["ice_tenths_c"],
            entry.body["boiling_tenths_c"],
        )
        for entry in journal.entries(read.connection, seqs)
    )


def _probe_names(read: Assembler) -> dict[str, str]:
    return {row.code: f"{row.code} {row.name}" for row in look_rooms.probe_rows(read.connection)}


def failures(read: Assembler, span: Span) -> tuple[StoreFailed, ...]:
    """Stores that failed, everything held for it, and what of that is held still."""
    found = []
    seqs = look_visit.entries_of_kind(read.connection, "store.failed", *span)
    for entry in journal.entries(read.connection, seqs):
        placed = {hold["hold"]: hold["lot"] for hold in entry.body["holds"]}
        open_still = look_carcasses.not_lifted(read.connection, placed)
        found.append(
            StoreFailed(
                instant(entry.happened_at),
                read.initials(entry.by),
                read.place_names.get(entry.body["store"], entry.body["store"]),
                entry.body["reason"],
                tuple(code_of(lot) for lot in placed.values()),
                tuple(code_of(lot) for hold, lot in placed.items() if hold in open_still),
            )
        )
    return tuple(found)


def collections(read: Assembler, first: date, last: date) -> tuple[Collected, ...]:
    """Each collector's visit with its document and every lot that went along."""
    rows = look_visit.collected_between(read.connection, first.isoformat(), last.isoformat())
    by_visit = defaultdict(list)
    for row in rows:
        by_visit[row.seq].append(row)
    return tuple(
        Collected(
            on=(on := date.fromisoformat(lots[0].on_day)),
            collector=lots[0].collector,
            document_number=lots[0].document_number,
            destination=lots[0].destination,
            note=lots[0].note,
            keep_until=keep_papers_until(on),
            lots=tuple((code_of(row.lot_id), row.name, row.category, row.grams_made) for row in lots),
        )
        for lots in by_visit.values()
    )


def weeks(register: Register, first: date, last: date) -> tuple[WeekOfBins, ...]:
    """Weekly totals of what fell, for the weeks that reach into the period, in order."""
    monday = first - timedelta(days=first.weekday())
    return tuple(
        WeekOfBins(week.first_day, tuple(sorted(week.grams_by_category.items())))
        for week in reversed(bin_weeks(register, monday, last + timedelta(days=6 - last.weekday())))
    )


def bins_waiting(read: Assembler) -> tuple[str, int]:
    """How many by-products and bins wait for a collector now, in words, and their grams."""
    row = look_today.by_products_waiting(read.connection)
    if row is None or not row.lots:
        return "", 0
    return ("one lot" if row.lots == 1 else f"{row.lots} lots"), row.grams
