"""What is announced and not all here yet: read at every start, so apart from the acts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from gametrace.domain.codes import code_of
from gametrace.facts.species import species as species_called
from gametrace.register.opening import Register
from gametrace.store import look_expected, rows
from gametrace.store.engine import Connection

_NEAR_DAYS = 14  # an animal announced for a day further off is another one; inference


@dataclass(frozen=True, slots=True)
class Expected:
    """One delivery that was announced, and how far it has come."""

    code: str  # E001
    supplier: str
    supplier_name: str
    on: date
    at: str  # 'HH:MM', '' where not said
    species: str  # id, '' where not said
    species_name: str
    bodies: int
    came: int
    store: str
    note: str
    status: str  # expected | arrived | cancelled
    reason: str
    lots: tuple[str, ...]

    @property
    def left(self) -> int:
        """Bodies still to come."""
        return max(0, self.bodies - self.came) if self.status == "expected" else 0

    @property
    def words(self) -> str:
        """'3 × fallow from Marlhanger': what it is, without the day."""
        bodies = "1 body" if self.bodies == 1 else f"{self.bodies} bodies"
        what = f"{self.bodies} × {self.species_name}" if self.species_name else bodies
        return f"{what} from {self.supplier_name}"


def expected_deliveries(register: Register, *, open_only: bool = True) -> tuple[Expected, ...]:
    """What is to come, the nearest first; with the rest, also what came or was cancelled."""
    with register.store.reading() as connection:
        return expected_in(connection, open_only=open_only)


def expected_in(connection: Connection, *, open_only: bool = True) -> tuple[Expected, ...]:
    found = look_expected.expected_rows(connection, open_only=open_only)
    lots = look_expected.lots_of(connection, [row.code for row in found])
    cards = rows.cards(connection)
    return tuple(
        Expected(
            code=row.code,
            supplier=row.supplier,
            supplier_name=cards.get(row.supplier, {}).get("name", row.supplier),
            on=date.fromisoformat(row.on_day),
            at=row.at,
            species=row.species,
            species_name=species_called(row.species).name if row.species else "",
            bodies=row.bodies,
            came=row.came,
            store=row.store,
            note=row.note,
            status=row.status,
            reason=row.reason,
            lots=tuple(code_of(lot) for lot in lots.get(row.code, ())),
        )
        for row in found
    )


def expected_match(register: Register, code: str) -> Expected | None:
    """The expectation that a body just taken in fits best: same supplier, then its kind, then the day."""
    from gametrace.register import lists

    animal = lists.carcass(register, code)
    with register.store.reading() as connection:
        found = [
            one
            for one in expected_in(connection)
            if one.supplier == animal.supplier.code and one.species in ("", animal.species)
        ]
    today = register.today()
    ranked = sorted(found, key=lambda one: (one.species != animal.species, abs((one.on - today).days)))
    near = [one for one in ranked if abs((one.on - today).days) <= _NEAR_DAYS]
    return near[0] if near else None
