"""Packs in one go: so many of one thing out of one lot, each weighed or all alike, about so many portions."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS
from gametrace.register.block import Out, weigh_out
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.records import Changes

MOST_PACKS = 500


def pack_many(
    register: Register,
    *,
    by: str,
    code: str,
    count: int = 0,
    grams_each: int | None = None,
    weights: Sequence[int] = (),
    portions: int = 0,
    product: str = "",
    side: str = "",
    pack_state: str = "vacuum",
    place: str = "",
    session: str = "",
    station: str = "",
    cutter: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Pack a lot: `weights` of packs each weighed, or `count` alike of `grams_each`.

    Without a weight, all that is left is shared out among `count`, no two packs more than a gram apart.
    `product` is what the lot is of unless it is named; `portions` is about how many a pack holds. A table and
    who packed are said as when it is weighed out.
    """

    def packs(lot: LotFacts) -> list[Out]:
        what = product or _product_of(lot)
        return [
            Out(what, grams, side, place, pack_state, is_pack=True, portions=portions)
            for grams in shared(lot.grams_left, count, grams_each, weights)
        ]

    return weigh_out(
        register,
        by=by,
        code=code,
        outputs=packs,
        session=session,
        station=station,
        cutter=cutter,
        happened_at=happened_at,
        key=key,
    )


def shared(left: int, count: int, grams_each: int | None, weights: Sequence[int]) -> list[int]:
    """The grams of each pack."""
    many = len(weights) or count
    if not 1 <= many <= MOST_PACKS:
        raise Refusal("It is not said how many packs.", f"Write 1 to {MOST_PACKS}.", "count")
    if weights:
        return list(weights)
    if grams_each is not None:
        return [grams_each] * count
    if left < count:
        raise Refusal(f"There is too little left for {count} packs.", "Count them again.", "count")
    each, over = divmod(left, count)
    return [each + 1] * over + [each] * (count - over)


def _product_of(lot: LotFacts) -> str:
    if not lot.product or lot.kind in ANIMAL_KINDS:
        raise Refusal(f"It is not said what is packed of {lot.code}.", "Choose the cut.", "product")
    return lot.product
