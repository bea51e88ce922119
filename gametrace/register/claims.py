"""Acts of the claim: shot damage and short weight against the supplier, by the rule agreed with them."""

from __future__ import annotations

from datetime import datetime, timedelta

from gametrace.domain.claims import claim_pence
from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.register.clock import day_text, instant, wall_day
from gametrace.register.examining import animal_facts
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_door, look_setup

STATUSES = ("agreed", "credited", "refused")


def raise_claim(
    register: Register,
    *,
    by: str,
    code: str,
    grams: int,
    reason: str,
    cut_pence_per_kg: int | None = None,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Raise a claim for weight lost, by the rule and window agreed. Changes.code is its number."""
    why = clean(reason, "reason", most=500, needed="Say what was found.")

    def decide(work: Work) -> Plan:
        lot, row = animal_facts(work, code)
        supplier = look_setup.supplier_row(work.connection, row.supplier)
        assert supplier is not None  # a foreign key holds it
        if supplier.damage_rule == "none":
            raise Refusal(
                "No rule for damage is agreed with this supplier.",
                "Agree one and write it on the supplier, or settle it outside the register.",
                "code",
            )
        if not 0 < grams <= row.grams_received:
            raise Refusal("That weight cannot be.", "Give what was lost, weighed.", "grams")
        last = wall_day(instant(row.received_at)) + timedelta(days=supplier.claim_days)
        if supplier.claim_days and work.day > last:
            raise Refusal(
                f"The agreed days for a claim ended on {day_text(last)}.", "Ring the supplier.", "code"
            )
        before = look_door.claims_of(work.connection, [lot.id]).get(lot.id, ())
        if grams + sum(one.grams for one in before if one.status != "refused") > row.grams_received:
            raise Refusal(
                f"With the claims before, that is more than {lot.code} weighed.", "Check them all.", "grams"
            )
        is_cut = supplier.damage_rule == "cut price"
        price = cut_pence_per_kg if is_cut else row.pence_per_kg
        field = "cut_pence_per_kg" if is_cut else "pence_per_kg"
        if supplier.damage_rule != "fixed" and price is None:
            raise Refusal("The price a kilo is not written down.", "Give it first.", field)
        if price is not None and not 0 <= price <= 100_000:
            raise Refusal("That price cannot be.", "Give pounds a kilo.", field)
        claim = look_door.last_claim_id(work.connection) + 1
        body = {
            "claim": claim,
            "lot": lot.id,
            "rule": supplier.damage_rule,
            "grams": grams,
            "reason": why,
            "pence": claim_pence(
                supplier.damage_rule, grams=grams, pence_per_kg=price, fixed_pence=supplier.damage_pence
            ),
        }
        return Plan(body, codes=(lot.code,), created=(str(claim),))

    return perform(register, "claim.raised", decide, by=by, happened_at=happened_at, key=key)


def settle_claim(
    register: Register,
    *,
    by: str,
    claim: int,
    status: str,
    pence: int | None = None,
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """What became of a claim: agreed, credited (with the sum) or refused."""
    if status not in STATUSES:
        raise Refusal("A claim is agreed, credited or refused.", "Choose one.", "status")
    words = clean(note, "note", most=500)

    def decide(work: Work) -> Plan:
        row = look_door.claim_row(work.connection, claim)
        if row is None:
            raise Refusal(f"There is no claim number {claim}.", "Choose it from the list.", "claim")
        if row.status in ("credited", "refused"):
            raise Refusal(f"This claim is {row.status} already.", "", "claim")
        due = row.pence if row.settled_pence is None else row.settled_pence  # the sum agreed comes first
        paid = 0 if status == "refused" else due if pence is None else pence
        if not 0 <= paid <= 1_000_000:
            raise Refusal("That sum cannot be.", "Give pounds and pence.", "pence")
        body = {"claim": claim, "lot": row.lot_id, "status": status, "pence": paid, "note": words}
        return Plan(body, codes=(code_of(row.lot_id),))

    return perform(register, "claim.settled", decide, by=by, happened_at=happened_at, key=key)
