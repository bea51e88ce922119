"""Several lots, the left-over of an earlier mix among them, and other things besides, joined to one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.ingredients import Ingredient, ingredient_findings
from gametrace.domain.lots import LotKind
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.facts.loading import UnknownFact
from gametrace.register.block import gather, known_product
from gametrace.register.lot_facts import lot_facts, refuse_cooked
from gametrace.register.opening import Register
from gametrace.register.pack_dates import kept_as
from gametrace.register.places import check_free_place, check_kept_at
from gametrace.register.policies import scale_step
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_lots
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

MOST_OTHERS = 40
MOST_OTHER_GRAMS = 200_000


@dataclass(frozen=True, slots=True)
class Other:
    """Something in a mix besides meat, as it was typed. `allergens` is None while nobody read the packet.

    It has no price: what is not game is reckoned once, on the dish (`price_dish`, `other_pence`). A price
    here too would be counted twice, or nobody could say of a plate what its animals cost.
    """

    name: str
    grams: int
    lot: str = ""
    supplier: str = ""
    allergens: Sequence[str] | None = None
    use_by: date | None = None


def make_mix(
    register: Register,
    *,
    by: str,
    product: str = "mince",
    inputs: Sequence[tuple[str, int | None]],
    others: Sequence[Other] = (),
    grams: int | None = None,
    place: str = "",
    pack_state: str = "chilled-loose",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Join lots to one (mince, dice, sausage, cure, stock), with the grams from each; None takes all of it.

    `others` are salt, rusk, wine and the like. `grams` is the weight of the mix when it was weighed; what is
    missing to the sum shows as unaccounted. The mix takes the earliest date of all that went in or its own
    rule's, whichever comes first; what was frozen before or thawed stays so. Changes.findings ask after what
    was not copied from a packet.
    """
    known = known_product(product)

    def decide(work: Work) -> Plan:
        taken = gather(work, inputs)
        for lot, _ in taken:
            refuse_cooked(lot)
        besides = [_ingredient(one) for one in others[: MOST_OTHERS + 1]]
        found = _findings(besides, work.day)
        total = sum(weight for _, weight in taken) + sum(one.grams for one in besides)
        made = total if grams is None else grams
        if not 0 < made <= total + scale_step(work.connection):
            raise Refusal(
                f"{kg_to_the_gram(total)} went in, so {kg_to_the_gram(made)} cannot have come out.",
                "Weigh it again.",
                "grams",
            )
        lots = [lot for lot, _ in taken]
        kept = kept_as(pack_state, product, work.day, lots, [one.last_day for one in besides])
        shelf = check_free_place(work.connection, place) if place else ""
        if shelf:
            check_kept_at(work.connection, shelf, is_frozen=pack_state == "frozen")
        species = {lot.species for lot in lots}
        output: dict[str, Any] = {
            "lot": work.new_lot(),
            "kind": LotKind.MIX,
            "product": product,
            "side": "",
            "name": known.name,
            "species": species.pop() if len(species) == 1 else "",
            "grams": made,
            "place": shelf,
            **kept.body(),
            "note": "",
        }
        body: dict[str, Any] = {
            "inputs": [[lot.id, weight] for lot, weight in taken],
            "output": output,
            "dish": None,
        }
        if besides:
            body["others"] = [_spelt(one) for one in besides]
        code = code_of(output["lot"])
        return Plan(body, codes=(code, *(lot.code for lot in lots)), created=(code,), findings=found)

    return perform(register, "lots.joined", decide, by=by, happened_at=happened_at, key=key)


def _ingredient(other: Other) -> Ingredient:
    name = clean(other.name, "others", most=80, needed="An ingredient needs a name.")
    if not 0 < other.grams <= MOST_OTHER_GRAMS:
        raise Refusal(f"{name} needs a weight.", "Weigh it and type the kilograms.", "others")
    try:
        return Ingredient(
            name=name,
            grams=other.grams,
            lot=clean(other.lot, "others", most=80),
            supplier=clean(other.supplier, "others", most=80),
            allergens=None if other.allergens is None else frozenset(other.allergens),
            last_day=other.use_by,
        )
    except UnknownFact as error:
        raise Refusal(str(error), "Tick them from the list.", "others") from error


def _findings(besides: Sequence[Ingredient], day: date) -> tuple[Finding, ...]:
    if len(besides) > MOST_OTHERS:
        raise Refusal(f"At most {MOST_OTHERS} other ingredients fit in a mix.", "Make two of it.", "others")
    found = tuple(one for ingredient in besides for one in ingredient_findings(ingredient, day))
    for one in found:
        if one.severity is Severity.STOP:
            raise Refusal(one.sentence, one.what_to_do, "others")
    return found


def _spelt(one: Ingredient) -> dict[str, Any]:
    return {
        "name": one.name,
        "packet_lot": one.lot,
        "supplier": one.supplier,
        "grams": one.grams,
        "allergens": None if one.allergens is None else ",".join(sorted(one.allergens)),
        "use_by": one.last_day.isoformat() if one.last_day else None,
    }


def ingredients(register: Register, code: str) -> tuple[Ingredient, ...]:
    """Everything besides meat in a lot, through all the mixes it was made of, each packet once."""
    with register.store.reading() as connection:
        return ingredients_in(connection, lot_facts(connection, code, register.today()).id)


def ingredients_in(connection: Connection, lot: int) -> tuple[Ingredient, ...]:
    """The same inside a read. `grams` is what went into the mix, not this lot's part of it."""
    above = {lot, *(edge.parent for edge in edges_above(connection, [lot]))}
    return tuple(
        Ingredient(
            name=row.name,
            grams=row.grams,
            lot=row.packet_lot,
            supplier=row.supplier,
            allergens=None if row.allergens is None else frozenset(filter(None, row.allergens.split(","))),
            last_day=date.fromisoformat(row.use_by) if row.use_by else None,
        )
        for row in look_lots.ingredients_of(connection, above)
    )


def check_ingredient(register: Register, other: Other) -> tuple[Finding, ...]:
    """What would be asked about an ingredient if it went in today; the Refusal where it may not."""
    return _findings([_ingredient(other)], register.today())
