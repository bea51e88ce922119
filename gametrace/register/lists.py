"""The lists a station shows: people, rails, stock, what lies on the block, what is on hold."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, instant_text, wall_instant
from gametrace.register.lot_facts import lot_facts, refuse_for_plate
from gametrace.register.opening import Register
from gametrace.register.records import (
    Carcass,
    Hold,
    Hook,
    Larder,
    Lot,
    Person,
    Place,
    Rail,
    StoreView,
    Supplier,
)
from gametrace.store import look_carcasses, look_lots


def larder(register: Register) -> Larder:
    return register.larder


def people(register: Register) -> tuple[Person, ...]:
    """Everyone ever enrolled, leavers included."""
    with register.store.reading() as connection:
        return Assembler(connection, register.today()).people()


def suppliers(register: Register) -> tuple[Supplier, ...]:
    with register.store.reading() as connection:
        return tuple(Assembler(connection, register.today()).suppliers.values())


def places(register: Register) -> tuple[Place, ...]:
    with register.store.reading() as connection:
        return Assembler(connection, register.today()).places()


def free_places(register: Register) -> tuple[Place, ...]:
    """Shelves, and hooks with nothing on them."""
    with register.store.reading() as connection:
        taken = {row.place for row in look_lots.shelved_rows(connection)}
        return tuple(
            place
            for place in Assembler(connection, register.today()).places()
            if place.kind == "shelf" or (place.kind == "hook" and place.code not in taken)
        )


def normal_code(text: str) -> str:
    """A scanned or typed code as it is printed. Refuses one whose check character does not fit."""
    return code_of(lot_id_of(text))


def lot(register: Register, code: str) -> Lot:
    with register.store.reading() as connection:
        asked = lot_facts(connection, code, register.today())
        return Assembler(connection, register.today()).lots_by_id([asked.id])[asked.id]


def carcass(register: Register, code: str) -> Carcass:
    with register.store.reading() as connection:
        asked = lot_facts(connection, code, register.today())
        found = Assembler(connection, register.today()).carcasses([asked.id])
        if not found:
            raise Refusal(f"{asked.code} is not an animal.", "Trace it to find the animals in it.", "code")
        return found[0]


def span(first: date | None, last: date | None) -> tuple[str, str]:
    """UTC instants around days on the larder's calendar, the end excluded."""
    start = instant_text(wall_instant(first, 0)) if first else ""
    end = instant_text(wall_instant(last + timedelta(days=1), 0)) if last else "~"
    return start, end


def deliveries(
    register: Register, *, first: date | None = None, last: date | None = None, limit: int = 200
) -> tuple[Carcass, ...]:
    """Animals received in a span of days (both included), newest first."""
    with register.store.reading() as connection:
        found = look_carcasses.received_between(connection, *span(first, last), limit)
        return Assembler(connection, register.today()).carcasses(found)


@dataclass(frozen=True, slots=True)
class DeliveryLine:
    """One animal or batch as the list of all deliveries shows it."""

    code: str
    name: str
    supplier: str
    tag: str
    received_at: datetime
    grams_received: int
    decision: str


