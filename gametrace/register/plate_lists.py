"""Questions of the pass: one dish with all its records, a day's services, issues, customers, supplies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.ingredients import allergens_text
from gametrace.domain.lots import LotKind
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.assembling import FORGOTTEN, Assembler
from gametrace.register.clock import day_text, instant
from gametrace.register.cooking_records import ingredients_behind, records_of, unanswered_stop
from gametrace.register.cost_walk import CostWalk
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.plate_records import (
    Customer,
    DishChange,
    DishFile,
    DishInput,
    DishLine,
    Issue,
    LeftOver,
    Occasion,
    Serving,
    Supply,
    SupplyNote,
)
from gametrace.register.pot import claims_of
from gametrace.register.records import Lot
from gametrace.register.stories import lines
from gametrace.register.supplying import refuse_for_business
from gametrace.store import look_lots, look_plates


def dish_file(register: Register, code: str) -> DishFile:
    """A dish and everything that happened to it."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        lot = lot_facts(connection, code, register.today())
        if lot.kind != LotKind.DISH:
            raise Refusal(f"{lot.code} is not a dish.", "Choose a dish that was made.", "code")
        made = look_lots.dish_details(connection, [lot.id])[lot.id]
        initials = {person: read.initials(person) for person in read.cards}
        records = records_of(connection, lot.id, initials)
        ingredients = ingredients_behind(connection, lot.id)
        menu = look_plates.menu_row(connection, lot.id)
        changes = lines(read, look_plates.changes_of(connection, lot.id))
        return DishFile(
            lot=read.lots_by_id([lot.id])[lot.id],
            occasion_kind=made.occasion_kind,
            occasion=made.occasion,
            on=date.fromisoformat(made.on_day),
            portions=made.portions,
            inputs=_inputs(read, lot.id),
            records=records,
            servings=_servings(read, [lot.id]),
            left_overs=_left_overs(read, lot.id),
            ingredients=ingredients,
            allergens=allergens_text(ingredients) if ingredients else "",
            changes=tuple(DishChange(one.happened_at, one.by, one.sentence) for one in changes),
            claims=claims_of(menu.claims) if menu else (),
            menu_line=menu.line if menu else "",
            why_not=lot.why or unanswered_stop(records),
        )


def _inputs(read: Assembler, dish: int) -> tuple[DishInput, ...]:
    given = look_lots.parents_of(read.connection, dish)
    lots = read.lots_by_id([lot for lot, _ in given])
    cooked = look_plates.are_left_overs(read.connection, lots)
    return tuple(DishInput(lots[lot], grams, lot in cooked) for lot, grams in given)


def _servings(read: Assembler, dishes: list[int]) -> tuple[Serving, ...]:
    return tuple(
        Serving(
            code_of(row.lot_id),
            instant(row.happened_at),
            read.initials(row.person),
            row.portions,
            row.to_group,
        )
        for row in look_plates.servings(read.connection, dishes)
    )


def _left_overs(read: Assembler, dish: int) -> tuple[LeftOver, ...]:
    return tuple(
        LeftOver(
            code=code_of(row.lot_id),
            portions=row.portions,
            grams=row.grams_made,
            is_waste=row.kind == LotKind.WASTE,
            use_by=date.fromisoformat(row.use_by) if row.use_by else None,
            date_rule=row.date_rule,
            note=row.note,
            at=instant(row.made_at),
        )
        for row in look_plates.left_overs(read.connection, [dish])
    )


def service_days(register: Register, limit: int = 60) -> tuple[date, ...]:
    """Days with a service or a class, newest first."""
    with register.store.reading() as connection:
        return tuple(date.fromisoformat(day) for day in look_plates.service_days(connection, limit))


