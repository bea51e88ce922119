"""What is expected at the door: who, when, how many bodies; ticked off as it comes, or cancelled.

A word given on the telephone: it holds no meat and no weight, and the door never asks for one.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.facts.loading import UnknownFact
from gametrace.facts.species import species as species_called
from gametrace.register import lists
from gametrace.register.clock import day_text
from gametrace.register.door_checks import is_time
from gametrace.register.opening import Register
from gametrace.register.places import stores_of
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_expected, look_setup, rows
from gametrace.store.engine import Connection

FURTHEST_DAYS = 400  # a shooting plan is made for a season ahead; more is a slip in the year


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


def expect_delivery(
    register: Register,
    *,
    by: str,
    supplier: str,
    on: date,
    bodies: int,
    species: str = "",
    at: str = "",
    store: str = "",
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Somebody said that a delivery will come. Changes.code is its number, 'E001'."""
    if not 1 <= bodies <= 1_000:
        raise Refusal("That count cannot be.", "Give the number of bodies, 1 to 1,000.", "bodies")
    if at and not is_time(at):
        raise Refusal("A time is written 07:40.", "Leave it empty if it was not said.", "at")
    kind = _species(species) if species else ""
    words = clean(note, "note", most=500)

    def decide(work: Work) -> Plan:
        if look_setup.supplier_row(work.connection, supplier) is None:
            raise Refusal("Choose who will bring it.", "A new supplier is added under Set-up.", "supplier")
        if on < work.day:
            raise Refusal(f"{day_text(on)} is past.", "Give the day it is expected; take in what came.", "on")
        if on > work.day + timedelta(days=FURTHEST_DAYS):
            raise Refusal(f"{day_text(on)} is too far ahead.", "Check the year.", "on")
        if store and store not in stores_of(work.connection):
            raise Refusal(f"There is no store {store[:40]}.", "Choose it from the list.", "store")
        code = rows.next_code(work.connection, "expected", "E")
        body = {
            "expected": code,
            "supplier": supplier,
            "on_day": on.isoformat(),
            "at": at,
            "species": kind,
            "bodies": bodies,
            "store": store,
            "note": words,
        }
        return Plan(body, created=(code,))

    return perform(register, "delivery.expected", decide, by=by, happened_at=happened_at, key=key)


def tick_expected(
    register: Register,
    *,
    by: str,
    expected: str,
    code: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """This body, or bag, is of what was expected. When the last one is in, the expectation is done."""

    def decide(work: Work) -> Plan:
        row = _open(work.connection, expected)
        lot = work.lot(code)
        found = look_carcasses.carcass_rows(work.connection, [lot.id])
        if not found:
            raise Refusal(f"{lot.code} is not an animal.", "Choose what came through the door.", "code")
        if found[0].supplier != row.supplier:
            raise Refusal(f"{lot.code} is from another supplier.", "Choose another expectation.", "expected")
        if look_expected.ticked_for(work.connection, lot.id):
            raise Refusal(f"{lot.code} has been ticked off already.", "", "code")
        is_done = row.came + found[0].count >= row.bodies
        body = {"expected": expected, "lot": lot.id, "bodies": found[0].count, "is_done": is_done}
        return Plan(body, codes=(lot.code,), created=())

    return perform(register, "expected.arrived", decide, by=by, happened_at=happened_at, key=key)


def cancel_expected(
    register: Register,
    *,
    by: str,
    expected: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """It will not come, or no more of it than came."""
    why = clean(reason, "reason", most=500, needed="Say why it does not come.")

    def decide(work: Work) -> Plan:
        _open(work.connection, expected)
        return Plan({"expected": expected, "reason": why}, codes=(expected,))

    return perform(register, "expected.cancelled", decide, by=by, happened_at=happened_at, key=key)


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


_NEAR_DAYS = 14  # an animal announced for a day further off is another one; inference


def _open(connection: Connection, expected: str) -> Any:
    row = look_expected.expected_row(connection, expected)
    if row is None:
        raise Refusal(f"Nothing is expected as {expected[:40]}.", "Choose it from the list.", "expected")
    if row.status != "expected":
        raise Refusal(f"{row.code} is {row.status} already.", "Choose another.", "expected")
    return row


def _species(word: str) -> str:
    try:
        return species_called(word).id
    except UnknownFact as error:
        raise Refusal(str(error)[:500], "Choose from the list, or leave it open.", "species") from error
