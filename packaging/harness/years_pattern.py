"""A story told once through the public acts, taken apart so that it can be told again under other numbers.

What the acts wrote, entries and rows of every reading table, is kept as patterns: where a lot, an entry, a
hold, a day, an instant, a hook or a tag stood there is a slot. Filling the slots costs microseconds, an act
milliseconds; that what is filled is what the acts would have written is proved by playing the journal.
"""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from operator import itemgetter
from typing import Any

import years_story as story

from gametrace.domain.canonical import canonical
from gametrace.domain.codes import code_of, lot_id_of
from gametrace.store.tables import READING_TABLES, metadata

_INTEGER_SLOT = 9_000_000_000_000  # no weight, price or number is as large
_SPELLED = re.compile(r"⟦(\d+)⟧|(?<=[:,\[])9(\d{12})(?=[,\]}])")  # never a run of figures in a digest
_MOVING = re.compile(
    r"(?P<instant>\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ)|(?P<day>\d{4}-\d\d-\d\d)|(?P<code>\d\d-\d{5,7}-[0-9A-Z])"
    r"|(?P<hook>C1\.R1\.\d+)|(?P<tag>LRX\d{3})"
)
_FORMAT = "%Y-%m-%dT%H:%M:%SZ"
DERIVED = ("lot_text",)  # worked out from other tables: filled at the end as acts fill it
Getter = Callable[[Sequence[Any]], Any]


class Slots:
    """Every value of a pattern, constant or not, has one place in one list."""

    def __init__(self) -> None:
        self._at: dict[Hashable, int] = {}
        self.values: list[Any] = []

    def constant(self, value: Any) -> int:
        return self._of(("constant", type(value), value), value)

    def slot(self, sort: str, which: Any = 0) -> int:
        return self._of((sort, which), None)

    def _of(self, key: Hashable, value: Any) -> int:
        if key not in self._at:
            self._at[key] = len(self.values)
            self.values.append(value)
        return self._at[key]

    def moving(self) -> Iterator[tuple[str, Any, int]]:
        for key, at in self._at.items():
            if key[0] != "constant":  # type: ignore[index]
                yield (*key, at)  # type: ignore[misc]


def _getter(places: Sequence[int]) -> Getter:
    """The values at these places, as a tuple even where there is one."""
    if len(places) == 1:
        return itemgetter(slice(places[0], places[0] + 1))
    return itemgetter(*places) if places else tuple


@dataclass
class Spelling:
    """A text with slots in it."""

    text: str
    values: Getter

    def fill(self, values: Sequence[Any]) -> str:
        return self.text % tuple(self.values(values))


@dataclass
class Part:
    """What was done in one go: when it starts, its entries, how much is numbered anew."""

    starts: datetime
    entries: list[Spelling]
    lots: slice
    holds: slice


