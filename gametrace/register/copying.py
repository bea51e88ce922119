"""Old records copied from paper: every row is an act of its own, and all of them are written or none.

Each entry says from where it was copied and carries both times: when it happened, as the paper says, and
when it was really written down. The door rules on each as on any other delivery.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from gametrace.domain.codes import lot_id_of
from gametrace.domain.deliveries import Delivery
from gametrace.domain.errors import Refusal
from gametrace.register.delivery import receive_delivery
from gametrace.register.opening import Register
from gametrace.register.work import Plan, Work, perform
from gametrace.store.one_unit import one_unit

MOST_ROWS = 5_000
_NOT_FOLLOWED = "copied from paper: what became of it is not in this register"


@dataclass(frozen=True, slots=True)
class OldRow:
    """One row as it was read: a delivery, or what is wrong with the row."""

    number: int  # as a spreadsheet counts them, the heads being row 1
    delivery: Delivery | None
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()  # what the paper left open and the copy says so


@dataclass(frozen=True, slots=True)
class Told:
    """What becomes, or would become, of a row."""

    number: int
    code: str  # '' where it was refused
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Copied:
    """The report of a copy. `is_written` is False for a trial and wherever one row was refused."""

    rows: tuple[Told, ...]
    refused: int
    is_written: bool


def copy_old_records(
    register: Register,
    *,
    by: str,
    source: str,
    rows: Sequence[OldRow],
    write: bool = False,
    is_still_here: bool = False,
) -> Copied:
    """Try every row by the rules of the door, and write all of them when `write` is set and none is refused.

    What is not here any more is closed at once: its weight stands as unaccounted, with the reason. Raises a
    Refusal for too many rows and for a person who may not write.
    """
    if not rows:
        raise Refusal("There is no row in this list.", "Choose another file.", "rows")
    if len(rows) > MOST_ROWS:
        raise Refusal(f"{len(rows):,} rows; {MOST_ROWS:,} fit at a time.", "Part the list by years.", "rows")
    told: list[Told] = []
    refused = 0
    with one_unit(register.store) as (unit, kept):
        aside = Register(unit, register.clock)
        aside.shown = register.shown  # a PIN given here counts for every row
        for row in rows:
            try:
                told.append(_copied(aside, by, source, row, is_still_here))
            except Refusal as refusal:
                if refusal.field == "by":
                    raise
                refused += 1
                told.append(Told(row.number, "", (str(refusal),)))
        if write and not refused:
            kept.append(True)
    return Copied(tuple(told), refused, write and not refused)


def _copied(register: Register, by: str, source: str, row: OldRow, is_still_here: bool) -> Told:
    if row.problems or row.delivery is None:
        raise Refusal(" ".join(row.problems) or "Nothing can be read here.", "", "rows")
    noted = f" ({'; '.join(row.notes)})" if row.notes else ""
    delivery = replace(row.delivery, place="" if not is_still_here else row.delivery.place)
    changes = receive_delivery(
        register, by=by, delivery=delivery, copied_from=f"{source}, row {row.number}{noted}"
    )
    if not is_still_here:
        _close(register, by, changes.code, delivery.grams)
    return Told(row.number, changes.code, tuple(one.sentence for one in changes.findings))


def _close(register: Register, by: str, code: str, grams: int) -> None:
    def decide(_work: Work) -> Plan:
        body = {"lot": lot_id_of(code), "unaccounted": grams, "reason": _NOT_FOLLOWED}
        return Plan(body, codes=(code,))

    perform(register, "lot.closed", decide, by=by)
