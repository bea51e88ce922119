"""What an act must know of a lot before it may touch it, read once and ruled on in one place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import MEAT_KINDS, LotKind, LotState, StopSort, state_of
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.clock import day_text, instant, wall_day
from gametrace.store import look_lots
from gametrace.store.engine import Connection
from gametrace.store.look_lots import Stop

_STOPPED = {  # worst first
    "locked": "locked for ever",
    "rejected": "rejected",
    "specimen": "a teaching specimen",
    "result": "waiting for the laboratory",
    "hold": "on hold",
}
_WORST_FIRST = tuple(_STOPPED)


@dataclass(frozen=True, slots=True)
class LotFacts:
    """One lot as an act sees it on a given day."""

    id: int
    code: str
    kind: str
    product: str
    side: str
    name: str
    species: str
    grams_left: int
    grams_in: int
    grams_made: int
    unaccounted: int
    status: str
    place: str
    use_by: date | None
    date_rule: str
    pack_state: str
    first_packed_on: date | None
    first_frozen_on: date | None
    thawed_on: date | None
    state: LotState
    stops: tuple[Stop, ...]  # worst first
    made_at: str  # UTC text

    @property
    def is_cooked(self) -> bool:
        """Left over from a dish, however it is packed since: such a mix has no product of its own."""
        return self.kind == LotKind.MIX and not self.product

    @property
    def is_frozen(self) -> bool:
        return self.pack_state == "frozen"

    @property
    def made_on(self) -> date:
        return wall_day(instant(self.made_at))

    @property
    def why(self) -> str:
        """Why it is stopped or past its date, in a sentence; '' when nothing speaks against it."""
        if self.stops:
            stop = self.stops[0]
            where = "" if stop.held_lot == self.id else f" through {code_of(stop.held_lot)}"
            return f"{self.code} is {_STOPPED[stop.sort]}{where}: {stop.reason}".rstrip(": ")
        if self.state is LotState.OUT_OF_DATE and self.use_by:
            words = "best by" if self.is_frozen else "use by"
            return f"{self.code} is past its date: {words} {day_text(self.use_by)}"
        return ""


def lot_facts(connection: Connection, code: str, day: date) -> LotFacts:
    """The lot behind a scanned or typed code. Refuses a wrong check character and a number not given out."""
    return facts_of(connection, lot_id_of(code), day)


def facts_of(connection: Connection, lot: int, day: date) -> LotFacts:
    row = look_lots.lot_row(connection, lot)
    if row is None:
        raise Refusal(
            f"There is no {code_of(lot)} in this register.",
            "Check the label, or search for it in Trace.",
            "code",
        )
    return facts_from(row, look_lots.stops_on(connection, [lot]).get(lot, ()), day)


def facts_from(row: Any, stops: Sequence[Stop], day: date) -> LotFacts:
    """The same from a row already read."""
    use_by = _day(row.use_by)
    state = state_of(
        kind=row.kind,
        grams_left=row.grams_left,
        stops={stop.sort for stop in stops},
        is_past_date=use_by is not None and use_by < day,
    )
    return LotFacts(
        id=row.id,
        code=code_of(row.id),
        kind=row.kind,
        product=row.product,
        side=row.side,
        name=row.name,
        species=row.species,
        grams_left=row.grams_left,
        grams_in=row.grams_in,
        grams_made=row.grams_made,
        unaccounted=row.unaccounted,
        status=row.status,
        place=row.place,
        use_by=use_by,
        date_rule=row.date_rule,
        pack_state=row.pack_state,
        first_packed_on=_day(row.first_packed_on) or _made_on(row, row.kind == LotKind.PACK),
        first_frozen_on=_day(row.first_frozen_on) or _made_on(row, row.pack_state == "frozen"),
        thawed_on=_day(row.thawed_on),
        state=state,
        made_at=row.made_at,
        stops=tuple(sorted(stops, key=lambda stop: _WORST_FIRST.index(stop.sort))),
    )


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def _made_on(row: Any, was_done_then: bool) -> date | None:
    """For entries older than the days they keep now: what was packed or frozen was so when it was made."""
    return wall_day(instant(row.made_at)) if was_done_then else None


def refuse_for_plate(lot: LotFacts, grams: int | None = None) -> None:
    """The last gate: raises the Refusal that says why this lot may not go into a dish or a mix."""
    if lot.stops or lot.state is LotState.OUT_OF_DATE:
        raise Refusal(f"{lot.why}.", "It cannot go to a plate. Take another, or ask the tutor.", "code")
    if lot.kind not in MEAT_KINDS or lot.kind == LotKind.CARCASS:
        raise Refusal(
            f"{lot.code} is {_a(lot.kind)}, not meat for a plate.", "Scan a pack, a part or a mix.", "code"
        )
    if lot.grams_left == 0:
        raise Refusal(f"{lot.code} is used up.", "Check which pack is in your hand.", "code")
    if lot.is_frozen:
        raise Refusal(
            f"{lot.code} is still frozen.",
            "Thaw it first, so that the day and the way are kept; cooking it from frozen is one of the ways.",
            "code",
        )
    refuse_too_much(lot, grams)


def refuse_too_much(lot: LotFacts, grams: int | None) -> None:
    if grams is None:
        return
    if grams <= 0:
        raise Refusal("A weight is more than nothing.", "Weigh it and type the kilograms.", "grams")
    if grams > lot.grams_left:
        raise Refusal(
            f"{lot.code} has {kg_to_the_gram(lot.grams_left)} left; {kg_to_the_gram(grams)} cannot "
            "come out of it.",
            "Check the weight, or correct the weight it was written with.",
            "grams",
        )


def refuse_for_block(lot: LotFacts) -> None:
    """Whether a lot may be cut at all. A specimen may: everything made of it stays a specimen."""
    if any(stop.sort != StopSort.SPECIMEN for stop in lot.stops):
        raise Refusal(f"{lot.why}.", "It cannot be cut until that is settled.", "code")
    if lot.kind not in MEAT_KINDS:
        raise Refusal(f"{lot.code} is {_a(lot.kind)}; it is not cut.", "Choose meat.", "code")
    if lot.grams_left == 0:
        raise Refusal(f"Nothing is left of {lot.code}.", "Choose another.", "code")
    refuse_cooked(lot)


def refuse_cooked(lot: LotFacts) -> None:
    """What was left over from a dish is no raw meat again: it is not cut, minced or packed as such."""
    if lot.is_cooked:
        raise Refusal(
            f"{lot.code} is cooked: {lot.name}.", "It goes into a dish at the pass, or to waste.", "code"
        )


def _a(kind: str) -> str:
    words = {
        "drying": "weight lost by drying",
        "waste": "waste",
        "returned": "gone back",
        "issued": "issued already",
        "supplied": "supplied to another business",
        "struck": "an entry that was struck",
    }
    return words.get(kind, f"a {kind}")
