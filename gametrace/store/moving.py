"""Carries a register from one place to another, a file or a server, with its seal unchanged.

Only what is kept for ever is carried: entries, name cards, bytes. The tables are played anew there.
"""

from __future__ import annotations

from sqlalchemy import insert, select

from gametrace.domain.errors import Trouble
from gametrace.store.engine import Store
from gametrace.store.health import Progress, rebuild
from gametrace.store.journal import broken_at, head_of

_AT_ONCE = 1_000


def _silent(_done: int, _of: int) -> None:
    return


def carry(source: Store, target: Store, progress: Progress = _silent) -> tuple[int, str]:
    """Copy the register into `target`, which must be new. Returns its count and seal.

    Raises Trouble, and leaves `target` empty, where it holds entries or the journal does not hold.
    """
    from gametrace.store.tables import KEPT_TABLES, metadata

    with source.reading() as old, target.writing() as new:
        if broken := broken_at(old):
            raise Trouble(
                f"The journal does not hold at entry {broken[0]}: {broken[1]}.", "Nothing was carried over."
            )
        if head_of(new)[0]:
            raise Trouble(
                f"{target.place} already holds a register.", "Name a new place; nothing is ever written over."
            )
        for name in KEPT_TABLES:
            table = metadata.tables[name]
            rows = old.execute(
                select(table).order_by(*table.primary_key), execution_options={"yield_per": _AT_ONCE}
            )
            for portion in rows.mappings().partitions():
                new.execute(insert(table), [dict(row) for row in portion])
        was, now = head_of(old), head_of(new)
        if was != now:
            raise Trouble("The copy is not the same, so it was not kept.", "Try again; tell us if it stays.")
    rebuild(target, progress)
    return now
