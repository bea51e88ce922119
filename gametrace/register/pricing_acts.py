"""The act that gives a dish its price, or a class its heads. What the dish cost is never written."""

from __future__ import annotations

from datetime import datetime

from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind
from gametrace.facts.costing import vat_rate
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_costs, look_lots

_MOST_PENCE = 100_000  # a plate above a thousand pounds is a slip of the finger
_MOST_HEADS = 10_000


def price_dish(
    register: Register,
    *,
    by: str,
    code: str,
    price_pence: int | None = None,
    vat_hundredths: int | None = None,
    other_pence: int | None = None,
    heads: int | None = None,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """What a portion is sold at, VAT in it; or for a class, charged at cost, how many students share it.

    `vat_hundredths`: hundredths of a per cent, 0 allowed; None is the kitchen's rate. `other_pence`: what
    else lies on all the plates together (vegetables, sauce), where the kitchen reckons it. A price given
    before is changed only with a reason; the old one stays in the register.
    """
    why = clean(reason, "reason", most=500)
    _check(price_pence, "price_pence", _MOST_PENCE, "A price is from a penny to a thousand pounds.", least=1)
    _check(vat_hundredths, "vat_hundredths", 10_000, "A rate of VAT is from 0 to 100 per cent.")
    _check(other_pence, "other_pence", 10_000_000, "That sum cannot be.")
    _check(heads, "heads", _MOST_HEADS, "That number of students cannot be.", least=1)

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        if lot.kind != LotKind.DISH:
            raise Refusal(f"{lot.code} is not a dish.", "Choose a dish that was made.", "code")
        dish = look_lots.dish_details(work.connection, [lot.id])[lot.id]
        if dish.occasion_kind == "class" and price_pence is not None:
            raise Refusal(
                "A class is charged what the dish cost; it has no price.",
                "Leave the price empty and give the number of students.",
                "price_pence",
            )
        if dish.occasion_kind != "class" and price_pence is None:
            raise Refusal(
                "No price has been given.", "Write pounds and pence, for example 14.50.", "price_pence"
            )
        was = look_costs.dish_price(work.connection, lot.id)
        rate = vat_hundredths
        if rate is None:
            own = policies_of(work.connection).vat_hundredths
            rate = vat_rate() if own is None else own
        body = {
            "lot": lot.id,
            "price_pence": price_pence,
            "vat_hundredths": rate,
            "other_pence": other_pence,
            "heads": heads,
            "reason": why,
        }
        if was is not None:
            if all(getattr(was, name) == body[name] for name in _COLUMNS):
                raise Refusal("That is the price already.", "Change something first.", "price_pence")
            if not why:
                raise Refusal("Changing a price needs a reason.", "Say why it is another now.", "reason")
        return Plan(body, codes=(lot.code,))

    return perform(register, "dish.priced", decide, by=by, happened_at=happened_at, key=key)


_COLUMNS = ("price_pence", "vat_hundredths", "other_pence", "heads")


def _check(given: int | None, field: str, most: int, sentence: str, *, least: int = 0) -> None:
    if given is not None and not least <= given <= most:
        raise Refusal(sentence, "Type it again.", field)
