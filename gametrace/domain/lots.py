"""What a lot is: its kinds, its states, and the words for them.

A lot is anything that can be weighed and followed: a carcass, a haunch, a pack, a tub of mince, a dish,
a skin. Lots are joined by steps that take grams from some and give grams to others. Nothing here knows
where lots are kept or how they are drawn.
"""

from __future__ import annotations

from enum import StrEnum


class LotKind(StrEnum):
    """What sort of thing a lot is. The kinds from BY_PRODUCT on never reach a plate."""

    CARCASS = "carcass"
    BATCH = "batch"  # small game by the brace or the day's bag: one number for several bodies
    PART = "part"  # side, primal, cut, loose trim
    PACK = "pack"
    MIX = "mix"  # mince, dice or anything else made from several lots
    DISH = "dish"
    BY_PRODUCT = "by-product"  # skin, head, feet, bone: weighed, kept apart from food
    WASTE = "waste"  # condemned, shot-damaged, binned
    DRYING = "drying"  # weight that left as water, measured by two weighings
    RETURNED = "returned"  # gone back to the supplier
    ISSUED = "issued"  # handed to a class or a training restaurant without a dish
    SUPPLIED = "supplied"  # gone to another business, with a supply note
    STRUCK = "struck"  # written by mistake: it was never there, and weighs nothing


class LotState(StrEnum):
    """How a lot stands, worst first when several hold: the order decides which word is shown."""

    LOCKED = "locked"  # a laboratory found what must never be eaten
    REJECTED = "rejected"
    SPECIMEN = "specimen"
    ON_HOLD = "on hold"
    OUT_OF_DATE = "out of date"
    SPENT = "spent"
    HANGING = "hanging"
    READY = "ready"
    SERVED = "served"
    GONE = "gone"  # by-products, waste, returned, issued, supplied...: out of the larder's meat for good


ANIMAL_KINDS = frozenset({LotKind.CARCASS, LotKind.BATCH})
MEAT_KINDS = frozenset({LotKind.CARCASS, LotKind.BATCH, LotKind.PART, LotKind.PACK, LotKind.MIX})
KEPT_KINDS = frozenset({LotKind.PART, LotKind.PACK, LotKind.MIX})  # frozen, thawed and dated after cutting
GONE_KINDS = frozenset(
    {
        LotKind.BY_PRODUCT,
        LotKind.WASTE,
        LotKind.DRYING,
        LotKind.RETURNED,
        LotKind.ISSUED,
        LotKind.SUPPLIED,
        LotKind.STRUCK,
    }
)


class StopSort(StrEnum):
    """Why a lot is stopped. A person lifts a hold, the result a wait for it; the rest stay."""

    HOLD = "hold"
    RESULT = "result"  # waits for the laboratory
    LOCKED = "locked"
    REJECTED = "rejected"
    SPECIMEN = "specimen"


_STATE_OF_STOP = {
    StopSort.LOCKED: LotState.LOCKED,
    StopSort.REJECTED: LotState.REJECTED,
    StopSort.SPECIMEN: LotState.SPECIMEN,
    StopSort.RESULT: LotState.ON_HOLD,
    StopSort.HOLD: LotState.ON_HOLD,
}


def state_of(*, kind: str, grams_left: int, stops: frozenset[str] | set[str], is_past_date: bool) -> LotState:
    """The one word for how a lot stands. `stops` holds the StopSort values that reach this lot."""
    for sort, state in _STATE_OF_STOP.items():
        if sort in stops:
            return state
    if kind in GONE_KINDS:
        return LotState.GONE
    if kind == LotKind.DISH:
        return LotState.SERVED
    if grams_left == 0:
        return LotState.SPENT
    if is_past_date:
        return LotState.OUT_OF_DATE
    return LotState.HANGING if kind in ANIMAL_KINDS else LotState.READY
