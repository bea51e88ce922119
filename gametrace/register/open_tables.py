"""The whole register as open tables: every kind of record with units in the heads, and the sealed journal.

Meant for people without this program. It words and converts; files are written by the exchange.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.register import keeping
from gametrace.register.clock import instant_text
from gametrace.register.opening import Register, look_at_register
from gametrace.store import journal, open_tables
from gametrace.store.open_tables import Column

_UNITS = (
    # (in the name, unit, what the head needs besides the name)
    ("grams", "g", ""),
    ("unaccounted", "g", "_grams"),
    ("pence", "pence", ""),
    ("tenths_c", "tenths of a degree Celsius", ""),
    ("millionths", "millionths of a degree", ""),
    ("thousandths", "thousandths", ""),
    ("seconds", "s", ""),
    ("minutes", "min", ""),
)
_DAYS = ("_on", "_until", "_day", "use_by")
SEAL_TAIL = 75  # bytes: ,"seal":"<64 hexadecimal digits>"}


@dataclass(frozen=True, slots=True)
class OpenColumn:
    head: str
    kind: str  # text | whole number
    unit: str
    about: str
    shown: Callable[[Any], Any]


@dataclass(frozen=True, slots=True)
class OpenTable:
    name: str
    about: str
    columns: tuple[OpenColumn, ...]
    rows: Callable[[], Iterator[Sequence[Any]]]


@contextmanager
def still_copy(register: Register, target: Path) -> Iterator[Register]:
    """Put a whole, checked copy at `target` and give it open to look at: all that is read is one moment."""
    with TemporaryDirectory(prefix="gametrace-") as folder:
        checked = keeping.back_up(register, Path(folder) / "copy.register")
        with look_at_register(checked, clock=register.clock, with_students=True) as still:
            still.store.copy_to(target)
            yield still


def tables_of(register: Register) -> tuple[OpenTable, ...]:
    """Every reading table, then the name cards of suppliers and others outside the house."""
    made = [_table(register, shape) for shape in open_tables.shapes()]
    return (*made, _cards(register))


def journal_lines(register: Register) -> Iterator[bytes]:
    """One line an entry, in order: the sealed text itself, with its seal put in before the last brace.

    So each line is JSON, and the sealed bytes are the line without its last SEAL_TAIL bytes, and a brace.
    """
    with register.store.reading() as connection:
        for _seq, spelled, seal, _key in journal.lines(connection):
            yield spelled[:-1] + b',"seal":"' + seal + b'"}\n'


def _table(register: Register, shape: open_tables.Shape) -> OpenTable:
    columns = tuple(_column(shape.name, one) for one in shape.columns)

    def rows() -> Iterator[Sequence[Any]]:
        with register.store.reading() as connection:
            for row in open_tables.rows_of(connection, shape):
                yield [
                    None if value is None else column.shown(value)
                    for column, value in zip(columns, row, strict=True)
                ]

    return OpenTable(shape.name, shape.about, columns, rows)


def _column(table: str, one: Column) -> OpenColumn:
    kind = "whole number" if one.is_whole else "text"
    if one.to == "lot.id" or (table, one.name) == ("lot", "id"):
        head = one.name.removesuffix("_id").removesuffix("id")
        return OpenColumn(f"{head}_code".lstrip("_"), "text", "", "the number of a lot in the house", code_of)
    if one.name == "at" or one.name.endswith("_at"):
        if one.is_whole:
            return OpenColumn(f"{one.name}_utc", "text", "instant, ISO 8601, UTC", one.said, _from_seconds)
        if one.name != "at":
            return OpenColumn(f"{one.name}_utc", "text", "instant, ISO 8601, UTC", one.said, _as_it_is)
    if not one.is_whole and one.name.endswith(_DAYS):
        return OpenColumn(one.name, kind, "day, ISO 8601", one.said, _as_it_is)
    unit, more = next(((unit, more) for part, unit, more in _UNITS if part in one.name), ("", ""))
    return OpenColumn(one.name + more, kind, unit if one.is_whole else "", one.said, _as_it_is)


def _as_it_is(value: Any) -> Any:
    return value


def _from_seconds(value: int) -> str:
    return instant_text(datetime.fromtimestamp(value, UTC))


_CARD = ("name", "address", "phone", "trained_hunter")


def _cards(register: Register) -> OpenTable:
    def rows() -> Iterator[Sequence[Any]]:
        with register.store.reading() as connection:
            found = open_tables.cards_to_show(connection)
        for code, card in found:
            kept = json.loads(card)
            yield [code, *(kept.get(name, "") for name in _CARD)]

    columns = tuple(OpenColumn(head, "text", "", "", _as_it_is) for head in ("code", *_CARD))
    about = (
        "Names and addresses of suppliers and of others outside the house. They lie beside the sealed "
        "entries, which hold a digest of each, and those of people of the house are not in this list."
    )
    return OpenTable("names", about, columns, rows)
