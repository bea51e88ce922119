"""Plays saved sets, holds on many lots at once, bags without a label, recalls and drills."""

from __future__ import annotations

from sqlalchemy import Connection

from gametrace.domain.canonical import canonical
from gametrace.store.journal import Entry
from gametrace.store.projection.rows import insert, note_entry, place_hold, update
from gametrace.store.statements import text


def _set_saved(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "saved_set",
        {"code": body["set"], "name": body["name"], "asked": canonical(body["asked"]), "seq": entry.seq},
    )
    rows = [{"code": body["set"], "lot_id": lot} for lot in body["lots"]]
    connection.execute(text("INSERT INTO saved_lot (code, lot_id) VALUES (:code, :lot_id)"), rows)


def _set_held(connection: Connection, entry: Entry) -> None:
    for hold in entry.body["holds"]:
        place_hold(connection, entry, hold, hold["lot"])
    note_entry(connection, entry, [hold["lot"] for hold in entry.body["holds"]])


def _set_released(connection: Connection, entry: Entry) -> None:
    body = entry.body
    for hold in body["holds"]:
        update(
            connection,
            "hold",
            "id",
            hold["hold"],
            {"released_by": entry.by, "released_at": entry.happened_at, "release_reason": body["reason"]},
        )
        connection.execute(text("DELETE FROM stop WHERE hold_id = :hold"), {"hold": hold["hold"]})
    note_entry(connection, entry, [hold["lot"] for hold in body["holds"]])


def _bag_decided(connection: Connection, entry: Entry) -> None:
    body = entry.body
    columns = ("grams", "on_day", "look", "place", "reason")
    row = {name: body[name] for name in columns}
    insert(connection, "bag", {"seq": entry.seq, **row, "lot_id": body["lot"]})
    if body["lot"] is not None:
        note_entry(connection, entry, [body["lot"]])


def _recall_opened(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "recall",
        {
            "code": body["recall"],
            "what": body["what"],
            "reason": body["reason"],
            "opened_at": entry.happened_at,
            "opened_by": entry.by,
            "closed_at": None,
            "closed_by": "",
            "outcome": "",
            "seq": entry.seq,
        },
    )
    rows = [{"recall": body["recall"], "lot_id": lot} for lot in body["lots"]]
    connection.execute(text("INSERT INTO recalled_lot (recall, lot_id) VALUES (:recall, :lot_id)"), rows)
    for hold in body["holds"]:
        place_hold(connection, entry, hold, hold["lot"])
    note_entry(connection, entry, body["lots"])


def _recall_called(connection: Connection, entry: Entry) -> None:
    body = entry.body
    row = {name: body[name] for name in ("recall", "whom", "answer")}
    seen = {"happened_at": entry.happened_at, "person": entry.by}
    insert(connection, "recall_call", {"seq": entry.seq, **row, **seen})


def _recall_stepped(connection: Connection, entry: Entry) -> None:
    body = entry.body
    connection.execute(
        text(
            "INSERT INTO recall_step (recall, step, answer, note, happened_at, person) VALUES "
            "(:recall, :step, :answer, :note, :happened_at, :person) ON CONFLICT (recall, step) DO UPDATE "
            "SET answer = excluded.answer, note = excluded.note, happened_at = excluded.happened_at, "
            "person = excluded.person"
        ),
        {
            **{name: body[name] for name in ("recall", "step", "answer", "note")},
            "happened_at": entry.happened_at,
            "person": entry.by,
        },
    )


def _recall_closed(connection: Connection, entry: Entry) -> None:
    closed = {"closed_at": entry.happened_at, "closed_by": entry.by, "outcome": entry.body["outcome"]}
    update(connection, "recall", "code", entry.body["recall"], closed)


def _drill_begun(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "drill",
        {
            "code": body["drill"],
            "lot_id": body["lot"],
            "manner": body["manner"],
            "begun_at": entry.happened_at,
            "begun_by": entry.by,
            "ended_at": None,
            "seconds": None,
            "asked": 0,
            "found": 0,
            "received_grams": 0,
            "unaccounted_grams": 0,
            "standing": "",
            "note": "",
        },
    )


def _drill_ended(connection: Connection, entry: Entry) -> None:
    body = entry.body
    kept = ("seconds", "received_grams", "unaccounted_grams", "standing", "note")
    columns = {name: body[name] for name in kept}
    counts = {"asked": len(body["asked"]), "found": len(body["found"])}
    update(
        connection,
        "drill",
        "code",
        body["drill"],
        {"ended_at": entry.happened_at, **counts, **columns},
    )


PROJECTORS = {
    "set.saved": _set_saved,
    "set.held": _set_held,
    "set.released": _set_released,
    "bag.decided": _bag_decided,
    "recall.opened": _recall_opened,
    "recall.called": _recall_called,
    "recall.stepped": _recall_stepped,
    "recall.closed": _recall_closed,
    "drill.begun": _drill_begun,
    "drill.ended": _drill_ended,
}
