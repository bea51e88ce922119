"""Plays the set-up: the larder, its people by code, suppliers by code, places."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection.rows import insert, update
from gametrace.store.statements import text

SUPPLIER_COLUMNS = (
    "route",
    "origin",
    "approval_number",
    "trained_person",
    "certificate_number",
    "certificate_until",
    "insured_until",
    "review_on",
    "lead_free",
    "damage_rule",
    "damage_pence",
    "claim_days",
    "price_basis",
    "card",
)


def _larder_set(connection: Connection, entry: Entry) -> None:
    for key, value in entry.body.items():
        connection.execute(
            text(
                "INSERT INTO setting (key, value) VALUES (:key, :value) "
                "ON CONFLICT (key) DO UPDATE SET value = excluded.value"
            ),
            {"key": key, "value": value},
        )


def _person_enrolled(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "person",
        {"code": body["person"], "role": body["role"], "is_active": 1, "card": body["card"], "pin_seq": 0},
    )


def _person_forgotten(connection: Connection, entry: Entry) -> None:
    update(connection, "person", "code", entry.body["person"], {"is_active": 0, "pin_seq": 0})


def _pin_set(connection: Connection, entry: Entry) -> None:
    update(connection, "person", "code", entry.body["person"], {"pin_seq": entry.seq})


def _pin_cleared(connection: Connection, entry: Entry) -> None:
    update(connection, "person", "code", entry.body["person"], {"pin_seq": 0})


def _card_forgotten(connection: Connection, entry: Entry) -> None:
    """The card lay beside the journal; the tables never held the name."""


def _columns(body: dict[str, Any]) -> dict[str, Any]:
    """The columns as sealed. Entries older than the lead-free statement's last day hold none."""
    return {**{n: body[n] for n in SUPPLIER_COLUMNS}, "lead_free_until": body.get("lead_free_until")}


def _supplier_added(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(connection, "supplier", {"code": body["supplier"], **_columns(body)})


def _supplier_amended(connection: Connection, entry: Entry) -> None:
    body = entry.body
    update(connection, "supplier", "code", body["supplier"], _columns(body))


def _store_added(connection: Connection, entry: Entry) -> None:
    body = entry.body
    for place in body["places"]:
        insert(connection, "place", {"store": body["store"], "sort": body["sort"], **place})


def _backup_kept(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "backup",
        {"seq": entry.seq, "place": body["where"], "entries": body["count"], "seal": body["seal"]},
    )


PROJECTORS = {
    "larder.set": _larder_set,
    "person.enrolled": _person_enrolled,
    "person.forgotten": _person_forgotten,
    "card.forgotten": _card_forgotten,
    "pin.set": _pin_set,
    "pin.cleared": _pin_cleared,
    "pin.lifted": _pin_cleared,
    "supplier.added": _supplier_added,
    "supplier.amended": _supplier_amended,
    "store.added": _store_added,
    "backup.kept": _backup_kept,
}