def services(register: Register, on: date) -> tuple[Occasion, ...]:
    """What was served when and to whom, and what was issued, on a day."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        day = on.isoformat()
        dishes: dict[tuple[str, str], list[Any]] = defaultdict(list)
        for row in look_plates.dishes_on(connection, day):
            dishes[row.occasion_kind, row.occasion].append(row)
        covers = {(row.occasion_kind, row.occasion): row for row in look_plates.covers_on(connection, day)}
        issued: dict[tuple[str, str], list[Issue]] = defaultdict(list)
        for issue in _issues(read, look_plates.issues_on(connection, day)):
            kind = "class" if issue.sort == "class" else "service"
            issued[kind, issue.charged_to].append(issue)
        names = dict.fromkeys([*dishes, *covers, *issued])
        return tuple(
            Occasion(
                kind=kind,
                name=name,
                on=on,
                covers=covers[kind, name].covers if (kind, name) in covers else None,
                note=covers[kind, name].note if (kind, name) in covers else "",
                dishes=_dish_lines(read, dishes[kind, name]),
                servings=_servings(read, [row.lot_id for row in dishes[kind, name]]),
                issues=tuple(issued[kind, name]),
            )
            for kind, name in names
        )


def _dish_lines(read: Assembler, found: list[Any]) -> tuple[DishLine, ...]:
    ids = [row.lot_id for row in found]
    lots = read.lots_by_id(ids)
    served: dict[int, int] = defaultdict(int)
    back: dict[int, int] = defaultdict(int)
    for row in look_plates.servings(read.connection, ids):
        served[row.lot_id] += row.portions
    for row in look_plates.left_overs(read.connection, ids):
        back[row.dish] += row.portions
    return tuple(
        DishLine(
            code=lots[row.lot_id].code,
            name=row.name,
            portions=row.portions,
            served=served[row.lot_id],
            left_over=back[row.lot_id],
            state=lots[row.lot_id].state,
            allergens=_allergens(read, row.lot_id),
        )
        for row in found
    )


def _allergens(read: Assembler, dish: int) -> str:
    found = ingredients_behind(read.connection, dish)
    return allergens_text(found) if found else ""


def issues(register: Register, limit: int = 200) -> tuple[Issue, ...]:
    """What was handed to classes and restaurants, newest first, each at its cost as it is known now."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return _issues(read, look_plates.issues(connection, limit))


def _issues(read: Assembler, found: Sequence[Any]) -> tuple[Issue, ...]:
    """Their money is read once for all of them."""
    if not found:
        return ()
    walk = CostWalk(read.connection, [row.lot_id for row in found])
    return tuple(_issue(read, row, walk.pence(row.lot_id)) for row in found)


def _issue(read: Assembler, row: Any, pence: int | None) -> Issue:
    return Issue(
        code=code_of(row.lot_id),
        from_code=code_of(row.parent),
        name=row.name,
        grams=row.grams_made,
        sort=row.sort,
        charged_to=row.charged_to,
        on=date.fromisoformat(row.on_day),
        purpose=row.purpose,
        by=read.initials(row.made_by),
        pence=pence,
    )


def customers(register: Register) -> tuple[Customer, ...]:
    """The businesses that are supplied."""
    with register.store.reading() as connection:
        return tuple(_customers(Assembler(connection, register.today())).values())


def _customers(read: Assembler) -> dict[str, Customer]:
    found = {}
    for row in look_plates.customers(read.connection):
        card = read.cards.get(row.code, {})
        found[row.code] = Customer(
            code=row.code,
            name=card.get("name", FORGOTTEN),
            address=card.get("address", ""),
            phone=card.get("phone", ""),
            registration=row.registration,
        )
    return found


def check_for_business(register: Register, code: str, grams: int | None = None) -> Lot:
    """The lot, if it may be supplied to another business today; otherwise the Refusal that says why not."""
    with register.store.reading() as connection:
        facts = lot_facts(connection, code, register.today())
        refuse_for_business(facts, grams)
        return Assembler(connection, register.today()).lots_by_id([facts.id])[facts.id]


def supplies(register: Register, limit: int = 200) -> tuple[Supply, ...]:
    """Lots that left for other businesses, newest first, each with its eight fields."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        known = _customers(read)
        return tuple(_supply(read, known, row) for row in look_plates.supplies(connection, limit))


def supply_note(register: Register, code: str) -> SupplyNote:
    """The note of the consignment that this supplied lot went with."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        lot = lot_facts(connection, code, register.today())
        found = look_plates.supplied_with(connection, lot.id)
        if not found:
            raise Refusal(f"{lot.code} was not supplied to anybody.", "Choose one that was.", "code")
        known = _customers(read)
        return SupplyNote(code_of(found[0].lot_id), tuple(_supply(read, known, row) for row in found))


def _supply(read: Assembler, known: dict[str, Customer], row: Any) -> Supply:
    customer = known[row.customer]
    on = date.fromisoformat(row.dispatched_on)
    to = ", ".join(part for part in (customer.name, customer.address) if part)
    return Supply(
        code=code_of(row.lot_id),
        from_code=code_of(row.parent),
        customer=customer,
        dispatched_on=on,
        grams=row.grams_made,
        fields=(
            ("description of the food", row.description),
            ("quantity", kg_to_the_gram(row.grams_made)),
            ("dispatched from, name and address", row.from_words),
            ("consignor or owner, if different", row.owner_before or "the same"),
            ("dispatched to, name and address", to),
            ("consignee or owner, if different", row.owner_after or "the same"),
            ("lot, batch or consignment reference", f"{code_of(row.lot_id)}, out of {code_of(row.parent)}"),
            ("date of dispatch", day_text(on)),
        ),
        by=read.initials(row.made_by),
    )
