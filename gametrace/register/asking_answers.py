"""The answer to each question about many lots, by its sort. Reads only; asking_round combines them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta

from gametrace.domain.codes import lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lot_sets import mixed_with, stays_of, stood_in
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, instant_text, wall_instant
from gametrace.store import lineage, look_lots, look_sets


def _codes(read: Assembler, given: Sequence[str]) -> list[int]:
    lots = [lot_id_of(code) for code in given]
    if not lots:
        raise Refusal("Which lots?", "Scan or type their codes.", "given")
    known = {row.id for row in look_lots.lot_rows(read.connection, lots)}
    for lot, code in zip(lots, given, strict=True):
        if lot not in known:
            raise Refusal(f"There is no {code} in this register.", "Check the label.", "given")
    return lots


def _lots(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    return frozenset(_codes(read, given))


def _with_all_made(read: Assembler, lots: Sequence[int]) -> frozenset[int]:
    """These and everything any gram of them went into."""
    return frozenset({*lots, *(edge.child for edge in lineage.edges_below(read.connection, lots))})


def _touched(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    return _with_all_made(read, _codes(read, given))


def _behind(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    lots = _codes(read, given)
    return frozenset({*lots, *(edge.parent for edge in lineage.edges_above(read.connection, lots))})


def _mixed(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    lots = _codes(read, given)
    below = lineage.edges_below(read.connection, lots)
    above = lineage.edges_above(read.connection, [*lots, *(edge.child for edge in below)])
    return mixed_with(lots, below, above)


def _store(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    """(store, first moment, last moment): everything that stood in it at any time between."""
    store, first, last = _three(given)
    places = {place.code for place in read.places() if store in (place.code, place.store)}
    if not places:
        raise Refusal(f"There is no store {store}.", "Choose one of the list.", "store")
    start, end = instant_text(instant(first)), instant_text(instant(last))
    if start >= end:
        raise Refusal("The last moment is not after the first.", "Give the times again.", "last")
    lived = look_sets.lived_between(read.connection, start, end)
    moves = look_sets.moves_of(read.connection, [row.id for row in lived])
    return frozenset(
        row.id
        for row in lived
        if stood_in(
            stays_of(row.made_at, row.ended_at, row.place, moves.get(row.id, ())),
            places.__contains__,
            start,
            end,
        )
    )


def _three(given: Sequence[str]) -> tuple[str, str, str]:
    if len(given) != 3:
        raise Refusal(
            "A store and two moments are needed.", "Choose the store, from when, till when.", "store"
        )
    return given[0], given[1], given[2]


def _one(given: Sequence[str], what: str) -> str:
    if not given or not given[0].strip():
        raise Refusal(f"Which {what}?", "Type it.", "given")
    return given[0].strip()


def _supplier(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    wanted = _one(given, "supplier").casefold()
    codes = [s.code for s in read.suppliers.values() if wanted in (s.code.casefold(), s.name.casefold())]
    if not codes:
        raise Refusal(f"No supplier is called {given[0]}.", "Choose one of the list.", "given")
    animals = [lot for code in codes for lot in look_sets.animals_where(read.connection, "supplier", code)]
    return _with_all_made(read, animals)


def _hunter(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    wanted = _one(given, "trained person").casefold()
    codes = [
        code
        for code, card in read.cards.items()
        if code.startswith("H") and wanted in (code.casefold(), card.get("name", "").casefold())
    ]
    if not codes:
        raise Refusal(f"No declaration names {given[0]}.", "Give the name as the declaration does.", "given")
    return _with_all_made(read, look_sets.animals_of_hunter(read.connection, codes))


def _place(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    place = _one(given, "place of killing")
    return _with_all_made(read, look_sets.animals_like(read.connection, "kill_place", place))


def _declaration(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    number = _one(given, "declaration")
    return _with_all_made(read, look_sets.animals_like(read.connection, "declaration_number", number))


def _killed(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    day = _day(given, 0)
    return _with_all_made(read, look_sets.animals_where(read.connection, "killed_on", day.isoformat()))


def _received(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    day = _day(given, 0)
    start = instant_text(wall_instant(day, 0))
    end = instant_text(wall_instant(day + timedelta(days=1), 0))
    return _with_all_made(read, look_sets.animals_received(read.connection, start, end))


def _cooked(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    """Dishes for the days between two, both included; '' is no bound."""
    first = _day(given, 0).isoformat() if given and given[0] else ""
    last = _day(given, 1).isoformat() if len(given) > 1 and given[1] else "~"
    return frozenset(look_sets.dishes_on(read.connection, first, last))


def _service(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    if len(given) != 2:
        raise Refusal("A service and its day are needed.", "Type both.", "given")
    return frozenset(look_sets.dishes_at(read.connection, given[0], _day(given, 1).isoformat()))


def _here(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    """All meat that is in the larder now."""
    rows = look_lots.block_rows(read.connection), look_lots.stock_rows(read.connection)
    return frozenset(row.id for some in rows for row in some)


def _cut(key: str) -> Callable[[Assembler, Sequence[str]], frozenset[int]]:
    def answer(read: Assembler, given: Sequence[str]) -> frozenset[int]:
        return frozenset(look_sets.cut_by(read.connection, key, _one(given, key)))

    return answer


def _saved(read: Assembler, given: Sequence[str]) -> frozenset[int]:
    code = _one(given, "saved set")
    lots = look_sets.saved_lots(read.connection, code)
    if not lots:
        raise Refusal(f"There is no saved set {code}.", "Choose one of the list.", "given")
    return frozenset(lots)


def _day(given: Sequence[str], at: int) -> date:
    try:
        return date.fromisoformat(given[at])
    except (IndexError, ValueError) as error:
        raise Refusal("That day cannot be read.", "Give it as 12 Nov 2026.", "given") from error


ANSWERS: dict[str, Callable[[Assembler, Sequence[str]], frozenset[int]]] = {
    "lots": _lots,
    "touched": _touched,
    "behind": _behind,
    "mixed": _mixed,
    "store": _store,
    "supplier": _supplier,
    "hunter": _hunter,
    "place": _place,
    "declaration": _declaration,
    "killed": _killed,
    "received": _received,
    "cooked": _cooked,
    "service": _service,
    "here": _here,
    "session": _cut("session"),
    "cutter": _cut("cutter"),
    "station": _cut("station"),
    "saved": _saved,
}
