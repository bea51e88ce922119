"""The label stocks the house has measured for itself, kept so that every machine knows them.

Which printer a machine has, and how far off it feeds, is that machine's and not kept here.
"""

from __future__ import annotations

from datetime import datetime

from gametrace.domain.errors import Refusal
from gametrace.domain.label_stock import LabelStock, check_stock, stock_from, stock_text
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_door

PREFIX = "label_stock."


def keep_label_stock(
    register: Register,
    *,
    by: str,
    stock: LabelStock,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Keep a stock under its name, or its new sizes under the same name."""
    name = _name(stock.name)
    value = stock_text(check_stock(stock))
    return _write(register, by, name, value, "measured on the labels", happened_at, key)


def drop_label_stock(
    register: Register, *, by: str, name: str, happened_at: datetime | None = None, key: str | None = None
) -> Changes:
    """Take one of the house's own stocks off the list."""
    return _write(register, by, _name(name), "", "no longer used", happened_at, key)


def label_stocks(register: Register) -> tuple[LabelStock, ...]:
    """The house's own stocks by name."""
    with register.store.reading() as connection:
        kept = look_door.policies(connection)
    return tuple(
        stock_from(name.removeprefix(PREFIX), value)
        for name, value in sorted(kept.items())
        if name.startswith(PREFIX) and value
    )


def _name(name: str) -> str:
    words = clean(name, "name", most=40, needed="The stock needs a name to be found by.")
    return PREFIX + words


def _write(
    register: Register,
    by: str,
    name: str,
    value: str,
    reason: str,
    happened_at: datetime | None,
    key: str | None,
) -> Changes:
    def decide(work: Work) -> Plan:
        was = look_door.policies(work.connection).get(name, "")
        if was == value:
            what = "is kept so already" if value else "is not one of the house's own"
            raise Refusal(f"“{name.removeprefix(PREFIX)}” {what}.", "Look at the list.", "name")
        return Plan({"name": name, "value": value, "was": was, "reason": reason})

    return perform(
        register, "policy.set", decide, by=by, happened_at=happened_at, key=key,
    )  # fmt: skip
