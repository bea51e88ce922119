"""One box for anything: a lot code, a supplier's tag, a declaration, a dish, a supplier, or words."""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.codes import code_of, looks_like_code, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text
from gametrace.register.opening import Register
from gametrace.register.records import Hit
from gametrace.store import look_carcasses, look_lots


@dataclass(frozen=True, slots=True)
class Match:
    """What a text stands for: the lots to trace from, and its own name."""

    code: str
    kind: str
    words: str
    lots: tuple[int, ...]


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
            "Try the lot code, the supplier's tag, a dish or the supplier's name.",
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
    """Candidates for what was typed so far, exact matches first. Two letters at least."""
    wanted = text.strip()[:200]
    if len(wanted) < 2:
        return ()
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = {match.code: match for match in _matches(read, wanted, limit)}
        for match in _loose(read, wanted, limit):
            found.setdefault(match.code, match)
        return tuple(Hit(m.code, m.kind, m.words) for m in list(found.values())[:limit])


def _matches(read: Assembler, text: str, limit: int) -> list[Match]:
    """Everything whose own name the text is: code first, then tag, declaration, supplier, dish."""
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
    exact = [
        lot
        for lot in look_lots.find_dishes(connection, text, limit)
        if look_lots.dish_details(connection, [lot])[lot].name.casefold() == text.casefold()
    ]
    return _lots(read, exact)


def _loose(read: Assembler, text: str, limit: int) -> list[Match]:
    connection = read.connection
    suppliers = [
        Match(s.code, "supplier", s.name, ())
        for s in read.suppliers.values()
        if text.casefold() in s.name.casefold()
    ]
    lots = look_lots.find_dishes(connection, text, limit) or look_lots.find_lots(connection, text, limit)
    return [*suppliers, *_lots(read, lots)]


def _lots(read: Assembler, lots: list[int]) -> list[Match]:
    papers = {one.code: one for one in read.carcasses(lots)}
    shown = read.lots_by_id(lots)
    dishes = look_lots.dish_details(read.connection, lots)
    result = []
    for lot in lots:
        code = code_of(lot)
        words = shown[lot].name
        if paper := papers.get(code):
            words += f", tag {paper.tag}" if paper.tag else ""
            words += f", killed {day_text(paper.killed_on)}" if paper.killed_on else ""
        elif dish := dishes.get(lot):
            words += f", {dish.occasion}"
        result.append(Match(code, shown[lot].kind, words, (lot,)))
    return result