class Pattern:
    """One story, ready to be told again."""

    def __init__(self, day: date) -> None:
        self.day = day
        self.slots = Slots()
        self.parts: list[Part] = []
        self.rows: dict[str, list[Getter]] = {}
        self.composed: list[tuple[int, Spelling]] = []  # texts of rows that are more than one slot
        self._lots: dict[int, int] = {}
        self._holds: dict[int, int] = {}
        self._seqs: dict[int, int] = {}

    # -- reading what the acts wrote

    def read(self, connection: sqlite3.Connection, ends: Sequence[tuple[int, datetime]]) -> None:
        """`ends` is after how many entries the story began, and of each part the last entry and its start."""
        first = ends[0][0]
        seqs = [seq for (seq,) in connection.execute("SELECT seq FROM entry WHERE seq > ?", (first,))]
        self._seqs = {seq: at for at, seq in enumerate(seqs)}
        found = connection.execute(
            "SELECT DISTINCT lot_id FROM lot_entry WHERE seq > ? ORDER BY lot_id", (first,)
        )
        self._lots = {lot: at for at, (lot,) in enumerate(found)}
        last_lot = 0
        found = connection.execute("SELECT id, lot_id FROM hold ORDER BY id")
        self._holds = {hold: at for at, hold in enumerate(h for h, lot in found if lot in self._lots)}
        last_hold = 0
        for (before, _), (end, starts) in pairwise(ends):
            written = connection.execute(
                "SELECT text FROM entry WHERE seq > ? AND seq <= ? ORDER BY seq", (before, end)
            ).fetchall()
            (moment,) = connection.execute(
                "SELECT COUNT(*) FROM lot WHERE id IN (SELECT lot_id FROM lot_entry WHERE seq > ? "
                "GROUP BY lot_id HAVING MIN(seq) <= ?)",
                (first, end),
            ).fetchone()
            (holds,) = connection.execute(
                "SELECT COUNT(*) FROM hold WHERE lot_id IN (SELECT lot_id FROM lot_entry WHERE seq > ?) AND "
                "placed_at < (SELECT COALESCE(MIN(happened_at), '~') FROM happening WHERE seq > ?)",
                (first, end),
            ).fetchone()
            entries = [self._entry(json.loads(text)) for (text,) in written]
            self.parts.append(Part(starts, entries, slice(last_lot, moment), slice(last_hold, holds)))
            last_lot, last_hold = moment, holds
        for table in READING_TABLES:
            if table not in DERIVED:
                self._table(connection, table)

    def _entry(self, entry: dict[str, Any]) -> Spelling:
        entry["key"], entry["previous"] = self._token("key"), self._token("previous")
        entry["seq"] = _INTEGER_SLOT + self.slots.slot("seq", self._seqs[entry["seq"]])
        return self._spelling(canonical(self._marked(entry)))

    def _marked(self, value: Any, name: str = "") -> Any:
        if isinstance(value, dict):
            return {key: self._marked(item, key) for key, item in value.items()}
        if isinstance(value, list):
            return [self._marked(item, name) for item in value]
        if isinstance(value, str):
            return self._marked_text(value)
        if isinstance(value, int) and not isinstance(value, bool):
            if value in self._lots:
                return _INTEGER_SLOT + self.slots.slot("lot", self._lots[value])
            if name == "hold":
                return _INTEGER_SLOT + self.slots.slot("hold", self._holds[value])
        return value

    def _token(self, sort: str, which: Any = 0) -> str:
        return f"⟦{self.slots.slot(sort, which)}⟧"

    def _marked_text(self, text: str) -> str:
        return _MOVING.sub(self._mark, text)

    def _mark(self, found: re.Match[str]) -> str:
        if found.lastgroup != "code":
            return self._token(str(found.lastgroup), found[0])
        lot = self._lots.get(lot_id_of(found[0]))
        return found[0] if lot is None else self._token("code", lot)

    def _spelling(self, marked: str) -> Spelling:
        places: list[int] = []

        def noted(found: re.Match[str]) -> str:
            places.append(int(found[1] or found[2]))
            return "%s"

        # Nothing but a slot may be a per cent sign with a meaning.
        text = _SPELLED.sub(noted, marked.replace("%", "%%"))
        return Spelling(text, _getter(places))

    def _table(self, connection: sqlite3.Connection, table: str) -> None:
        columns = metadata.tables[table].columns
        sorts = [_sort_of(column) for column in columns]
        if "lot" not in sorts and "seq" not in sorts:
            return
        keys = ", ".join(f'"{column.name}"' for column in metadata.tables[table].primary_key)
        names = ", ".join(f'"{column.name}"' for column in columns)
        getters = []
        for row in connection.execute(f"SELECT {names} FROM {table} ORDER BY {keys}"):
            if any(
                (sort == "lot" and value in self._lots) or (sort == "seq" and value in self._seqs)
                for sort, value in zip(sorts, row, strict=True)
            ):
                places = [self._place(sort, value) for sort, value in zip(sorts, row, strict=True)]
                getters.append(_getter(places))
        if getters:
            self.rows[table] = getters

    def _place(self, sort: str, value: Any) -> int:
        known = {"lot": self._lots, "seq": self._seqs, "hold": self._holds}.get(sort)
        if known is not None and value is not None:
            return self.slots.slot(sort, known[value])
        if isinstance(value, str) and (marked := self._marked_text(value)) != value:
            if alone := re.fullmatch(r"⟦(\d+)⟧", marked):
                return int(alone[1])
            at = self.slots.slot("composed", marked)
            if all(at != known_at for known_at, _ in self.composed):
                self.composed.append((at, self._spelling(marked)))
            return at
        return self.slots.constant(value)


def _sort_of(column: Any) -> str:
    pointed = {key.target_fullname for key in column.foreign_keys}
    named = f"{column.table.name}.{column.name}"
    if "lot.id" in pointed or named == "lot.id":
        return "lot"
    if "hold.id" in pointed or named == "hold.id":
        return "hold"
    return "seq" if column.name == "seq" else "plain"


class Telling:
    """One telling of a pattern: what its slots hold this time."""

    def __init__(self, pattern: Pattern, number: int, day: date, later: timedelta) -> None:
        """`later` is when in the day this telling has its turn, after the pattern's own time of day."""
        self.pattern, self.number, self.day = pattern, number, day
        self.values = list(pattern.slots.values)
        self._days = day - pattern.day
        self._by_sort: dict[str, dict[Any, int]] = {}
        for sort, which, at in pattern.slots.moving():
            if sort == "day":
                self.values[at] = (date.fromisoformat(which) + self._days).isoformat()
            elif sort == "instant":
                self.values[at] = (datetime.strptime(which, _FORMAT) + self._days + later).strftime(_FORMAT)
            elif sort == "hook":
                rail, hook = divmod((int(which[6:]) - 1 + 10 * number) % (2 * story.HOOKS), story.HOOKS)
                self.values[at] = f"C1.R{rail + 1}.{hook + 1:02}"
            elif sort == "tag":
                self.values[at] = f"LR{number}-{which[3:]}"
            else:
                self._by_sort.setdefault(sort, {})[which] = at
        self._key = pattern.slots.slot("key")
        self._previous = pattern.slots.slot("previous")
        self._done = 0

    def give(self, sort: str, which: int, value: int) -> None:
        if (at := self._by_sort.get(sort, {}).get(which)) is not None:
            self.values[at] = value

    def give_lot(self, which: int, lot: int) -> None:
        self.give("lot", which, lot)
        if (at := self._by_sort.get("code", {}).get(which)) is not None:
            self.values[at] = code_of(lot)

    def entries(self, part: Part, seq: int, seal: str, sealed: Callable[[str], str]) -> Iterator[tuple]:
        """Rows of `entry` for a part, in order, each sealing the one before."""
        for spelling in part.entries:
            seq += 1
            self.give("seq", self._done, seq)
            self._done += 1
            key = f"years-{seq:08}"
            self.values[self._key], self.values[self._previous] = key, seal
            text = spelling.fill(self.values)
            seal = sealed(text)
            yield seq, key, text, seal

    def rows(self, table: str) -> Iterator[tuple]:
        values = self.values
        return (tuple(getter(values)) for getter in self.pattern.rows.get(table, ()))

    def compose(self) -> None:
        for at, spelling in self.pattern.composed:
            self.values[at] = spelling.fill(self.values)