def delivery_lines(register: Register, limit: int = 200, first: int = 0) -> tuple[DeliveryLine, ...]:
    """All that was ever received, newest first, from the `first` on: ten years are read in pages."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return tuple(
            DeliveryLine(
                code_of(row.lot_id),
                row.name,
                read.suppliers[row.supplier].name,
                row.tag,
                instant(row.received_at),
                row.grams_received,
                row.decision,
            )
            for row in look_carcasses.received_lines(connection, limit, first)
        )


def delivery_count(register: Register, first: date | None = None, last: date | None = None) -> int:
    """How many were received in a span of days (both included)."""
    with register.store.reading() as connection:
        return look_carcasses.received_count(connection, *span(first, last))


def on_declaration(register: Register, supplier: str, number: str) -> tuple[Carcass, ...]:
    """The bodies already taken in from this supplier on one declaration, first to come first."""
    called = number.strip()
    if not called:
        return ()
    with register.store.reading() as connection:
        found = sorted(look_carcasses.with_declaration(connection, called))
        every = Assembler(connection, register.today()).carcasses(found)
        return tuple(one for one in every if one.supplier.code == supplier)


def in_the_house(register: Register) -> tuple[Carcass, ...]:
    """Every animal something is left of, the newest first."""
    with register.store.reading() as connection:
        here = Assembler(connection, register.today()).carcasses(look_carcasses.hanging(connection))
        return tuple(reversed(here))


def to_finish(register: Register) -> tuple[Carcass, ...]:
    """Animals still here whose paper has blanks or unanswered questions, oldest first."""
    with register.store.reading() as connection:
        here = Assembler(connection, register.today()).carcasses(look_carcasses.hanging(connection))
        return tuple(one for one in here if one.missing)


def larder_view(register: Register) -> tuple[StoreView, ...]:
    """Every store as it stands: hooks with what hangs on them, shelves with what lies there."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        rows = look_lots.shelved_rows(connection)
        by_place: dict[str, list[Lot]] = defaultdict(list)
        for item in read.lots(rows):
            by_place[item.place].append(item)
        animals = {
            one.lot.place: one
            for one in read.carcasses([row.id for row in rows if row.kind in ("carcass", "batch")])
        }
        places = read.places()
        return tuple(
            StoreView(
                code=store.code,
                name=store.name,
                sort=store.sort,
                rails=tuple(
                    Rail(
                        code=rail.code,
                        name=rail.name,
                        hooks=tuple(
                            _hook(hook.code, animals.get(hook.code), by_place.get(hook.code, ()))
                            for hook in places
                            if hook.kind == "hook" and hook.code.startswith(rail.code + ".")
                        ),
                    )
                    for rail in places
                    if rail.kind == "rail" and rail.store == store.code
                ),
                shelves=tuple(
                    (shelf, tuple(by_place.get(shelf.code, ())))
                    for shelf in places
                    if shelf.kind == "shelf" and shelf.store == store.code
                ),
            )
            for store in places
            if store.kind == "store"
        )


def _hook(place: str, animal: Carcass | None, there: Sequence[Lot]) -> Hook:
    """A hook with its animal, or else with the side or part that hangs there."""
    part = None if animal is not None or not there else there[0]
    return Hook(place, int(place.rsplit(".", 1)[1]), animal, part)


def unplaced(register: Register) -> tuple[Carcass, ...]:
    """Animals in the house whose hook or shelf was never written down."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        lots = read.lots_by_id(look_carcasses.hanging(connection))
        return tuple(read.carcasses([number for number, lot in lots.items() if not lot.place]))


def holds(register: Register, *, open_only: bool = True) -> tuple[Hold, ...]:
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        rows = (
            look_carcasses.open_holds(connection)
            if open_only
            else look_carcasses.holds_between(connection, "", "~")
        )
        return tuple(read.hold(row) for row in rows)


def block_candidates(register: Register) -> tuple[Lot, ...]:
    """What may be cut: opened lots first, then whole ones. Held and rejected ones are shown with why not."""
    with register.store.reading() as connection:
        return Assembler(connection, register.today()).lots(look_lots.block_rows(connection))


def open_blocks(register: Register) -> tuple[Lot, ...]:
    with register.store.reading() as connection:
        return Assembler(connection, register.today()).lots(look_lots.open_block_rows(connection))


def stock(register: Register, *, only_unplaced: bool = False) -> tuple[Lot, ...]:
    """Packs, parts and mixes with something left, or those that lie nowhere; the one to use first on top."""
    with register.store.reading() as connection:
        found = look_lots.stock_rows(connection, only_unplaced=only_unplaced)
        return Assembler(connection, register.today()).lots(found)


def dishes(register: Register, limit: int = 200, first: int = 0) -> tuple[Lot, ...]:
    """Dishes made, the newest first, from the `first` on: ten years of them are read in pages."""
    with register.store.reading() as connection:
        return Assembler(connection, register.today()).lots(look_lots.dish_rows(connection, limit, first))


def dish_count(register: Register) -> int:
    with register.store.reading() as connection:
        return look_lots.dish_count(connection)


def check_for_plate(register: Register, code: str, grams: int | None = None) -> Lot:
    """The lot, if it may go to a plate today; otherwise the Refusal that says why not."""
    with register.store.reading() as connection:
        facts = lot_facts(connection, code, register.today())
        refuse_for_plate(facts, grams)
        return Assembler(connection, register.today()).lots_by_id([facts.id])[facts.id]
