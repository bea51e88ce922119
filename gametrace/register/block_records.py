"""What the questions about the block and its sessions give back: plain frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from gametrace.domain.break_down import BreakDown
from gametrace.register.records import Lot


@dataclass(frozen=True, slots=True)
class TrayLine:
    """One weighing of a break-down. Station and cutter are '' where nobody said."""

    code: str
    name: str
    kind: str
    grams: int
    at: datetime
    by: str
    product: str
    side: str
    station: str = ""
    cutter: str = ""  # a roster code


@dataclass(frozen=True, slots=True)
class BlockView:
    """One lot on the block: what went in, what has been weighed, what is still missing."""

    lot: Lot
    is_closed: bool
    grams_in: int
    trays: tuple[TrayLine, ...]
    unweighed_grams: int  # left to weigh; after closing 0
    unaccounted_grams: int  # fixed at closing
    balance: BreakDown
    product: str  # '' for an animal
    side: str
    session: str = ""  # the open session on a table of which it lies
    station: str = ""


@dataclass(frozen=True, slots=True)
class Student:
    """A roster code. `name` is '' where none was given, or where it is forgotten."""

    code: str  # R001
    name: str
    group: str
    is_active: bool


@dataclass(frozen=True, slots=True)
class AnimalThere:
    """An animal of which something lies on a table."""

    code: str
    name: str


@dataclass(frozen=True, slots=True)
class OnTable:
    """A lot on a table, with its own balance: nothing of another table is in it."""

    view: BlockView
    animals: tuple[AnimalThere, ...]
    reason: str  # why it came to a table on which another animal lay; '' where none did
    closed_by: str  # roster code


@dataclass(frozen=True, slots=True)
class StationView:
    """One table of a session, what lies on it in the order it came."""

    name: str
    lots: tuple[OnTable, ...]

    @property
    def at_work(self) -> OnTable | None:
        """What is being cut there: what came last and is not closed."""
        return next((one for one in reversed(self.lots) if not one.view.is_closed), None)

    @property
    def animals(self) -> tuple[AnimalThere, ...]:
        """The animals of which something unfinished lies there."""
        found = {one.code: one for lot in self.lots if not lot.view.is_closed for one in lot.animals}
        return tuple(found.values())


@dataclass(frozen=True, slots=True)
class CutLine:
    """Who cut what: one tray, pack or bin of a session."""

    cutter: str  # roster code; '' where nobody was named
    name: str
    code: str
    kind: str
    product: str
    side: str
    grams: int
    out_of: str  # the code of the lot it was cut from
    station: str
    at: datetime


@dataclass(frozen=True, slots=True)
class CuttingSession:
    """A session as lists show it."""

    code: str  # B001
    on: date
    group: str
    tutor: str  # initials
    stations: tuple[str, ...]
    opened_at: datetime
    closed_at: datetime | None
    reason: str

    @property
    def is_open(self) -> bool:
        return self.closed_at is None


@dataclass(frozen=True, slots=True)
class SessionView:
    """A session whole: its tables, and who cut what."""

    session: CuttingSession
    stations: tuple[StationView, ...]
    cuts: tuple[CutLine, ...]
