"""Acts on the block: weigh out parts, packs, trim, bone, waste from one lot; close it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.break_down import EVEN, level
from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind, LotState
from gametrace.domain.quantities import kg_to_the_gram, tenths_percent_text
from gametrace.facts.cut_tree import state
from gametrace.facts.cuts import Product, product
from gametrace.facts.loading import UnknownFact
from gametrace.register.delivery_text import basis_from
from gametrace.register.lot_facts import LotFacts, refuse_for_block, refuse_for_plate
from gametrace.register.naming import product_name
from gametrace.register.opening import Register
from gametrace.register.pack_dates import NOT_KEPT, kept_as, kept_with
from gametrace.register.places import check_free_place, check_kept_at
from gametrace.register.policies import policies_of, scale_step
from gametrace.register.records import Changes
from gametrace.register.tables_kept import kitchen_name, table_words
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses

MOST_PORTIONS = 1_000


@dataclass(frozen=True, slots=True)
class Out:
    """One tray, pack or bin weighed out: product, grams, which side, where it goes, how it is packed."""

    product: str
    grams: int
    side: str = ""  # left | right | ''
    place: str = ""
    pack_state: str = ""  # one of PACK_STATES for a pack
    is_pack: bool = False
    reason: str = ""
    state: str = ""  # bone-in, boneless, diced, minced; '' where it need not be said
    portions: int = 0  # about so many in a pack

    @property
    def kind(self) -> LotKind:
        """What sort of lot this becomes."""
        fixed = {"drying": LotKind.DRYING, "returned": LotKind.RETURNED}
        if self.product in fixed:
            return fixed[self.product]
        known = known_product(self.product)
        if not known.is_meat:
            return LotKind.WASTE if known.level == "waste" else LotKind.BY_PRODUCT
        return LotKind.PACK if self.is_pack else LotKind.PART

    @property
    def is_gone(self) -> bool:
        return self.kind not in (LotKind.PACK, LotKind.PART)


def known_product(product_id: str) -> Product:
    """The product with this id, or the Refusal that says to choose one."""
    try:
        return product(product_id)
    except UnknownFact as error:
        raise Refusal(str(error), "Choose the cut from the list.", "product") from error


def weigh_out(
    register: Register,
    *,
    by: str,
    code: str,
    outputs: Sequence[Out] | Callable[[LotFacts], Sequence[Out]],
    session: str = "",
    station: str = "",
    cutter: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Weigh trays or packs out of one lot. Each becomes a lot with its own code, in the order given.

    Together they never weigh more than is left (beyond one step of the scale). A specimen may be cut for
    teaching: all that comes of it stays a specimen. What is on hold or rejected is refused. A lot that lies
    on a table of an open session is cut there; `cutter` is the roster code of who cut it. Outputs may be
    worked out from the lot as it stands.
    """
    if not outputs:
        raise Refusal("Nothing has been weighed.", "Weigh a tray first.", "outputs")

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        refuse_for_block(lot)
        refuse_in_skin(work, lot)
        outs = outputs(lot) if callable(outputs) else outputs
        if lot.state is LotState.OUT_OF_DATE and not all(out.is_gone for out in outs):
            raise Refusal(f"{lot.why}.", "It can only be binned.", "code")
        over = sum(out.grams for out in outs) - lot.grams_left
        if over > scale_step(work.connection):
            raise Refusal(
                f"That is {kg_to_the_gram(over)} more than is left of {lot.code} "
                f"({kg_to_the_gram(lot.grams_left)}).",
                "Check the tray and its tare; if the weight in was wrong, correct that one.",
                "grams",
            )
        body: dict[str, Any] = {
            "lot": lot.id,
            "opens": True,
            "over": max(0, over),
            "outputs": output_rows(work, lot, outs),
            **table_words(work.connection, lot, session, station, cutter),
        }
        created = tuple(code_of(output["lot"]) for output in body["outputs"])
        return Plan(body, codes=(lot.code, *created), created=created)

    return perform(register, "lot.divided", decide, by=by, happened_at=happened_at, key=key)


def refuse_in_skin(work: Work, lot: LotFacts) -> None:
    if lot.kind != LotKind.CARCASS:
        return
    found = look_carcasses.carcass_rows(work.connection, [lot.id])
    if found and basis_from(found[0].basis).in_skin:
        raise Refusal(
            f"{lot.code} is still in the skin.",
            "Dress it in the larder first, so that its number is handed on.",
            "code",
        )


def output_rows(work: Work, lot: LotFacts, outputs: Sequence[Out]) -> list[dict[str, Any]]:
    """The lots that outputs become, as entries spell them, each with its number and date."""
    made = [_output(work, lot, out) for out in outputs]
    hooks = [output["place"] for output in made if ".R" in output["place"]]
    if len(set(hooks)) < len(hooks):
        raise Refusal("Two things cannot hang on one hook.", "Choose a free hook for each.", "place")
    return made


