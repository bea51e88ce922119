"""What the cutting sheet and a student's evidence sheet say, gathered; the documents draw them.

A cutting sheet can be worked on with a pencil when there is no computer, and keyed in later. An evidence
sheet speaks of a student by the code of the roster; whose code that is, the tutor knows.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS
from gametrace.facts.cut_tree import SIDES
from gametrace.facts.cuts import products
from gametrace.facts.species import species as species_called
from gametrace.register.assembling import Assembler
from gametrace.register.block_lists import block_view, cut_tree
from gametrace.register.block_records import TrayLine
from gametrace.register.clock import wall_day
from gametrace.register.lists import span
from gametrace.register.naming import product_name
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, Larder, Lot
from gametrace.register.work import clean
from gametrace.store import look_sessions
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

# What comes off besides joints, in the order it does. Common practice, no source.
_IN_SKIN = ("skin", "head", "feet", "pluck")
_OFF = ("trim", "bone", "shot-damage", "condemned")


@dataclass(frozen=True, slots=True)
class CuttingSheet:
    """One carcass or joint on paper: what is weighed already, and the names of what may still come."""

    larder: Larder
    printed_at: datetime
    species: str  # its name; '' where the lot is of several
    lot: Lot | None  # None for a sheet that waits for any animal
    animal: Carcass | None
    trays: tuple[TrayLine, ...]
    waiting: tuple[str, ...]  # 'haunch, left': not weighed yet
    unweighed_grams: int
    unaccounted_grams: int


@dataclass(frozen=True, slots=True)
class EvidenceLine:
    """One thing a student cut."""

    on: date
    animals: tuple[tuple[str, str], ...]  # code and name of each beast it is of
    code: str
    name: str
    grams: int
    session: str
    written_by: str  # initials of who was at the keyboard


@dataclass(frozen=True, slots=True)
class EvidenceSheet:
    """What one student cut in a span of days, as the register has it."""

    larder: Larder
    printed_at: datetime
    student: str  # roster code
    first: date
    last: date
    lines: tuple[EvidenceLine, ...]

    @property
    def grams(self) -> int:
        return sum(line.grams for line in self.lines)

    @property
    def animals(self) -> tuple[tuple[str, str], ...]:
        return tuple(sorted({animal for line in self.lines for animal in line.animals}))


def cutting_sheet(register: Register, *, code: str = "", species: str = "") -> CuttingSheet:
    """The sheet of a lot, or an empty one for a kind of animal where no code is given."""
    if not code:
        kind = species_called(species)
        with register.store.reading() as connection:
            larder = Assembler(connection, register.today()).larder()
        waiting = _cut_names(register, kind.id, in_skin=True)
        return CuttingSheet(larder, register.clock(), kind.name, None, None, (), waiting, 0, 0)
    view = block_view(register, code)
    lot = view.lot
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        larder = read.larder()
        animal = next(iter(read.carcasses([lot_id_of(lot.code)])), None)
    done = {tray.name for tray in view.trays}
    names = (
        _cut_names(register, lot.species, in_skin=animal.in_skin)
        if animal is not None and lot.species
        else ()
    )
    return CuttingSheet(
        larder=larder,
        printed_at=register.clock(),
        species=species_called(lot.species).name if lot.species else "",
        lot=lot,
        animal=animal,
        trays=view.trays,
        waiting=() if view.is_closed else tuple(name for name in names if name not in done),
        unweighed_grams=view.unweighed_grams,
        unaccounted_grams=view.unaccounted_grams,
    )


def _cut_names(register: Register, species: str, *, in_skin: bool) -> tuple[str, ...]:
    """The joints of the kitchen's tree, each side by itself, then trim and what is not for food."""
    tree = cut_tree(register, species)
    named: list[str] = []
    for joint in tree.parts:
        if joint.level == "primal" and joint.id not in ("bone-in", "boneless"):
            named += [f"{joint.name}, {side}" for side in SIDES] if joint.paired else [joint.name]
    known = {one.id for one in products(species_called(species).group)}
    named += [product_name(one, "") for one in (*(_IN_SKIN if in_skin else ()), *_OFF) if one in known]
    return tuple(dict.fromkeys(named))


def evidence_sheet(register: Register, *, student: str, first: date, last: date) -> EvidenceSheet:
    """What was cut under this roster code on these days, both included."""
    who = clean(student, "student", most=20, needed="Whose sheet is it? Give the code of the roster.").upper()
    if last < first:
        raise Refusal("The last day is before the first.", "Change one of them.", "last")
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        cut = look_sessions.cut_by(connection, who, *span(first, last))
        ids = [row.lot_id for row in cut]
        lots = read.lots_by_id(ids)
        beasts = _animals_of(connection, read, ids)
        lines = tuple(
            EvidenceLine(
                on=wall_day(lots[row.lot_id].made_at),
                animals=beasts[row.lot_id],
                code=lots[row.lot_id].code,
                name=lots[row.lot_id].name,
                grams=lots[row.lot_id].grams_made,
                session=row.session,
                written_by=lots[row.lot_id].made_by,
            )
            for row in cut
        )
        larder = read.larder()
    return EvidenceSheet(larder, register.clock(), who, first, last, lines)


def _animals_of(
    connection: Connection, read: Assembler, lots: Iterable[int]
) -> dict[int, tuple[tuple[str, str], ...]]:
    """The beasts behind each lot, code and name."""
    above: dict[int, set[int]] = {}
    for edge in edges_above(connection, lots):
        above.setdefault(edge.child, set()).add(edge.parent)
    reached = {lot: _ancestors(lot, above) for lot in lots}
    known = read.lots_by_id({one for found in reached.values() for one in found})
    return {
        lot: tuple(
            (code_of(one), known[one].name) for one in sorted(found) if known[one].kind in ANIMAL_KINDS
        )
        for lot, found in reached.items()
    }


def _ancestors(lot: int, above: dict[int, set[int]]) -> set[int]:
    found, waiting = {lot}, [lot]
    while waiting:
        more = above.get(waiting.pop(), set()) - found
        found |= more
        waiting += more
    return found
