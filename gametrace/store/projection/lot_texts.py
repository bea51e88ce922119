"""Keeps the words by which each lot is found, after whatever entry spoke of it.

Personal names never come in here: only codes, tags, numbers, names of meat and dishes, places and days.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.domain.codes import code_of
from gametrace.domain.plain_words import plain_text
from gametrace.store.journal import Entry
from gametrace.store.lineage import descendants
from gametrace.store.rows import every, in_list
from gametrace.store.searching import Changed, keep_words

_AT_ONCE = 400
_HAND_DOWN = frozenset({"carcass.amended", "entry.struck"})  # what was cut from it is named anew too
_LOTS = (
    "SELECT lot.id, lot.kind, lot.name, lot.species, lot.note, lot.use_by, lot.made_at, "
    "carcass.tag, carcass.declaration_number, carcass.kill_place, carcass.killed_on, "
    "dish.occasion, dish.on_day, lot_text.words AS had FROM lot LEFT JOIN carcass ON carcass.lot_id = lot.id "
    "LEFT JOIN dish ON dish.lot_id = lot.id LEFT JOIN lot_text ON lot_text.lot_id = lot.id "
    "WHERE lot.id IN ({lots}) AND lot.kind <> 'drying' ORDER BY lot.id"
)
_SPOKEN_OF = "SELECT lot_id FROM lot_entry WHERE seq = :seq"


def write_texts(connection: Connection, entry: Entry) -> None:
    """The words of every lot this entry speaks of, as the tables now stand."""
    if entry.kind not in _HAND_DOWN:
        _keep(connection, every(connection, _LOTS.format(lots=_SPOKEN_OF), seq=entry.seq))
        return
    lots = {row.lot_id for row in every(connection, _SPOKEN_OF, seq=entry.seq)}
    lots |= {below for lot in lots for below in descendants(connection, lot)}
    ordered = sorted(lots)
    for start in range(0, len(ordered), _AT_ONCE):
        write_words(connection, ordered[start : start + _AT_ONCE])


def write_all_words(connection: Connection) -> None:
    """The words of every lot, where none has been written yet."""
    after = "SELECT id FROM lot WHERE id > :last ORDER BY id LIMIT :most"
    last = 0
    while lots := [row.id for row in every(connection, after, last=last, most=_AT_ONCE)]:
        write_words(connection, lots)
        last = lots[-1]


def write_words(connection: Connection, lots: list[int]) -> None:
    """The words of these lots, as the tables now stand."""
    _keep(connection, every(connection, _LOTS.format(lots=in_list(lots))))


def _keep(connection: Connection, rows: Sequence[Row[Any]]) -> None:
    changed = [Changed(row.id, row.had, words) for row in rows if (words := _words(row)) != row.had]
    keep_words(connection, changed)


def _words(row: Row[Any]) -> str:
    return plain_text(
        code_of(row.id),
        row.name,
        row.kind,
        row.species,
        row.tag or "",
        row.declaration_number or "",
        row.kill_place or "",
        row.occasion or "",
        row.killed_on or row.on_day or row.made_at[:10],
        row.use_by or "",
        row.note,
    )
