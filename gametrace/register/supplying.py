"""Acts: meat handed to a class or a training restaurant without a dish, and meat supplied to other firms.

An issue is charged to its code at what the meat cost; the sum follows the lineage and is worked out where
costs are. A supply keeps the eight fields of Regulation (EU) 931/2011, Article 3(1).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS, MEAT_KINDS, LotKind, LotState
from gametrace.facts.origins import ORIGINS
from gametrace.facts.species import species as species_called
from gametrace.register.block import gather
from gametrace.register.clock import day_text
from gametrace.register.delivery_text import basis_from
from gametrace.register.lot_facts import LotFacts, refuse_for_plate, refuse_too_much
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_plates, rows
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

ISSUE_SORTS = ("class", "restaurant")
_PACKED = {
    "vacuum": "vacuum packed",
    "modified-atmosphere": "in modified atmosphere",
    "frozen": "frozen",
    "thawed": "defrosted",
    "cooked": "cooked, chilled",
    "chilled-loose": "chilled",
}


def issue_lot(
    register: Register,
    *,
    by: str,
    inputs: Sequence[tuple[str, int | None]],
    sort: str = "class",
    charged_to: str,
    on: date,
    purpose: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Hand packs or parts to a class or a training restaurant, charged to its code. Past the last gate.

    Each becomes a lot that has gone out; Changes.created are their codes in the order of the lots.
    """
    to = clean(charged_to, "charged_to", needed="Say which class or restaurant: its code.")
    words = clean(purpose, "purpose")
    if sort not in ISSUE_SORTS:
        raise Refusal("Meat is issued to a class or a training restaurant.", "Choose one.", "sort")

    def decide(work: Work) -> Plan:
        _refuse_coming(work, on)
        taken = gather(work, inputs)
        outputs = [_output(work, lot, grams, LotKind.ISSUED, f"to {to}") for lot, grams in taken]
        body = {
            "sort": sort,
            "charged_to": to,
            "on_day": on.isoformat(),
            "purpose": words,
            "outputs": outputs,
        }
        return _gone(body)

    return perform(register, "lots.issued", decide, by=by, happened_at=happened_at, key=key)


