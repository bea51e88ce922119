"""What an officer's paper is made of: the sheet of a period, and the lists of what was done in it.

Frozen and worded like the other records; a document draws them and counts nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime

from gametrace.facts.traceability import OldBook
from gametrace.register.readiness import Found
from gametrace.register.records import (
    Amendment,
    Carcass,
    Hold,
    Larder,
    Seal,
    StoryLine,
    Supplier,
    Trace,
)


@dataclass(frozen=True, slots=True)
class Looked:
    """One examination as it stands: how many points were as they should be, and the others by name."""

    code: str
    title: str
    stage: str  # in the skin | out of the skin
    at: datetime  # the last entry of it in the period
    by: str
    as_it_should_be: int
    not_so: tuple[str, ...]  # 'flies: eggs in the groin'
    not_present: tuple[str, ...]
    not_looked_at: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DecidedAgain:
    """The decision out of the skin."""

    code: str
    title: str
    decision: str
    reason: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Round:
    """One round by hand."""

    at: datetime
    by: str
    probe: str
    readings: tuple[tuple[str, int], ...]  # (store's name, tenths of a degree)


@dataclass(frozen=True, slots=True)
class StoreCover:
    """How well one store was measured in the period."""

    name: str
    sort: str
    limit_tenths_c: int
    readings: int
    coldest_tenths_c: int | None
    warmest_tenths_c: int | None
    files: tuple[str, ...]  # loggers' files brought in during the period
    gaps: int
    longest_gap_minutes: int
    gap_minutes: int  # all of them


@dataclass(frozen=True, slots=True)
class Warmth:
    """A time a store was too warm or unmeasured: what stood there, what was done and what came of it."""

    store: str
    sort: str  # warm | gap
    first_at: datetime
    last_at: datetime
    highest_tenths_c: int | None
    limit_tenths_c: int
    lots: tuple[str, ...]
    action: str
    result: str
    by: str


@dataclass(frozen=True, slots=True)
class ProbeChecked:
    at: datetime
    by: str
    probe: str
    ice_tenths_c: int | None
    boiling_tenths_c: int | None


@dataclass(frozen=True, slots=True)
class StoreFailed:
    at: datetime
    by: str
    store: str
    reason: str
    held: tuple[str, ...]
    still_held: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Collected:
    """What one collector took on one document."""

    on: date
    collector: str
    document_number: str
    destination: str
    note: str
    keep_until: date
    lots: tuple[tuple[str, str, int, int], ...]  # (code, name, category, grams)


@dataclass(frozen=True, slots=True)
class WeekOfBins:
    """What fell as by-product and waste in one week, by category, and what of all waits at the end."""

    first_day: date
    grams_by_category: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class SupplierFile:
    """The approval file of a supplier who brought something in the period."""

    supplier: Supplier
    papers: tuple[str, ...]  # each with the last day it holds, in words
    lapsed: tuple[str, ...]  # what did not hold on the last day of the period
    scores: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CallMade:
    at: datetime
    by: str
    code: str
    title: str
    about: str
    answer: str
    spoken_by: str


@dataclass(frozen=True, slots=True)
class ClaimMade:
    id: int
    code: str
    title: str
    supplier: str
    rule: str
    grams: int
    pence: int
    reason: str
    raised_at: datetime
    raised_by: str
    status: str
    settled_pence: int | None
    settled_at: datetime | None
    settled_note: str


@dataclass(frozen=True, slots=True)
class Evidence:
    """What was looked at, measured, held, taken away, asked and claimed in the period."""

    looks: tuple[Looked, ...] = ()
    decided_again: tuple[DecidedAgain, ...] = ()
    covers: tuple[StoreCover, ...] = ()
    rounds: tuple[Round, ...] = ()
    warmth: tuple[Warmth, ...] = ()
    probes: tuple[ProbeChecked, ...] = ()
    failures: tuple[StoreFailed, ...] = ()
    collections: tuple[Collected, ...] = ()
    weeks: tuple[WeekOfBins, ...] = ()
    bins_waiting: tuple[str, int] = ("", 0)  # what waits for a collector now, in words, and its grams
    suppliers: tuple[SupplierFile, ...] = ()
    calls: tuple[CallMade, ...] = ()
    calls_to_make: tuple[tuple[str, str], ...] = ()  # (code, what is to be asked)
    claims: tuple[ClaimMade, ...] = ()


@dataclass(frozen=True, slots=True)
class Mixed:
    """A mix, with every parent and what it gave."""

    code: str
    name: str
    at: datetime
    by: str
    parts: tuple[tuple[str, str, int], ...]  # (code, name, grams)
    grams: int  # as weighed when made
    unaccounted_grams: int
    use_by: date | None


@dataclass(frozen=True, slots=True)
class BrokenDown:
    """A break-down that was closed: what went in is meat, by-products and waste, other, unaccounted."""

    code: str
    name: str
    at: datetime
    by: str
    grams_in: int
    meat_grams: int
    off_grams: int  # by-products and waste
    other_grams: int  # dried off, gone back
    unaccounted_grams: int
    reason: str


@dataclass(frozen=True, slots=True)
class DatesGiven:
    """How many lots of the period were dated by one rule."""

    rule: str
    pack_state: str
    lots: int
    earliest: date
    latest: date


@dataclass(frozen=True, slots=True)
class Dished:
    code: str
    name: str
    on: date
    occasion: str
    portions: int
    grams: int


@dataclass(frozen=True, slots=True)
class Drilled:
    """A trace for practice, and how it went."""

    code: str
    at: datetime
    by: str
    seconds: int
    asked: int  # lots to be found
    found: int
    received_grams: int
    unaccounted_grams: int
    note: str


@dataclass(frozen=True, slots=True)
class Pictured:
    """A picture kept with an animal; no bytes where they are lost."""

    code: str
    what: str
    at: datetime
    by: str
    hash: str
    media_type: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Making:
    """What was made, dated, served, supplied and practised in the period."""

    mixed: tuple[Mixed, ...] = ()
    broken: tuple[BrokenDown, ...] = ()
    dates: tuple[DatesGiven, ...] = ()
    dishes: tuple[Dished, ...] = ()
    supplied: tuple[tuple[tuple[str, str], ...], ...] = ()  # the eight fields, a row a lot
    drills: tuple[Drilled, ...] = ()


@dataclass(frozen=True, slots=True)
class BookList:
    """The list of an old book for a period, ready to be printed or saved."""

    book: OldBook
    first: date
    last: date
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    words: str  # what it rests on and whether it is asked of anybody now


@dataclass(frozen=True, slots=True)
class VisitSheet:
    """Everything the officer's paper shows for a period, worded and in order."""

    larder: Larder
    first_day: date
    last_day: date
    printed_at: datetime
    deliveries: tuple[Carcass, ...]
    holds: tuple[Hold, ...]
    refusals: tuple[Carcass, ...]
    amendments: tuple[Amendment, ...]
    late_entries: tuple[StoryLine, ...]
    suppliers: tuple[Supplier, ...]
    trace: Trace | None
    animal_trace: Trace | None
    seal: Seal
    eight_fields: tuple[tuple[tuple[str, str], ...], ...] = ()  # a row a delivery: (field, value) x 8
    dealer_rows: tuple[tuple[tuple[str, str], ...], ...] = ()  # the Scottish dealer's record
    notes: tuple[str, ...] = field(default_factory=tuple)
    evidence: Evidence = Evidence()
    making: Making = Making()
    book: BookList | None = None  # the fuller old book of this jurisdiction
    ready: tuple[Found, ...] = ()  # what an officer would find, as it stands
    pictures: tuple[Pictured, ...] | None = None  # the annex, where it was asked for
