"""Acts at the pass: a dish from packs, and what is binned, condemned or sent back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import GONE_KINDS, LotKind
from gametrace.domain.menu_claims import Claim
from gametrace.register.block import Out, gather, output_rows
from gametrace.register.lot_facts import refuse_too_much
from gametrace.register.opening import Register
from gametrace.register.pot import checked_claims, pot_of, refuse_what_the_menu_denies
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform

OCCASIONS = ("service", "class")


def make_dish(
    register: Register,
    *,
    by: str,
    name: str,
    occasion_kind: str = "service",
    occasion: str,
    on: date,
    portions: int,
    inputs: Sequence[tuple[str, int | None]],
    claims: Sequence[Claim] = (),
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Make a dish for a service or class from packs (whole or part). The last gate refuses what may not go.

    What is on hold, rejected, a specimen, past its date or used up is refused with the reason, and so is an
    animal of which the dish's name, or a claim of its menu, says otherwise. Then the dish is not made at
    all. Changes.code is the dish's own lot code.
    """
    title = clean(name, "name", needed="The dish needs a name.")
    event = clean(occasion, "occasion", needed="Say for which service or class.")
    if occasion_kind not in OCCASIONS:
        raise Refusal("A dish is for a service or a class.", "Choose one.", "occasion_kind")
    if not 1 <= portions <= 10_000:
        raise Refusal("That number of portions cannot be.", "Count the plates.", "portions")
    menu = checked_claims(claims)

    def decide(work: Work) -> Plan:
        taken = gather(work, inputs)
        pot = pot_of(work.connection, [(lot.id, weight) for lot, weight in taken])
        refuse_what_the_menu_denies(title, menu, pot)
        species = {lot.species for lot, _ in taken}
        total = sum(weight for _, weight in taken)
        output: dict[str, Any] = {
            "lot": work.new_lot(),
            "kind": LotKind.DISH,
            "product": "",
            "side": "",
            "name": title,
            "species": species.pop() if len(species) == 1 else "",
            "grams": total,
            "place": "",
            "use_by": None,
            "date_rule": "",
            "pack_state": "",
            "note": "",
        }
        dish = {
            "name": title,
            "occasion_kind": occasion_kind,
            "occasion": event,
            "on_day": on.isoformat(),
            "portions": portions,
        }
        body = {"inputs": [[lot.id, weight] for lot, weight in taken], "output": output, "dish": dish}
        if menu:
            body["menu"] = [[claim.kind, claim.value] for claim in menu]
        code = code_of(output["lot"])
        return Plan(body, codes=(code, *(lot.code for lot, _ in taken)), created=(code,))

    return perform(register, "lots.joined", decide, by=by, happened_at=happened_at, key=key)


def dispose(
    register: Register,
    *,
    by: str,
    code: str,
    grams: int | None = None,
    product: str = "binned",
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Bin, condemn, return or put to by-products some or all of a lot, in whatever state it is.

    This is the only way out for what is rejected or out of date. `grams` None takes all that is left.
    """
    why = clean(reason, "reason", most=500, needed="Say why it goes.")

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        if lot.kind in GONE_KINDS or lot.kind == LotKind.DISH or lot.grams_left == 0:
            raise Refusal(f"Nothing of {lot.code} is here to dispose of.", "Check the number.", "code")
        weight = lot.grams_left if grams is None else grams
        refuse_too_much(lot, weight)
        out = Out(product, weight, reason=why)
        if not out.is_gone:
            raise Refusal("That is meat, not a way out.", "Choose bin, condemned, returned...", "product")
        body: dict[str, Any] = {
            "lot": lot.id,
            "opens": False,
            "over": 0,
            "outputs": output_rows(work, lot, [out]),
        }
        created = (code_of(body["outputs"][0]["lot"]),)
        return Plan(body, codes=(lot.code, *created), created=created)

    return perform(register, "lot.divided", decide, by=by, happened_at=happened_at, key=key)


def note_labels_printed(
    register: Register,
    *,
    by: str,
    codes: Sequence[str],
    sort: str = "",
    sorts: Sequence[str] = (),
    key: str | None = None,
) -> Changes:
    """Remember that labels were printed, so that reprints can be counted and said.

    A code named twice was printed twice. `sorts` tells of each what label it was, where they differ.
    """

    def decide(work: Work) -> Plan:
        lots = [work.lot(code).id for code in codes]
        if not lots:
            raise Refusal("There is no label to print.", "Choose a lot.", "codes")
        told = list(sorts) if len(sorts) == len(lots) else [sort] * len(lots)
        counted = Counter(zip(lots, told, strict=True))
        prints = [[lot, one, many] for (lot, one), many in sorted(counted.items())]
        every = sorted(set(lots))
        body = {"lots": every, "sort": sort, "prints": prints}
        return Plan(body, codes=tuple(code_of(lot) for lot in every))

    return perform(register, "labels.printed", decide, by=by, key=key)
