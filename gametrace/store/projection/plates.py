"""Plays what happens at the pass: records of heat, plates, substitutions, left-overs, issues, supplies."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection

from gametrace.domain.canonical import canonical
from gametrace.store.journal import Entry
from gametrace.store.lineage import descendants
from gametrace.store.projection.rows import add_lot, insert, note_entry, take, update
from gametrace.store.statements import text


def _kitchen_recorded(connection: Connection, entry: Entry) -> None:
    body = entry.body
    row = {name: body[name] for name in ("sort", "tenths_c", "seconds", "probe", "meat", "note")}
    findings = canonical(body["findings"])
    insert(
        connection, "kitchen_record", {"seq": entry.seq, "lot_id": body["lot"], **row, "findings": findings}
    )
    note_entry(connection, entry, [body["lot"]])


def _ingredients_noted(connection: Connection, entry: Entry) -> None:
    for position, one in enumerate(entry.body["ingredients"]):
        allergens = None if one["allergens"] is None else " ".join(one["allergens"])
        row = {**one, "allergens": allergens, "lot_id": entry.body["lot"]}
        insert(connection, "dish_ingredient", {"seq": entry.seq, "position": position, **row})
    note_entry(connection, entry, [entry.body["lot"]])


def _menu_written(connection: Connection, entry: Entry) -> None:
    write_menu(connection, entry.body["lot"], entry.body["claims"], entry.body["line"])
    note_entry(connection, entry, [entry.body["lot"]])


def write_menu(connection: Connection, lot: int, claims: list[Any], line: str) -> None:
    """What the menu says of a dish from now on."""
    connection.execute(
        text(
            "INSERT INTO menu_line (lot_id, claims, line) VALUES (:lot, :claims, :line) "
            "ON CONFLICT (lot_id) DO UPDATE SET claims = excluded.claims, line = excluded.line"
        ),
        {"lot": lot, "claims": canonical(claims), "line": line},
    )


def _dish_served(connection: Connection, entry: Entry) -> None:
    body = entry.body
    insert(
        connection,
        "serving",
        {"seq": entry.seq, "lot_id": body["lot"], "portions": body["portions"], "to_group": body["to_group"]},
    )
    note_entry(connection, entry, [body["lot"]])


def _dish_changed(connection: Connection, entry: Entry) -> None:
    """What went in is put right: grams come to the dish, or go back to where they were taken from."""
    body = entry.body
    dish = body["lot"]
    for lot, grams in body["added"]:
        connection.execute(
            text(
                "INSERT INTO lineage (child, parent, grams) VALUES (:dish, :lot, :grams) "
                "ON CONFLICT (child, parent) DO UPDATE SET grams = lineage.grams + excluded.grams"
            ),
            {"dish": dish, "lot": lot, "grams": grams},
        )
        take(connection, lot, grams)
    for lot, grams in body["not_used"]:
        _give_back(connection, dish, lot, grams)
    more = sum(g for _, g in body["added"]) - sum(g for _, g in body["not_used"])
    connection.execute(
        text(
            "UPDATE lot SET grams_in = grams_in + :more, grams_made = grams_made + :more, "
            "grams_left = grams_left + :more, species = :species WHERE id = :dish"
        ),
        {"more": more, "species": body["species"], "dish": dish},
    )
    update(connection, "dish", "lot_id", dish, {"portions": body["portions"]})
    _hand_stops_down(connection, dish)
    note_entry(connection, entry, [dish, *(lot for lot, _ in (*body["added"], *body["not_used"]))])


def _give_back(connection: Connection, dish: int, lot: int, grams: int) -> None:
    edge = {"dish": dish, "lot": lot, "grams": grams}
    which = "WHERE child = :dish AND parent = :lot"
    connection.execute(text(f"UPDATE lineage SET grams = grams - :grams {which}"), edge)
    connection.execute(text(f"DELETE FROM lineage {which} AND grams = 0"), edge)
    connection.execute(
        text(
            "UPDATE lot SET grams_left = grams_left + :grams, "
            "status = CASE WHEN status = 'closed' AND unaccounted = 0 THEN 'whole' ELSE status END "
            "WHERE id = :lot"
        ),
        edge,
    )


def _hand_stops_down(connection: Connection, dish: int) -> None:
    """The holds that reach the dish, and all that was made of it, by what went into it now."""
    below = sorted({dish, *descendants(connection, dish)})
    names = ",".join(str(lot) for lot in below)
    connection.execute(
        text(
            f"DELETE FROM stop WHERE lot_id IN ({names}) AND hold_id NOT IN "
            f"(SELECT id FROM hold WHERE lot_id IN ({names}))"
        )
    )
    for lot in below:  # ascending: parents come first
        connection.execute(
            text(
                "INSERT INTO stop (lot_id, hold_id) SELECT DISTINCT :lot, stop.hold_id FROM stop "
                "JOIN lineage ON lineage.parent = stop.lot_id WHERE lineage.child = :lot "
                "ON CONFLICT DO NOTHING"
            ),
            {"lot": lot},
        )


def _left_over(connection: Connection, entry: Entry) -> None:
    body = entry.body
    output = body["output"]
    add_lot(connection, entry, {**output, "grams_in": output["grams"]}, [(body["lot"], output["grams"])])
    insert(
        connection,
        "left_over",
        {
            "lot_id": output["lot"],
            "dish": body["lot"],
            "portions": body["portions"],
            "seq": entry.seq,
        },
    )
    note_entry(connection, entry, [body["lot"], output["lot"]])


def _covers_noted(connection: Connection, entry: Entry) -> None:
    connection.execute(
        text(
            "INSERT INTO covers (occasion_kind, occasion, on_day, covers, note) "
            "VALUES (:occasion_kind, :occasion, :on_day, :covers, :note) "
            "ON CONFLICT (occasion_kind, occasion, on_day) DO UPDATE SET covers = excluded.covers, "
            "note = excluded.note"
        ),
        entry.body,
    )


def _lots_issued(connection: Connection, entry: Entry) -> None:
    about = {name: entry.body[name] for name in ("sort", "charged_to", "on_day", "purpose")}
    for output in _gone(connection, entry):
        insert(connection, "issue", {"lot_id": output["lot"], "seq": entry.seq, **about})


def _lots_supplied(connection: Connection, entry: Entry) -> None:
    names = ("customer", "from_words", "owner_before", "owner_after", "dispatched_on")
    about = {name: entry.body[name] for name in names}
    for output in _gone(connection, entry):
        row = {"lot_id": output["lot"], "seq": entry.seq, "description": output["description"]}
        insert(connection, "supply", {**row, **about})


def _gone(connection: Connection, entry: Entry) -> list[dict[str, Any]]:
    """Each output is a lot of its own out of one parent, as entries spell it."""
    outputs: list[dict[str, Any]] = entry.body["outputs"]
    for output in outputs:
        grams = output["grams"]
        add_lot(connection, entry, {**output, "grams_in": grams}, [(output["parent"], grams)])
    note_entry(connection, entry, [lot for o in outputs for lot in (o["lot"], o["parent"])])
    return outputs


def _customer_added(connection: Connection, entry: Entry) -> None:
    body = entry.body
    row = {"code": body["customer"], "registration": body["registration"], "card": body["card"]}
    insert(connection, "customer", row)


PROJECTORS = {
    "kitchen.recorded": _kitchen_recorded,
    "dish.ingredients": _ingredients_noted,
    "dish.menu": _menu_written,
    "dish.served": _dish_served,
    "dish.changed": _dish_changed,
    "dish.left-over": _left_over,
    "covers.noted": _covers_noted,
    "lots.issued": _lots_issued,
    "lots.supplied": _lots_supplied,
    "customer.added": _customer_added,
}
