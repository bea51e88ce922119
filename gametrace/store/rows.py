"""Small look-ups the acts need while they decide: the last number, who may write, what a code stands for."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.domain.canonical import canonical, digest
from gametrace.store.journal import FIRST_SEAL, Entry, entry_from
from gametrace.store.statements import text


def one(connection: Connection, statement: str, **values: Any) -> Row[Any] | None:
    return connection.execute(text(statement), values).first()


def every(connection: Connection, statement: str, **values: Any) -> Sequence[Row[Any]]:
    return connection.execute(text(statement), values).all()


def lowered(words: str) -> str:
    """Small letters as LOWER() makes them, of a file and of a server alike: those of ASCII, and no others."""
    return "".join(letter.lower() if letter.isascii() else letter for letter in words)


def in_list(ids: Iterable[int]) -> str:
    """Integer keys for an IN (...): integers only, so there is nothing to inject."""
    return ",".join(str(int(one_id)) for one_id in ids) or "NULL"


_STANDING = text(
    "SELECT (SELECT text FROM entry WHERE key = :key) AS done, "
    "(SELECT role FROM person WHERE code = :person AND is_active = 1) AS role, "
    "(SELECT pin_seq FROM person WHERE code = :person AND is_active = 1) AS pin_seq, "
    "(SELECT MAX(seq) FROM entry) AS last, "
    "(SELECT seal FROM entry WHERE seq = (SELECT MAX(seq) FROM entry)) AS seal, "
    "(SELECT MAX(id) FROM lot) AS last_lot, (SELECT MAX(id) FROM hold) AS last_hold"
)


@dataclass(frozen=True, slots=True)
class Standing:
    """What every act asks first."""

    done: Entry | None  # what an act with this key already wrote
    role: str  # '' where nobody of that code works here
    pin_seq: int  # the entry that set their PIN, 0 where none is set
    head: tuple[int, str]  # how many entries there are, and the last one's seal
    last_lot: int
    last_hold: int


def standing(connection: Connection, *, key: str, person: str) -> Standing:
    """How the register stands for an act of this key and person, in one trip to a server."""
    row = connection.execute(_STANDING, {"key": key, "person": person}).one()
    return Standing(
        done=entry_from(row.done) if row.done else None,
        role=row.role or "",
        pin_seq=row.pin_seq or 0,
        head=(row.last or 0, row.seal or FIRST_SEAL),
        last_lot=row.last_lot or 0,
        last_hold=row.last_hold or 0,
    )


def has_people(connection: Connection) -> bool:
    return one(connection, "SELECT 1 FROM person LIMIT 1") is not None


def active_role(connection: Connection, person: str) -> str | None:
    row = one(connection, "SELECT role FROM person WHERE code = :code AND is_active = 1", code=person)
    return row.role if row else None


def writer(connection: Connection, person: str) -> Row[Any] | None:
    """`role` of somebody who works here, and `pin_seq`: the entry that set their PIN, 0 where none is set."""
    return one(
        connection, "SELECT role, pin_seq FROM person WHERE code = :code AND is_active = 1", code=person
    )


def people_here(connection: Connection) -> list[str]:
    """The codes of those who work here."""
    rows = every(connection, "SELECT code FROM person WHERE is_active = 1 ORDER BY code")
    return [row.code for row in rows]


def has_pins(connection: Connection) -> bool:
    return one(connection, "SELECT 1 FROM person WHERE is_active = 1 AND pin_seq > 0 LIMIT 1") is not None


def next_code(connection: Connection, table: str, letter: str) -> str:
    """'P001', 'S014': the next code of people or suppliers; codes are never used again."""
    row = one(
        connection,
        f"SELECT MAX(CAST(SUBSTR(code, 2) AS INTEGER)) AS last FROM {table} WHERE code LIKE '{letter}%'",
    )
    return f"{letter}{((row.last if row else 0) or 0) + 1:03d}"


def settings(connection: Connection) -> dict[str, str]:
    return {row.key: row.value for row in every(connection, "SELECT key, value FROM setting")}


def write_card(connection: Connection, code: str, card: dict[str, str]) -> str:
    """Keep a name outside the journal; returns the digest to be sealed in its place.

    The salt goes with the card: once the card is gone, the digest left in the entry says nothing.
    """
    salt = secrets.token_hex(16)
    spelled = canonical(card)
    connection.execute(
        text(
            "INSERT INTO name_card (code, salt, card) VALUES (:code, :salt, :card) "
            "ON CONFLICT (code) DO UPDATE SET salt = excluded.salt, card = excluded.card"
        ),
        {"code": code, "salt": salt, "card": spelled},
    )
    return digest(salt + spelled)


def tear_card(connection: Connection, code: str) -> None:
    connection.execute(text("DELETE FROM name_card WHERE code = :code"), {"code": code})


def cards(connection: Connection) -> dict[str, dict[str, str]]:
    """Every name card by code. A forgotten person has none."""
    return {row.code: json.loads(row.card) for row in every(connection, "SELECT code, card FROM name_card")}


def card_digests(connection: Connection) -> dict[str, str]:
    """What the digest of each card is now, to hold against the sealed one."""
    rows = every(connection, "SELECT code, salt, card FROM name_card")
    # A damaged row may hold nothing at all: that is no digest, and no reason to stop looking.
    return {row.code: digest(f"{row.salt}{row.card}") for row in rows}


def created_by(entry: Entry) -> list[int | str]:
    """What an entry brought into being, first one first: lot keys, or the code of a person or supplier."""
    body = entry.body
    match entry.kind:
        case "delivery.received":
            return [body["lot"]]
        case "lots.joined":
            return [body["output"]["lot"]]
        case "lot.weighed":
            return [body["drying"]["lot"]] if body["drying"] else []
        case "carcass.dressed" | "lot.divided":
            return [output["lot"] for output in body["outputs"]]
        case "lots.issued" | "lots.supplied":
            return [output["lot"] for output in body["outputs"]]
        case "dish.left-over":
            return [body["output"]["lot"]]
        case "customer.added":
            return [body["customer"]]
        case "person.enrolled":
            return [body["person"]]
        case "roster.added":
            return [student["student"] for student in body["students"]]
        case "session.opened":
            return [body["session"]]
        case "supplier.added":
            return [body["supplier"]]
        case "store.added":
            return [body["store"]]
        case "delivery.expected":
            return [body["expected"]]
        case "hold.placed":
            return [str(body["hold"])]
        case "store.failed" | "set.held":
            return [str(hold["hold"]) for hold in body["holds"]]
        case "set.saved":
            return [body["set"]]
        case "recall.opened":
            return [body["recall"]]
        case "drill.begun":
            return [body["drill"]]
        case "claim.raised":
            return [str(body["claim"])]
        case "picture.attached":
            return [body["hash"]]
        case "probe.added":
            return [body["probe"]]
    return []


def hunter(connection: Connection, name: str) -> dict[str, str] | None:
    """The code and sealed digest of a trained person, making a card the first time a name is met.

    Codes are never used again, even after a card was torn up. None where no name was given.
    """
    if not name:
        return None
    known = every(
        connection,
        "SELECT hunter.code, hunter.card, name_card.card AS name FROM hunter "
        "JOIN name_card ON name_card.code = hunter.code",
    )
    for row in known:
        if json.loads(row.name)["name"].casefold() == name.casefold():
            return {"code": row.code, "card": row.card}
    code = next_code(connection, "hunter", "H")
    return {"code": code, "card": write_card(connection, code, {"name": name})}


def sealed_cards(connection: Connection) -> dict[str, str]:
    """The digest of every name's card, persons' to students', as the journal sealed it."""
    found = every(
        connection,
        "SELECT code, card FROM person UNION ALL SELECT code, card FROM supplier UNION ALL "
        "SELECT code, card FROM hunter UNION ALL SELECT code, card FROM customer UNION ALL "
        "SELECT code, card FROM student WHERE card <> ''",
    )
    return {row.code: row.card for row in found}
