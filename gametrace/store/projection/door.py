"""Plays what is learnt of an animal after it came in: looks, calls, pictures, the second decision, claims."""

from __future__ import annotations

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection.animals import rewrite_findings
from gametrace.store.projection.rows import insert, note_entry, place_hold, update
from gametrace.store.statements import text


def _examined(connection: Connection, entry: Entry) -> None:
    body = entry.body
    lot, stage = body["lot"], body["stage"]
    for look in body["looks"]:
        connection.execute(
            text(
                "INSERT INTO look (lot_id, stage, point, answer, note, seq) "
                "VALUES (:lot, :stage, :point, :answer, :note, :seq) ON CONFLICT (lot_id, stage, point) "
                "DO UPDATE SET answer = excluded.answer, note = excluded.note, seq = excluded.seq"
            ),
            {"lot": lot, "stage": stage, "seq": entry.seq, **look},
        )
    if body["marks"] is not None:  # the drawing as a whole; None left it as it was
        connection.execute(
            text("DELETE FROM mark WHERE lot_id = :lot AND stage = :stage"), {"lot": lot, "stage": stage}
        )
        for position, mark in enumerate(body["marks"]):
            insert(connection, "mark", {"lot_id": lot, "stage": stage, "position": position, **mark})
    # Each stage keeps its own findings: a clean look out of the skin takes back nothing seen at the door.
    rests_on = "examination" if stage == "in the skin" else "second examination"
    rewrite_findings(connection, lot, rests_on, body["findings"])
    note_entry(connection, entry, [lot])
    for hold in body["holds"]:
        place_hold(connection, entry, hold, lot)


def _call_recorded(connection: Connection, entry: Entry) -> None:
    body = entry.body
    columns = ("about", "answer", "spoken_by")
    insert(
        connection,
        "call",
        {"seq": entry.seq, "lot_id": body["lot"], **{name: body[name] for name in columns}},
    )
    note_entry(connection, entry, [body["lot"]])


def _picture_attached(connection: Connection, entry: Entry) -> None:
    body = entry.body
    columns = ("what", "hash", "original_hash", "media_type")
    insert(
        connection,
        "picture",
        {"seq": entry.seq, "lot_id": body["lot"], **{name: body[name] for name in columns}},
    )
    note_entry(connection, entry, [body["lot"]])


def _decided_again(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "second_decision",
        {"lot_id": body["lot"], "decision": body["decision"], "reason": body["reason"], "seq": entry.seq},
    )
    note_entry(connection, entry, [body["lot"]])
    for hold in body["holds"]:
        place_hold(connection, entry, hold, body["lot"])


def _claim_raised(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "claim",
        {
            "id": body["claim"],
            "lot_id": body["lot"],
            "rule": body["rule"],
            "grams": body["grams"],
            "pence": body["pence"],
            "reason": body["reason"],
            "raised_at": entry.happened_at,
            "raised_by": entry.by,
            "status": "raised",
            "settled_pence": None,
            "settled_at": None,
            "settled_note": "",
        },
    )
    note_entry(connection, entry, [body["lot"]])


def _claim_settled(connection: Connection, entry: Entry) -> None:
    body = entry.body
    update(
        connection,
        "claim",
        "id",
        body["claim"],
        {
            "status": body["status"],
            "settled_pence": body["pence"],
            "settled_at": entry.happened_at,
            "settled_note": body["note"],
        },
    )
    note_entry(connection, entry, [body["lot"]])


def _laboratory_answered(connection: Connection, entry: Entry) -> None:
    """A negative result lifts the holds that waited for it; a positive one locks the animal for ever."""
    body = entry.body
    lot = body["lot"]
    connection.execute(
        text(
            "INSERT INTO laboratory (lot_id, reference, result, seq) "
            "VALUES (:lot, :reference, :result, :seq) "
            "ON CONFLICT (lot_id) DO UPDATE SET reference = excluded.reference, result = excluded.result, "
            "seq = excluded.seq"
        ),
        {"lot": lot, "reference": body["reference"], "result": body["result"], "seq": entry.seq},
    )
    for hold in body["lifted"]:
        update(
            connection,
            "hold",
            "id",
            hold,
            {
                "released_by": entry.by,
                "released_at": entry.happened_at,
                "release_reason": f"laboratory {body['reference']}: {body['result']}",
            },
        )
        connection.execute(text("DELETE FROM stop WHERE hold_id = :hold"), {"hold": hold})
    if (findings := body.get("findings")) is not None:
        rewrite_findings(connection, lot, "delivery", findings)
    for hold in body["holds"]:
        place_hold(connection, entry, hold, lot)
    note_entry(connection, entry, [lot])


PROJECTORS = {
    "carcass.examined": _examined,
    "call.recorded": _call_recorded,
    "picture.attached": _picture_attached,
    "carcass.decided": _decided_again,
    "claim.raised": _claim_raised,
    "claim.settled": _claim_settled,
    "laboratory.answered": _laboratory_answered,
}
