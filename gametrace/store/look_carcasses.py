"""Every question about animals, holds and the visit's period that needs SQL."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Row

from gametrace.store.rows import every, in_list, one

Rows = Sequence[Row[Any]]


def carcass_rows(connection: Connection, lots: Iterable[int]) -> Rows:
    """The whole paper of these animals, with when their delivery was written down and by whom."""
    return every(
        connection,
        "SELECT carcass.*, lot.made_by AS received_by, "
        "(SELECT happening.written_at FROM lot_entry JOIN happening ON happening.seq = lot_entry.seq "
        " WHERE lot_entry.lot_id = carcass.lot_id ORDER BY lot_entry.seq LIMIT 1) AS written_at "
        "FROM carcass JOIN lot ON lot.id = carcass.lot_id "
        f"WHERE carcass.lot_id IN ({in_list(lots)}) ORDER BY carcass.lot_id",
    )


def is_dressed(connection: Connection, lot: int) -> bool:
    found = every(connection, "SELECT dressed_at FROM carcass WHERE lot_id = :lot", lot=lot)
    return any(row.dressed_at for row in found)


def received_between(connection: Connection, first: str, last: str, limit: int) -> list[int]:
    """Animals received in a span of UTC instants (end excluded), newest first."""
    rows = every(
        connection,
        "SELECT lot_id FROM carcass WHERE received_at >= :first AND received_at < :last "
        "ORDER BY received_at DESC, lot_id DESC LIMIT :limit",
        first=first,
        last=last,
        limit=limit,
    )
    return [row.lot_id for row in rows]


def received_lines(connection: Connection, limit: int, first: int) -> Rows:
    """The newest animals from the `first` on. What is passed over is counted in the index alone."""
    page = "SELECT lot_id FROM carcass ORDER BY received_at DESC, lot_id DESC LIMIT :limit OFFSET :first"
    return every(
        connection,
        "SELECT carcass.lot_id, carcass.supplier, carcass.tag, carcass.received_at, carcass.grams_received, "
        f"carcass.decision, lot.name FROM ({page}) AS page JOIN carcass ON carcass.lot_id = page.lot_id "
        "JOIN lot ON lot.id = page.lot_id ORDER BY carcass.received_at DESC, carcass.lot_id DESC",
        limit=limit,
        first=first,
    )


def received_count(connection: Connection, first: str, last: str) -> int:
    """How many were received in a span of UTC instants (end excluded)."""
    row = one(
        connection,
        "SELECT COUNT(*) AS animals FROM carcass WHERE received_at >= :first AND received_at < :last",
        first=first,
        last=last,
    )
    return int(row.animals) if row else 0


def hanging(connection: Connection) -> list[int]:
    rows = every(
        connection,
        "SELECT id FROM lot WHERE kind IN ('carcass', 'batch') AND grams_left > 0 ORDER BY id",
    )
    return [row.id for row in rows]


def paper_blanks(connection: Connection, lots: Iterable[int]) -> Rows:
    """What tells whether a paper wants anything, a row an animal, newest first; those refused are left out.

    `readings` and `unanswered` are counts: temperatures taken, findings that wait for a reason.
    """
    ids = in_list(lots)
    return every(
        connection,
        "SELECT carcass.lot_id, carcass.tag, carcass.killed_on, carcass.kill_time, carcass.kill_place, "
        "carcass.sex, carcass.count, carcass.pence_per_kg, lot.place, "
        "COALESCE(taken.n, 0) AS readings, COALESCE(asked.n, 0) AS unanswered "
        "FROM carcass JOIN lot ON lot.id = carcass.lot_id "
        f"LEFT JOIN (SELECT lot_id, COUNT(*) AS n FROM reading WHERE lot_id IN ({ids}) GROUP BY lot_id) "
        "AS taken ON taken.lot_id = carcass.lot_id "
        f"LEFT JOIN (SELECT lot_id, COUNT(*) AS n FROM finding WHERE lot_id IN ({ids}) "
        "AND severity = 'ask' AND reason = '' GROUP BY lot_id) AS asked ON asked.lot_id = carcass.lot_id "
        f"WHERE carcass.lot_id IN ({ids}) AND carcass.decision <> 'reject' ORDER BY carcass.lot_id DESC",
    )


def with_tag(connection: Connection, tag: str, supplier: str = "") -> list[int]:
    rows = every(
        connection,
        "SELECT lot_id FROM carcass WHERE tag = :tag COLLATE NOCASE AND (:supplier = '' OR "
        "supplier = :supplier) ORDER BY lot_id DESC",
        tag=tag,
        supplier=supplier,
    )
    return [row.lot_id for row in rows]


def with_declaration(connection: Connection, number: str) -> list[int]:
    rows = every(
        connection,
        "SELECT lot_id FROM carcass WHERE declaration_number = :number COLLATE NOCASE ORDER BY lot_id DESC",
        number=number,
    )
    return [row.lot_id for row in rows]


def of_supplier(connection: Connection, supplier: str) -> list[int]:
    rows = every(
        connection, "SELECT lot_id FROM carcass WHERE supplier = :supplier ORDER BY lot_id", supplier=supplier
    )
    return [row.lot_id for row in rows]


def readings_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[tuple[str, int]]]:
    found: dict[int, list[tuple[str, int]]] = defaultdict(list)
    rows = every(
        connection, f"SELECT * FROM reading WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id, position"
    )
    for row in rows:
        found[row.lot_id].append((row.place, row.tenths_c))
    return found


def findings_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    found: dict[int, list[Row[Any]]] = defaultdict(list)
    rows = every(
        connection,
        f"SELECT * FROM finding WHERE lot_id IN ({in_list(lots)}) ORDER BY lot_id, rests_on, position",
    )
    for row in rows:
        found[row.lot_id].append(row)
    return found


def holds_of(connection: Connection, lots: Iterable[int]) -> dict[int, list[Row[Any]]]:
    found: dict[int, list[Row[Any]]] = defaultdict(list)
    for row in every(connection, f"SELECT * FROM hold WHERE lot_id IN ({in_list(lots)}) ORDER BY id"):
        found[row.lot_id].append(row)
    return found


def not_lifted(connection: Connection, holds: Iterable[int]) -> set[int]:
    """Which of these holds stand still."""
    rows = every(connection, f"SELECT id FROM hold WHERE released_at IS NULL AND id IN ({in_list(holds)})")
    return {row.id for row in rows}


def open_holds(connection: Connection) -> Rows:
    """Everything on hold, boar that wait for the laboratory included."""
    return every(
        connection,
        "SELECT * FROM hold WHERE released_at IS NULL AND sort IN ('hold', 'result') ORDER BY id",
    )


def holds_between(connection: Connection, first: str, last: str) -> Rows:
    """Holds, rejections and specimens that stood at any time in the span."""
    return every(
        connection,
        "SELECT * FROM hold WHERE placed_at < :last AND (released_at IS NULL OR released_at >= :first) "
        "ORDER BY id",
        first=first,
        last=last,
    )


def hold_row(connection: Connection, hold: int) -> Row[Any] | None:
    rows = every(connection, "SELECT * FROM hold WHERE id = :hold", hold=hold)
    return rows[0] if rows else None


def amendments_between(connection: Connection, first: str, last: str) -> Rows:
    """Corrections: a given value changed. Blanks filled in later are not corrections and are left out."""
    return every(
        connection,
        "SELECT amendment.*, happening.written_at, happening.person FROM amendment "
        "JOIN happening ON happening.seq = amendment.seq WHERE happening.written_at >= :first AND "
        "happening.written_at < :last AND amendment.old <> '' ORDER BY amendment.seq, amendment.position",
        first=first,
        last=last,
    )


def late_between(connection: Connection, first: str, last: str, seconds: int) -> list[int]:
    """Entries written more than `seconds` after what they tell of, in order."""
    rows = every(
        connection,
        "SELECT seq FROM happening WHERE written_at >= :first AND written_at < :last AND "
        "late_seconds > :late ORDER BY seq",
        first=first,
        last=last,
        late=seconds,
    )
    return [row.seq for row in rows]


def entries_of(connection: Connection, lot: int) -> list[int]:
    rows = every(connection, "SELECT seq FROM lot_entry WHERE lot_id = :lot ORDER BY seq", lot=lot)
    return [row.seq for row in rows]
