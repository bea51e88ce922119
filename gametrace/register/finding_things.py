"""One box for anything: a lot code, a tag, a declaration, a supplier, a dish, a service, a day, words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from gametrace.domain.codes import code_of, looks_like_code, lot_id_of, near_misses
from gametrace.domain.errors import Refusal
from gametrace.domain.plain_words import plain_words
from gametrace.domain.spoken_days import read_day
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, instant_text, iso_day_text, wall_instant
from gametrace.register.opening import Register
from gametrace.register.records import Hit
from gametrace.store import look_carcasses, look_lots, look_sessions, look_sets
from gametrace.store.searching import lots_with_words

_ON_DAY = re.compile(r"(killed|received|served|.{1,120}) (\d{4}-\d{2}-\d{2})")
_CUTTER = re.compile(r"cutter ")
_NEAREST = 6  # near misses offered


@dataclass(frozen=True, slots=True)
class Match:
    """What a text stands for: the lots to trace from, and its own name."""

    code: str
    kind: str
    words: str
    lots: tuple[int, ...]


def named(register: Register, text: str) -> str:
    """The code of the one thing a text names. Refuses as a trace of it would, without tracing it."""
    with register.store.reading() as connection:
        return resolve(Assembler(connection, register.today()), text).code


def resolve(read: Assembler, text: str) -> Match:
    """The one thing a text names. Refuses nothing and several, with what to do."""
    wanted = text.strip()[:200]
    if not wanted:
        raise Refusal("Scan a label, or type a code, a tag, a dish or a supplier.", "", "text")
    matches = _matches(read, wanted, limit=6)
    if not matches:
        if looks_like_code(wanted):
            lot_id_of(wanted)  # a wrong check character is said first
            raise Refusal(f"There is no {wanted} in this register.", "Check the label.", "text")
        raise Refusal(
            f"Nothing here is called “{wanted}”.",
            "Try the lot code, the supplier's tag, a dish, a service, a day or the supplier's name.",
            "text",
        )
    if len(matches) > 1:
        raise Refusal(
            f"“{wanted}” is the name of several things: "
            + "; ".join(f"{match.code} {match.words}" for match in matches[:5])
            + ".",
            "Give the code of the one you mean.",
            "text",
        )
    return matches[0]


def find(register: Register, text: str, limit: int = 20) -> tuple[Hit, ...]:
    """Candidates for what was typed so far, exact matches first. Two letters at least.

    A code whose check character does not fit is answered with the codes one slip away that exist.
    """
    wanted = text.strip()[:200]
    if len(wanted) < 2:
        return ()
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found: dict[tuple[str, str], Match] = {}
        for match in _offered(read, wanted, limit):
            found.setdefault((match.code, match.kind), match)
            if len(found) >= limit:
                break
        return tuple(Hit(m.code, m.kind, m.words) for m in found.values())


def _offered(read: Assembler, text: str, limit: int) -> Iterator[Match]:
    exact = _matches(read, text, limit)
    yield from exact
    if not exact:
        yield from _near(read, text)
    folded = text.casefold()
    for one in read.suppliers.values():
        if folded in one.name.casefold():
            yield Match(one.code, "supplier", one.name, ())
    for row in look_sets.services_called(read.connection, text, limit):
        dishes = "1 dish" if row.dishes == 1 else f"{row.dishes} dishes"
        words = f"{row.occasion_kind}, {iso_day_text(row.on_day)}, {dishes}"
        yield Match(f"{row.occasion} {row.on_day}", row.occasion_kind, words, ())
    yield from _lots(read, lots_with_words(read.connection, plain_words(text), limit))


def _near(read: Assembler, text: str) -> list[Match]:
    """Codes that exist and are one slip away from what was typed."""
    ids = near_misses(text)
    here = {row.id for row in look_lots.lot_rows(read.connection, ids)}
    return _lots(read, [lot for lot in ids if lot in here][:_NEAREST])


def _matches(read: Assembler, text: str, limit: int) -> list[Match]:
    """Everything whose own name the text is: code first, then tag, declaration, supplier, dish, day."""
    connection = read.connection
    if looks_like_code(text):
        try:
            lots = [lot_id_of(text)]
        except Refusal:
            lots = []
        if lots and look_lots.lot_row(connection, lots[0]):
            return _lots(read, lots)
    suppliers = [
        Match(one.code, "supplier", one.name, tuple(look_carcasses.of_supplier(connection, one.code)))
        for one in read.suppliers.values()
        if text.casefold() in (one.code.casefold(), one.name.casefold())
    ]
    if suppliers:
        return suppliers
    lots = look_carcasses.with_tag(connection, text) or look_carcasses.with_declaration(connection, text)
    if lots:
        return _lots(read, lots[:limit])
    if day := read_day(text, read.today):
        return _day_matches(read, day)
    if (match := _ON_DAY.fullmatch(text)) and (named := _on_day(read, match[1], match[2])):
        return named
    if cutters := _cutters(read, _CUTTER.sub("", text, count=1)):
        return cutters
    return _lots(read, look_lots.dishes_called(connection, text, limit))


def _cutters(read: Assembler, text: str) -> list[Match]:
    """A student by the roster code; nobody's name is looked for."""
    found = [
        row.code for row in look_sessions.student_rows(read.connection) if row.code.lower() == text.lower()
    ]
    return [
        Match(f"cutter {code}", "cutter", f"what {code} cut", tuple(cut))
        for code in found
        if (cut := look_sets.cut_by(read.connection, "cutter", code))
    ]


def _day_matches(read: Assembler, day: date) -> list[Match]:
    """What a bare day may mean, where anything happened on it."""
    iso = day.isoformat()
    return [match for what in ("killed", "received", "served") for match in _on_day(read, what, iso)]


def _on_day(read: Assembler, what: str, iso: str) -> list[Match]:
    connection = read.connection
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return []
    if what == "killed":
        lots, thing = look_sets.animals_where(connection, "killed_on", iso), "animal"
    elif what == "received":
        start, end = (instant_text(wall_instant(d, 0)) for d in (day, day + timedelta(days=1)))
        lots, thing = look_sets.animals_received(connection, start, end), "animal"
    elif what == "served":
        lots, thing = look_sets.dishes_on(connection, iso, iso), "dish"
    else:
        lots, thing = look_sets.dishes_at(connection, what, iso), "dish"
    if not lots:
        return []
    plural = {"animal": "animals", "dish": "dishes"}[thing]
    counted = f"{len(lots)} {thing if len(lots) == 1 else plural}"
    return [Match(f"{what} {iso}", "day", f"{counted}, {what}, {day_text(day)}", tuple(lots))]


def _lots(read: Assembler, lots: list[int]) -> list[Match]:
    """Just the words a person tells them apart by: a whole paper for each would cost the speed of typing."""
    rows = {row.id: row for row in look_lots.lot_rows(read.connection, lots)}
    papers = {row.lot_id: row for row in look_carcasses.carcass_rows(read.connection, lots)}
    dishes = look_lots.dish_details(read.connection, lots)
    result = []
    for lot in lots:
        row = rows[lot]
        words = row.name
        if paper := papers.get(lot):
            words += f", tag {paper.tag}" if paper.tag else ""
            words += f", killed {iso_day_text(paper.killed_on)}" if paper.killed_on else ""
        elif dish := dishes.get(lot):
            words += f", {dish.occasion}"
        elif where := read.where(row):
            words += f", {where}"
        result.append(Match(code_of(lot), row.kind, words, (lot,)))
    return result
