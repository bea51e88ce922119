"""Plays what happens to any lot: moved, weighed, held, divided, joined, closed, put right, labelled."""

from __future__ import annotations

from sqlalchemy import Connection

from gametrace.store.journal import Entry
from gametrace.store.projection.animals import rewrite_findings
from gametrace.store.projection.cutting import note_closing, note_cutting
from gametrace.store.projection.plates import write_menu
from gametrace.store.projection.rows import add_lot, insert, note_entry, place_hold, set_aside, update
from gametrace.store.statements import text


def _lot_moved(connection: Connection, entry: Entry) -> None:
    update(connection, "lot", "id", entry.body["lot"], {"place": entry.body["to"]})
    note_entry(connection, entry, [entry.body["lot"]])


def _lot_weighed(connection: Connection, entry: Entry) -> None:
    """A second weighing; what is gone since the first is a drying lot of its own, so nothing vanishes."""
    body = entry.body
    touched = [body["lot"]]
    if (drying := body["drying"]) is not None:
        add_lot(connection, entry, {**drying, "grams_in": drying["grams"]}, [(body["lot"], drying["grams"])])
        touched.append(drying["lot"])
    note_entry(connection, entry, touched)


def _hold_placed(connection: Connection, entry: Entry) -> None:
    place_hold(connection, entry, entry.body, entry.body["lot"])
    note_entry(connection, entry, [entry.body["lot"]])


def _hold_released(connection: Connection, entry: Entry) -> None:
    body = entry.body
    update(
        connection,
        "hold",
        "id",
        body["hold"],
        {"released_by": entry.by, "released_at": entry.happened_at, "release_reason": body["reason"]},
    )
    connection.execute(text("DELETE FROM stop WHERE hold_id = :hold"), {"hold": body["hold"]})
    note_entry(connection, entry, [body["lot"]])


def _lot_divided(connection: Connection, entry: Entry) -> None:
    body = entry.body
    if body["opens"]:
        update(connection, "lot", "id", body["lot"], {"status": "open"})
    if body["over"]:  # within the scale's step: shown as less than nothing unaccounted, never hidden
        set_aside(connection, body["lot"], -body["over"])
    for output in body["outputs"]:
        add_lot(connection, entry, {**output, "grams_in": output["grams"]}, [(body["lot"], output["grams"])])
        note_cutting(connection, body, output["lot"])
    note_entry(connection, entry, [body["lot"], *(output["lot"] for output in body["outputs"])])


def _lot_closed(connection: Connection, entry: Entry) -> None:
    lot = entry.body["lot"]
    set_aside(connection, lot, entry.body["unaccounted"])
    update(connection, "lot", "id", lot, {"status": "closed"})
    note_closing(connection, entry.body)
    note_entry(connection, entry, [lot])


def _lots_joined(connection: Connection, entry: Entry) -> None:
    body = entry.body
    inputs = [(lot, grams) for lot, grams in body["inputs"]]
    others = body.get("others", [])
    total = sum(grams for _, grams in inputs) + sum(other["grams"] for other in others)
    output = {**body["output"], "grams_in": total}
    add_lot(connection, entry, output, inputs)
    for position, other in enumerate(others):
        insert(connection, "ingredient", {"lot_id": output["lot"], "position": position, **other})
    if body["dish"] is not None:
        insert(connection, "dish", {"lot_id": output["lot"], **body["dish"]})
    if menu := body.get("menu"):
        write_menu(connection, output["lot"], menu, "")
    note_entry(connection, entry, [output["lot"], *(lot for lot, _ in inputs)])


def _lot_kept(connection: Connection, entry: Entry) -> None:
    """Frozen, thawed, packed again or dated by hand: how it is kept from now on, and where."""
    body = entry.body
    update(connection, "lot", "id", body["lot"], body["now"])
    if entry.kind == "date.overridden":
        _amend(connection, entry, "use by", body["was"]["use_by"] or "", body["now"]["use_by"])
    note_entry(connection, entry, [body["lot"]])


