"""What is expected at the door: who, when, how many bodies; ticked off as it comes, or cancelled.

A word given on the telephone: it holds no meat and no weight, and the door never asks for one.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from gametrace.domain.errors import Refusal
from gametrace.facts.loading import UnknownFact
from gametrace.facts.species import species as species_called
from gametrace.register.clock import day_text
from gametrace.register.door_checks import is_time
from gametrace.register.opening import Register
from gametrace.register.places import stores_of
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_expected, look_setup, rows
from gametrace.store.engine import Connection

FURTHEST_DAYS = 400  # a shooting plan is made for a season ahead; more is a slip in the year


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