def add_customer(
    register: Register,
    *,
    by: str,
    name: str,
    address: str,
    phone: str = "",
    registration: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A business that is supplied: one step forward, with the name and address that the law asks for."""
    card = {
        "name": clean(name, "name", needed="A customer needs a name."),
        "address": clean(address, "address", most=500, needed="The law asks for the customer's address."),
        "phone": clean(phone, "phone"),
    }
    number = clean(registration, "registration")

    def decide(work: Work) -> Plan:
        code = rows.next_code(work.connection, "customer", "C")
        digest = rows.write_card(work.connection, code, card)
        return Plan({"customer": code, "registration": number, "card": digest}, created=(code,))

    return perform(register, "customer.added", decide, by=by, happened_at=happened_at, key=key)


def supply_lot(
    register: Register,
    *,
    by: str,
    customer: str,
    inputs: Sequence[tuple[str, int | None]],
    dispatched_on: date,
    owner_before: str = "",
    owner_after: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Supply lots to another business as one consignment: carcasses, parts, packs or mixes, not dishes.

    `owner_before` and `owner_after` are name and address of the consignor or the consignee where they are not
    the two businesses. A finished dish is outside the Regulation and goes out as portions served.
    """
    before = clean(owner_before, "owner_before", most=500)
    after = clean(owner_after, "owner_after", most=500)
    ours = ", ".join(part for part in (register.larder.name, register.larder.address) if part)
    if not register.larder.address:
        raise Refusal("Our own address is not written down.", "Write it under Set-up first.", "customer")

    def decide(work: Work) -> Plan:
        if customer not in {row.code for row in look_plates.customers(work.connection)}:
            raise Refusal("Nobody to supply has been chosen.", "Choose or add the customer.", "customer")
        _refuse_coming(work, dispatched_on)
        outputs = []
        for lot, grams in _for_business(work, inputs):
            output = _output(work, lot, grams, LotKind.SUPPLIED, f"to customer {customer}")
            outputs.append({**output, "description": describe(work.connection, lot)})
        body = {
            "customer": customer,
            "from_words": ours,
            "owner_before": before,
            "owner_after": after,
            "dispatched_on": dispatched_on.isoformat(),
            "outputs": outputs,
        }
        return _gone(body)

    return perform(register, "lots.supplied", decide, by=by, happened_at=happened_at, key=key)


def _for_business(work: Work, inputs: Sequence[tuple[str, int | None]]) -> list[tuple[LotFacts, int]]:
    """Each lot once with its grams. The gate is that of the plate; a whole carcass may go to a business."""
    wanted: dict[int, tuple[LotFacts, int]] = {}
    for code, weight in inputs:
        lot = work.lot(code)
        if lot.id in wanted:
            raise Refusal(f"{lot.code} is on the list already.", "Each once, with its weight.", "inputs")
        grams = lot.grams_left if weight is None else weight
        refuse_for_business(lot, grams)
        wanted[lot.id] = (lot, grams)
    if not wanted:
        raise Refusal("Nothing has been chosen yet.", "Scan what leaves.", "inputs")
    return [wanted[lot] for lot in sorted(wanted)]


def refuse_for_business(lot: LotFacts, grams: int | None) -> None:
    """The last gate before another business: as for a plate, but whole animals are let through whole."""
    if lot.kind not in ANIMAL_KINDS:
        refuse_for_plate(lot, grams)
        return
    if lot.stops or lot.state is LotState.OUT_OF_DATE:
        raise Refusal(f"{lot.why}.", "It may not be supplied. Ask the tutor.", "code")
    assert lot.kind in MEAT_KINDS
    if lot.grams_left == 0:
        raise Refusal(f"{lot.code} is used up.", "Check the tag in your hand.", "code")
    refuse_too_much(lot, grams)


def _refuse_coming(work: Work, on: date) -> None:
    if on > work.day:
        raise Refusal(f"{day_text(on)} is still to come.", "Write it down on the day.", "on")


def _output(work: Work, lot: LotFacts, grams: int, kind: LotKind, note: str) -> dict[str, Any]:
    return {
        "lot": work.new_lot(),
        "parent": lot.id,
        "kind": kind,
        "product": lot.product,
        "side": "",
        "name": lot.name,
        "species": lot.species,
        "grams": grams,
        "place": "",
        "use_by": lot.use_by.isoformat() if lot.use_by else None,
        "date_rule": "",
        "pack_state": lot.pack_state,
        "note": note,
    }


def _gone(body: dict[str, Any]) -> Plan:
    created = tuple(code_of(output["lot"]) for output in body["outputs"])
    parents = tuple(code_of(output["parent"]) for output in body["outputs"])
    return Plan(body, codes=(*created, *parents), created=created)


def describe(connection: Connection, lot: LotFacts) -> str:
    """(a), an accurate description: what it is, of which animals, how they lived, how it is packed."""
    edges = edges_above(connection, [lot.id])
    animals = look_carcasses.carcass_rows(connection, {lot.id, *(edge.parent for edge in edges)})
    species = sorted({species_called(row.species).name for row in animals})
    origins = sorted({ORIGINS[row.origin] for row in animals})
    parts = [lot.name]
    if lot.kind in ANIMAL_KINDS and animals:
        parts.append(basis_from(animals[0].basis).words)
    else:
        parts.append(" and ".join(species))
    parts.append(" and ".join(origins))
    if lot.kind not in ANIMAL_KINDS:
        parts.append(_PACKED.get(lot.pack_state, "chilled"))
    if lot.first_frozen_on:  # Regulation 853/2004, Annex II, Section IV: passed on until the food is labelled
        parts.append(f"frozen on {day_text(lot.first_frozen_on)}")
    if lot.thawed_on:
        parts.append(f"thawed {day_text(lot.thawed_on)}")
    if lot.use_by and lot.kind not in ANIMAL_KINDS:
        words = "best before" if lot.pack_state == "frozen" else "use by"
        parts.append(f"{words} {day_text(lot.use_by)}")
    return ", ".join(part for part in parts if part)
