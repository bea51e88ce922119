"""Plays what happens to whole animals: received, amended, dressed."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.lineage import descendants
from gametrace.store.projection.rows import add_lot, insert, note_entry, place_hold, set_aside, update
from gametrace.store.statements import text


def _delivery_received(connection: Connection, entry: Entry) -> None:
    body = entry.body
    lot = body["lot"]
    add_lot(connection, entry, body, parents=())
    _note_hunter(connection, body["hunter"])
    insert(connection, "carcass", {"lot_id": lot, **body["animal"]})
    rewrite_findings(connection, lot, "delivery", body["findings"])
    _write_readings(connection, lot, body["readings"])
    note_entry(connection, entry, [lot])
    for hold in body["holds"]:
        place_hold(connection, entry, hold, lot)


def _carcass_amended(connection: Connection, entry: Entry) -> None:
    """A field filled in or put right; the old value stays here and in the entry, the rulings are renewed."""
    body = entry.body
    lot = body["lot"]
    _note_hunter(connection, body["hunter"])
    update(connection, "carcass", "lot_id", lot, body["columns"])
    kind = {"kind": body["kind"]} if "kind" in body else {}
    update(connection, "lot", "id", lot, {"name": body["name"], "species": body["species"], **kind})
    _hand_species_down(connection, lot)
    for position, change in enumerate(body["changes"]):
        insert(
            connection,
            "amendment",
            {
                "seq": entry.seq,
                "position": position,
                "lot_id": lot,
                "field": change["field"],
                "old": change["old"],
                "new": change["new"],
                "reason": body["reason"],
            },
        )
    rewrite_findings(connection, lot, "delivery", body["findings"])
    if body["readings"] is not None:
        connection.execute(text("DELETE FROM reading WHERE lot_id = :lot"), {"lot": lot})
        _write_readings(connection, lot, body["readings"])
    note_entry(connection, entry, [lot])
    for hold in body["holds"]:
        place_hold(connection, entry, hold, lot)


def _note_hunter(connection: Connection, hunter: dict[str, str] | None) -> None:
    """The trained person named on the declaration: a code and the digest of the card, never the name."""
    if hunter is not None:
        connection.execute(
            text("INSERT INTO hunter (code, card) VALUES (:code, :card) ON CONFLICT (code) DO NOTHING"),
            hunter,
        )


def _hand_species_down(connection: Connection, lot: int) -> None:
    """What was cut from a fallow that turns out to be a roe was roe all along; '' where several are mixed."""
    for child in sorted(descendants(connection, lot)):  # parents' keys are lower, so they come first
        connection.execute(
            text(
                "UPDATE lot SET species = (SELECT CASE WHEN MIN(p.species) = MAX(p.species) "
                "THEN MIN(p.species) ELSE '' END FROM lineage JOIN lot AS p ON p.id = lineage.parent "
                "WHERE lineage.child = :child) WHERE id = :child"
            ),
            {"child": child},
        )


def _carcass_dressed(connection: Connection, entry: Entry) -> None:
    body = entry.body
    lot = body["lot"]
    set_aside(connection, lot, body["unaccounted"])
    for output in body["outputs"]:
        add_lot(connection, entry, {**output, "grams_in": output["grams"]}, [(lot, output["grams"])])
    update(
        connection,
        "carcass",
        "lot_id",
        lot,
        {"basis": body["basis"], "number_on": body["number_on"], "dressed_at": entry.happened_at},
    )
    note_entry(connection, entry, [lot, *(output["lot"] for output in body["outputs"])])


def _findings_answered(connection: Connection, entry: Entry) -> None:
    for code, reason in entry.body["reasons"].items():
        connection.execute(
            text("UPDATE finding SET reason = :reason WHERE lot_id = :lot AND code = :code"),
            {"lot": entry.body["lot"], "code": code, "reason": reason},
        )
    if asked := entry.body.get("asked"):
        rewrite_findings(connection, entry.body["lot"], "hanging", asked)
    note_entry(connection, entry, [entry.body["lot"]])


def rewrite_findings(connection: Connection, lot: int, rests_on: str, findings: list[dict[str, Any]]) -> None:
    """The findings on what was delivered, or on what was seen, as they are ruled now."""
    connection.execute(
        text("DELETE FROM finding WHERE lot_id = :lot AND rests_on = :rests_on"),
        {"lot": lot, "rests_on": rests_on},
    )
    for position, finding in enumerate(findings):
        insert(connection, "finding", {"lot_id": lot, "rests_on": rests_on, "position": position, **finding})


def _write_readings(connection: Connection, lot: int, readings: list[list[Any]]) -> None:
    for position, (place, tenths_c) in enumerate(readings):
        insert(
            connection,
            "reading",
            {"lot_id": lot, "position": position, "place": place, "tenths_c": tenths_c},
        )


PROJECTORS = {
    "delivery.received": _delivery_received,
    "carcass.amended": _carcass_amended,
    "carcass.dressed": _carcass_dressed,
    "findings.answered": _findings_answered,
}
