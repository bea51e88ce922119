"""Every table as it is declared, and its rows: what an export and its data dictionary are made of.

Read from the declarations themselves, so that a new table is exported and described without a word here.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Integer

from gametrace.store import tables
from gametrace.store.tables.base import Row

_COMMENT = re.compile(r"^\s+(\w+): .*?#\s*(.+)$", re.MULTILINE)
_BY_PORTIONS = {"yield_per": 1_000}


@dataclass(frozen=True, slots=True)
class Column:
    name: str
    is_whole: bool  # whole number; else text
    is_key: bool
    may_be_null: bool
    to: str  # 'lot.id' where it points there
    said: str  # what stands beside it in the declaration


@dataclass(frozen=True, slots=True)
class Shape:
    """One table."""

    name: str
    about: str
    columns: tuple[Column, ...]


def shapes() -> tuple[Shape, ...]:
    """The reading tables, in the order their names sort."""
    found: list[Any] = sorted(_classes(Row), key=_name)
    return tuple(_shape(one) for one in found if _name(one) in tables.READING_TABLES)


def rows_of(connection: Connection, shape: Shape) -> Iterator[Sequence[Any]]:
    """Every row in the order of its key."""
    columns = ", ".join(f'"{one.name}"' for one in shape.columns)
    keys = ", ".join(f'"{one.name}"' for one in shape.columns if one.is_key)
    yield from connection.execution_options(**_BY_PORTIONS).exec_driver_sql(
        f'SELECT {columns} FROM "{shape.name}" ORDER BY {keys}'
    )


def cards_to_show(connection: Connection) -> list[tuple[str, str]]:
    """(code, JSON) of the name cards of suppliers, hunters and businesses; of no person of the house."""
    found = connection.exec_driver_sql(
        "SELECT code, card FROM name_card WHERE code NOT IN (SELECT code FROM person) ORDER BY code"
    )
    return [(row.code, row.card) for row in found]


def _classes(of: type) -> Iterator[Any]:
    below: list[Any] = of.__subclasses__()
    for one in below:
        if hasattr(one, "__tablename__"):
            yield one
        yield from _classes(one)


def _name(one: Any) -> str:
    return str(one.__tablename__)


def _shape(one: Any) -> Shape:
    said = dict(_COMMENT.findall(_source(one)))
    about = " ".join((one.__dict__.get("__doc__") or "").split())
    return Shape(
        _name(one),
        about or f"{_name(one).replace('_', ' ').capitalize()}.",
        tuple(
            Column(
                name=column.name,
                is_whole=isinstance(column.type, Integer),
                is_key=column.primary_key,
                may_be_null=bool(column.nullable),
                to=next((key.target_fullname for key in column.foreign_keys), ""),
                said=said.get(column.name, ""),
            )
            for column in one.__table__.columns
        ),
    )


def _source(one: Any) -> str:
    try:
        return inspect.getsource(one)
    except OSError:  # installed without its text
        return ""