def _check_state(out: Out) -> None:
    try:
        known = state(out.state)
    except UnknownFact as error:
        raise Refusal(str(error), "Choose the state from the list.", "state") from error
    if known.made_by:  # the rules for raw meat hold no life for it
        raise Refusal(
            f"Nothing comes {known.name} off the block, and no date is held for it there.",
            f"Weigh it out raw; then {known.made_by}.",
            "state",
        )
    if not known_product(out.product).is_meat:
        raise Refusal("Only meat has a state.", "Leave it out.", "state")


def _output(work: Work, lot: LotFacts, out: Out) -> dict[str, Any]:
    if out.grams <= 0:
        raise Refusal("A tray weighs more than nothing.", "Weigh it and type the kilograms.", "grams")
    if out.side not in ("", "left", "right"):
        raise Refusal(f"“{out.side[:40]}” is not a side.", "Choose left or right, or neither.", "side")
    kind = out.kind
    if out.state:
        _check_state(out)
    if kind == LotKind.DRYING:
        raise Refusal(
            "What dried off is found by weighing the lot again.",
            "Weigh it again in the larder; what was lost on the table stays unaccounted.",
            "product",
        )
    if not 0 <= out.portions <= MOST_PORTIONS:
        raise Refusal("That number of portions cannot be.", f"At most {MOST_PORTIONS} a pack.", "portions")
    if kind == LotKind.PACK:
        counts_as = "mince" if out.state and state(out.state).is_mince else out.product
        kept = kept_as(out.pack_state or "chilled-loose", counts_as, work.day, [lot])
    elif kind == LotKind.PART:
        kept = kept_with(lot)
    else:
        kept = NOT_KEPT
    place = check_free_place(work.connection, out.place) if out.place else ""
    if place and not out.is_gone:
        check_kept_at(work.connection, place, is_frozen=kept.pack_state == "frozen")
    fixed = {"drying": "drying loss", "returned": "returned to the supplier"}
    return {
        "lot": work.new_lot(),
        "kind": kind,
        "product": out.product,
        "side": out.side,
        "name": fixed.get(out.product) or _name(work, lot, out),
        "species": lot.species,
        "grams": out.grams,
        "place": place,
        **kept.body(),
        **({"portions": out.portions} if out.portions else {}),
        "note": clean(out.reason, "reason", most=500),
        **({"cut_state": out.state} if out.state else {}),
    }


def _name(work: Work, lot: LotFacts, out: Out) -> str:
    """'haunch, left, boneless', in the kitchen's own words where it has some."""
    called = kitchen_name(work.connection, lot.species, out.product)
    return product_name(out.product, out.side, out.state, called=called)


def close_lot(
    register: Register,
    *,
    by: str,
    code: str,
    reason: str = "",
    session: str = "",
    station: str = "",
    cutter: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Finish a break-down. What was never weighed becomes unaccounted and stays on view for ever."""
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        if lot.status != "open":
            raise Refusal(f"{lot.code} is not open on the block.", "Weigh something out of it first.", "code")
        missing = lot.grams_left
        own = policies_of(work.connection)
        amber, red = own.unweighed_amber_tenths, own.unweighed_red_tenths
        if level(missing, lot.grams_in, amber, red) != EVEN and not why:
            raise Refusal(
                f"{kg_to_the_gram(missing)} of {lot.code} has not been weighed, more than "
                f"{tenths_percent_text(amber)} of it.",
                "Look for a tray on the table, or say where it went.",
                "reason",
            )
        body = {
            "lot": lot.id,
            "unaccounted": missing,
            "reason": why,
            **table_words(work.connection, lot, session, station, cutter),
        }
        return Plan(body, codes=(lot.code,))

    return perform(register, "lot.closed", decide, by=by, happened_at=happened_at, key=key)


def gather(work: Work, inputs: Sequence[tuple[str, int | None]]) -> list[tuple[LotFacts, int]]:
    """Each lot once with the grams taken from it, every one past the last gate."""
    wanted: dict[int, tuple[LotFacts, int]] = {}
    for code, weight in inputs:
        lot = work.lot(code)
        grams = lot.grams_left if weight is None else weight
        refuse_for_plate(lot, grams)
        if lot.id in wanted:
            grams += wanted[lot.id][1]
            refuse_for_plate(lot, grams)
        wanted[lot.id] = (lot, grams)
    if not wanted:
        raise Refusal("Nothing has gone in yet.", "Scan a pack or a tray first.", "inputs")
    return [wanted[key] for key in sorted(wanted)]