def _weight_corrected(connection: Connection, entry: Entry) -> None:
    """The weight a lot was made with was wrong: its own sums and its parent's follow, the old stays on view.

    A finished lot is gone, so its difference is what nobody weighed; otherwise it lies on the table.
    """
    body = entry.body
    lot, by = body["lot"], body["grams"] - body["was"]
    _add_weight(connection, lot, by)
    _give(connection, lot, by, is_closed=body["is_closed"])
    if body["findings"] is not None:
        rewrite_findings(connection, lot, "delivery", body["findings"])
    if (parent := body["parent"]) is None:
        connection.execute(
            text("UPDATE carcass SET grams_received = grams_received + :by WHERE lot_id = :lot"),
            {"lot": lot, "by": by},
        )
    else:
        connection.execute(
            text("UPDATE lineage SET grams = grams + :by WHERE child = :lot AND parent = :parent"),
            {"lot": lot, "by": by, "parent": parent},
        )
        _give(connection, parent, -by, is_closed=body["parent_is_closed"])
    _amend(connection, entry, "weight", str(body["was"]), str(body["grams"]))
    note_entry(connection, entry, [lot, *([parent] if parent is not None else [])])
    for hold in body["holds"]:
        place_hold(connection, entry, hold, lot)


def _amend(connection: Connection, entry: Entry, field: str, old: str, new: str) -> None:
    insert(
        connection,
        "amendment",
        {
            "seq": entry.seq,
            "position": 0,
            "lot_id": entry.body["lot"],
            "field": field,
            "old": old,
            "new": new,
            "reason": entry.body["reason"],
        },
    )


def _add_weight(connection: Connection, lot: int, grams: int) -> None:
    connection.execute(
        text("UPDATE lot SET grams_in = grams_in + :grams, grams_made = grams_made + :grams WHERE id = :lot"),
        {"grams": grams, "lot": lot},
    )


def _give(connection: Connection, lot: int, grams: int, *, is_closed: bool) -> None:
    """Grams come to a lot, or leave it when negative: as unaccounted where it is closed."""
    column = "unaccounted" if is_closed else "grams_left"
    is_used_up = "1 = 0" if is_closed else "grams_left + :grams = 0"
    connection.execute(
        text(
            f"UPDATE lot SET {column} = {column} + :grams, "
            f"status = CASE WHEN {is_used_up} THEN 'closed' ELSE status END WHERE id = :lot"
        ),
        {"grams": grams, "lot": lot},
    )


def _labels_printed(connection: Connection, entry: Entry) -> None:
    once = [[lot, entry.body["sort"], 1] for lot in entry.body["lots"]]
    for lot, sort, many in entry.body.get("prints", once):
        connection.execute(
            text(
                "INSERT INTO label_print (lot_id, sort, times) VALUES (:lot, :sort, :many) "
                "ON CONFLICT (lot_id, sort) DO UPDATE SET times = label_print.times + :many"
            ),
            {"lot": lot, "sort": sort, "many": many},
        )
    note_entry(connection, entry, entry.body["lots"])


def _dish_priced(connection: Connection, entry: Entry) -> None:
    """The last price counts; the ones before stay in the entries."""
    body = entry.body
    connection.execute(text("DELETE FROM dish_price WHERE lot_id = :lot"), {"lot": body["lot"]})
    columns = ("price_pence", "vat_hundredths", "other_pence", "heads")
    insert(
        connection,
        "dish_price",
        {"lot_id": body["lot"], "seq": entry.seq, **{name: body[name] for name in columns}},
    )
    note_entry(connection, entry, [body["lot"]])


PROJECTORS = {
    "lot.moved": _lot_moved,
    "lot.weighed": _lot_weighed,
    "hold.placed": _hold_placed,
    "hold.released": _hold_released,
    "lot.divided": _lot_divided,
    "lot.closed": _lot_closed,
    "lots.joined": _lots_joined,
    "lot.frozen": _lot_kept,
    "lot.thawed": _lot_kept,
    "lot.repacked": _lot_kept,
    "date.overridden": _lot_kept,
    "weight.corrected": _weight_corrected,
    "labels.printed": _labels_printed,
    "dish.priced": _dish_priced,
}
