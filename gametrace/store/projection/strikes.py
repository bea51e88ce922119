"""Plays the striking of an entry: what it made is nothing, what it took flows back, its line stays told.

`happening` is told that the entry was struck, so that whatever is read by kind no longer meets it. The
numbers it gave out stay given out.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sqlalchemy import Connection

from gametrace.domain.lots import LotKind
from gametrace.store.journal import Entry
from gametrace.store.projection.animals import rewrite_findings
from gametrace.store.projection.rooms import unpacked
from gametrace.store.projection.rows import hand_stop_down, insert, note_entry, update
from gametrace.store.statements import text

_EMPTY = {"kind": LotKind.STRUCK, "grams_in": 0, "grams_made": 0, "grams_left": 0, "unaccounted": 0}
_OF_A_LOT = (
    "stop", "dish", "menu_line", "ingredient", "cutting", "issue", "supply", "finding", "reading", "carcass",
    "dish_price", "amendment", "bin_waiting",
)  # fmt: skip
# Rows that carry the number of the entry that wrote them, and go with it.
_ROWS_OF = {
    "dish.served": ("serving",),
    "dish.left-over": ("left_over",),
    "dish.ingredients": ("dish_ingredient",),
    "kitchen.recorded": ("kitchen_record",),
    "call.recorded": ("call",),
    "picture.attached": ("picture",),
    "bag.decided": ("bag",),
    "carcass.decided": ("second_decision",),
    "laboratory.answered": ("laboratory",),
    "date.overridden": ("amendment",),
    "excursion.answered": ("excursion",),
    "by-products.collected": ("collected", "collection"),
    "round.taken": ("store_reading",),
    "readings.imported": ("store_reading",),
}


def _entry_struck(connection: Connection, entry: Entry) -> None:
    body = entry.body
    update(connection, "happening", "seq", body["seq"], {"kind": "struck"})
    for hold in body["holds"]:
        words = {"released_by": entry.by, "released_at": entry.happened_at}
        update(connection, "hold", "id", hold, {**words, "release_reason": f"struck: {body['reason']}"})
        connection.execute(text("DELETE FROM stop WHERE hold_id = :hold"), {"hold": hold})
    _forget_rows(connection, body)
    for lot in body["lots"]:
        connection.execute(text("DELETE FROM lineage WHERE child = :lot"), {"lot": lot})
        for table in _OF_A_LOT:
            connection.execute(text(f"DELETE FROM {table} WHERE lot_id = :lot"), {"lot": lot})
        update(connection, "lot", "id", lot, {**_EMPTY, "status": "closed", "use_by": None})
    for back in body["back"]:
        connection.execute(
            text(
                "UPDATE lot SET grams_left = grams_left + :left, unaccounted = unaccounted + :aside, "
                "status = :status WHERE id = :lot"
            ),
            back,
        )
    if body["kind"] == "lot.closed":  # on a table of a session, if it lay on one
        for back in body["back"]:
            update(connection, "session_lot", "lot_id", back["lot"], {"closed_by": ""})
    for lot, place in body["places"]:
        update(connection, "lot", "id", lot, {"place": place})
    for lot in body["labels"]["lots"]:
        label = {"lot": lot, "sort": body["labels"]["sort"]}
        which = "WHERE lot_id = :lot AND sort = :sort"
        connection.execute(text(f"UPDATE label_print SET times = times - 1 {which}"), label)
        connection.execute(text(f"DELETE FROM label_print {which} AND times <= 0"), label)
    if (stand_again := _STAND_AGAIN.get(body["kind"])) is not None:
        stand_again(connection, body["was"])
    note_entry(connection, entry, body["tells"])


def _forget_rows(connection: Connection, body: dict[str, Any]) -> None:
    if body["kind"] == "by-products.collected":  # they wait for a collector again
        connection.execute(
            text("INSERT INTO bin_waiting (lot_id) SELECT lot_id FROM collected WHERE seq = :seq"),
            {"seq": body["seq"]},
        )
    for table in _ROWS_OF.get(body["kind"], ()):
        connection.execute(text(f"DELETE FROM {table} WHERE seq = :seq"), {"seq": body["seq"]})


# -- what the entry replaced stands again, as the striking entry says it -----------------------------------


def _kept(connection: Connection, was: dict[str, Any]) -> None:
    update(connection, "lot", "id", was["lot"], was["kept"])


def _dressed(connection: Connection, was: dict[str, Any]) -> None:
    update(connection, "carcass", "lot_id", was["lot"], was["animal"])


def _examined(connection: Connection, was: dict[str, Any]) -> None:
    which = {"lot_id": was["lot"], "stage": was["stage"]}
    for table, rows in (("look", was["looks"]), ("mark", _numbered(was["marks"]))):
        connection.execute(text(f"DELETE FROM {table} WHERE lot_id = :lot_id AND stage = :stage"), which)
        for row in rows:
            insert(connection, table, {**which, **row})
    rests_on = "examination" if was["stage"] == "in the skin" else "second examination"
    rewrite_findings(connection, was["lot"], rests_on, was["findings"])


def _numbered(marks: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{"position": position, **mark} for position, mark in enumerate(marks)]


def _laboratory(connection: Connection, was: dict[str, Any]) -> None:
    lifted = {"released_by": "", "released_at": None, "release_reason": ""}
    for hold in was["stand"]:
        update(connection, "hold", "id", hold, lifted)
        hand_stop_down(connection, hold, was["lot"])
    rewrite_findings(connection, was["lot"], "delivery", was["findings"])


def _claim(connection: Connection, was: dict[str, Any]) -> None:
    settled = was["settled"]
    columns = {"settled_pence": settled.get("pence"), "settled_at": settled.get("at")}
    columns |= {"status": settled["status"], "settled_note": settled.get("note", "")}
    update(connection, "claim", "id", was["claim"], columns)


def _arrived(connection: Connection, was: dict[str, Any]) -> None:
    connection.execute(text("DELETE FROM ticked WHERE lot_id = :lot"), {"lot": was["lot"]})
    connection.execute(
        text(
            "UPDATE expected SET came = came - :bodies, "
            "status = CASE WHEN status = 'arrived' THEN 'expected' ELSE status END WHERE code = :expected"
        ),
        {"bodies": was["bodies"], "expected": was["expected"]},
    )


def _laid(connection: Connection, was: dict[str, Any]) -> None:
    which = {"session": was["session"], "lot": was["lot"]}
    where = "WHERE session = :session AND lot_id = :lot"
    if was["laid"] is None:
        connection.execute(text(f"DELETE FROM session_lot {where}"), which)
    else:
        sets = "SET station = :station, seq = :seq, reason = :reason"
        connection.execute(text(f"UPDATE session_lot {sets} {where}"), {**which, **was["laid"]})


def _probed(connection: Connection, was: dict[str, Any]) -> None:
    update(connection, "probe", "code", was["probe"], was["checked"])


def _read(connection: Connection, was: dict[str, Any]) -> None:
    """Earlier readings of the same instants: only where none stands now, or an older one."""
    for one in was["again"]:
        rows = [
            {"store": store, "at": at, "tenths_c": tenths, "seq": one["seq"]}
            for store, at, tenths in one.get("readings") or _of_file(connection, one)
        ]
        connection.execute(
            text(
                "INSERT INTO store_reading (store, at, tenths_c, seq) VALUES (:store, :at, :tenths_c, :seq) "
                "ON CONFLICT (store, at) DO UPDATE SET tenths_c = excluded.tenths_c, seq = excluded.seq "
                "WHERE store_reading.seq < excluded.seq"
            ),
            rows,
        )


def _of_file(connection: Connection, one: dict[str, Any]) -> list[tuple[str, int, int]]:
    found = connection.execute(
        text("SELECT content FROM attachment WHERE hash = :hash"), {"hash": one["hash"]}
    ).scalar_one()
    return [(one["store"], at, tenths) for at, tenths in unpacked(found)]


_STAND_AGAIN: dict[str, Callable[[Connection, dict[str, Any]], None]] = {
    "lot.frozen": _kept,
    "lot.thawed": _kept,
    "lot.repacked": _kept,
    "date.overridden": _kept,
    "carcass.dressed": _dressed,
    "carcass.examined": _examined,
    "laboratory.answered": _laboratory,
    "claim.raised": _claim,
    "claim.settled": _claim,
    "expected.arrived": _arrived,
    "session.laid": _laid,
    "probe.checked": _probed,
    "round.taken": _read,
    "readings.imported": _read,
}

PROJECTORS = {"entry.struck": _entry_struck}
