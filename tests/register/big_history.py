"""A random larder of many thousand lots, put into the tables at once: for sums and speed, not for acts.

Every lot is made of what earlier lots still hold, so weight is conserved in each. Nothing of it is in the
journal, so `check` would rightly complain.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from larder_house import House
from sqlalchemy import text

from gametrace.domain.codes import code_of, next_lot_id
from gametrace.domain.plain_words import plain_text
from gametrace.store.searching import index_anew

_KINDS = ("part", "pack", "pack", "pack", "mix", "dish", "by-product", "waste", "drying")
_ENDS = ("dish", "by-product", "waste", "drying")
_NAMES = ("haunch", "saddle", "shoulder", "neck", "shank", "trim", "loin", "flank")
_DEEPEST = 7  # a larder cuts, packs, thaws, minces, cooks: a handful of steps, whatever the number of lots
_START = datetime(2026, 9, 1, 8, tzinfo=UTC)


@dataclass
class BigHistory:
    """What was put in, kept for brute force."""

    lots: dict[int, dict[str, Any]] = field(default_factory=dict)
    edges: list[tuple[int, int, int]] = field(default_factory=list)

    @property
    def animals(self) -> list[int]:
        return [lot for lot, row in self.lots.items() if row["kind"] == "carcass"]


def fill(house: House, lots: int, *, seed: int) -> BigHistory:
    """`lots` lots, one in twenty-five an animal."""
    pick, made = random.Random(seed), BigHistory()
    first = house.receive()
    with house.reg.store.writing() as connection:
        lot_row = dict(connection.execute(text("SELECT * FROM lot LIMIT 1")).mappings().one())
        paper = dict(connection.execute(text("SELECT * FROM carcass LIMIT 1")).mappings().one())
        assert code_of(lot_row["id"]) == first
        last, givers = lot_row["id"], []
        steps: dict[int, int] = {}
        for at in range(lots):
            last = next_lot_id(last, 2026)
            row = {**lot_row, "id": last, "place": "", "status": "whole", "unaccounted": 0}
            row["made_at"] = (_START + timedelta(minutes=at)).strftime("%Y-%m-%dT%H:%M:%SZ")
            parents = _parents(pick, givers) if at % 25 else {}
            if not parents:
                grams = pick.randint(8_000, 90_000)
                row.update(kind="carcass", name="fallow doe", grams_in=grams)
            else:
                kind = "mix" if len(parents) > 1 and pick.random() < 0.5 else pick.choice(_KINDS)
                row.update(kind=kind, name=pick.choice(_NAMES), grams_in=sum(parents.values()))
            row["grams_made"] = row["grams_left"] = row["grams_in"]
            made.lots[last] = row
            for parent, grams in parents.items():
                made.edges.append((parent, last, grams))
                made.lots[parent]["grams_left"] -= grams
            steps[last] = 1 + max((steps[parent] for parent in parents), default=-1)
            if row["kind"] not in _ENDS and row["grams_in"] > 60 and steps[last] < _DEEPEST:
                givers = [*givers[-40:], row]
        for row in made.lots.values():  # some of what is left was never weighed
            if row["kind"] not in _ENDS and row["grams_left"] and pick.random() < 0.3:
                row["unaccounted"], row["grams_left"] = row["grams_left"], 0
                row["status"] = "closed"
        _write(connection, made, paper)
    return made


def _parents(pick: random.Random, givers: list[dict[str, Any]]) -> dict[int, int]:
    able = [one for one in pick.sample(givers, k=min(len(givers), 8)) if one["grams_left"] > 20]
    chosen = able[: pick.choice((1, 1, 1, 1, 2, 3))]
    return {one["id"]: pick.randint(1, max(1, one["grams_left"] // 3)) for one in chosen}


def _write(connection: Any, made: BigHistory, paper: dict[str, Any]) -> None:
    rows = list(made.lots.values())
    _insert(connection, "lot", rows)
    _insert(connection, "carcass", [{**paper, "lot_id": lot, "tag": f"B{lot}"} for lot in made.animals])
    seq = connection.execute(text("SELECT MAX(seq) FROM happening")).scalar_one()
    _insert(connection, "lot_entry", [{"lot_id": lot, "seq": seq} for lot in made.animals])
    _insert(connection, "lineage", [{"parent": p, "child": c, "grams": g} for p, c, g in made.edges])
    dishes = [row["id"] for row in rows if row["kind"] == "dish"]
    _insert(
        connection,
        "dish",
        [
            {"lot_id": one, "name": "Ragout", "occasion_kind": "service", "occasion": "Lunch"}
            | {"on_day": made.lots[one]["made_at"][:10], "portions": 10}
            for one in dishes
        ],
    )
    words = [
        {
            "lot_id": row["id"],
            "words": plain_text(code_of(row["id"]), row["name"], row["kind"], row["species"]),
        }
        for row in rows
    ]
    _insert(connection, "lot_text", words)
    index_anew(connection)


def _insert(connection: Any, table: str, rows: list[dict[str, Any]]) -> None:
    columns = ", ".join(rows[0])
    marks = ", ".join(f":{name}" for name in rows[0])
    connection.execute(text(f"INSERT INTO {table} ({columns}) VALUES ({marks})"), rows)
