"""Strikes an entry that was written by mistake, where nothing later rests on it.

The entry stays in the journal and in the story for ever; a later one says that it does not count, who says so
and why. What it took flows back to the gram; numbers it gave out are never given out again. Where something
rests on it the list of that is the refusal: the last of it is struck first. What was written with wrong
figures, and not by mistake altogether, is put right by `correct_weight` and `amend_carcass`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.register.assembling import Assembler
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.pins import refuse_one_person
from gametrace.register.places import check_free_place
from gametrace.register.records import Changes
from gametrace.register.stories import lines
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import journal, look_carcasses, look_lots, look_strikes

# What has read the grams of a lot as they then were: it stands or falls with them.
_READ_THE_GRAMS = frozenset({"lot.closed", "lot.weighed", "carcass.dressed", "weight.corrected"})
# What says nothing of the meat itself: paper already printed is torn up by hand.
_RESTS_ON_NOTHING = frozenset({"labels.printed"})


@dataclass(frozen=True, slots=True)
class Strikable:
    """An entry of a lot's story that may be struck, if nothing rests on it by then."""

    seq: int
    sentence: str


@dataclass(slots=True)
class Undoing:
    """What striking one entry does, as the new entry will say it."""

    made: list[int]  # lots that were never there
    given: list[tuple[int, int, int]]  # lot, grams that come back to what is left, to what is unaccounted
    holds: list[int]
    places: list[tuple[int, str]]
    labels: dict[str, Any]

    @property
    def touched(self) -> list[int]:
        return [lot for lot, _, _ in self.given]


def _undoing(
    made: list[int] | None = None,
    given: list[tuple[int, int, int]] | None = None,
    holds: list[int] | None = None,
) -> Undoing:
    return Undoing(made or [], given or [], holds or [], [], {"lots": [], "sort": ""})


def _received(body: dict[str, Any]) -> Undoing:
    return _undoing([body["lot"]], holds=[hold["hold"] for hold in body["holds"]])


def _divided(body: dict[str, Any]) -> Undoing:
    total = sum(output["grams"] for output in body["outputs"])
    back = (body["lot"], total - body["over"], body["over"])
    return _undoing([output["lot"] for output in body["outputs"]], [back])


def _joined(body: dict[str, Any]) -> Undoing:
    return _undoing([body["output"]["lot"]], [(lot, grams, 0) for lot, grams in body["inputs"]])


def _gone(body: dict[str, Any]) -> Undoing:
    outputs = body["outputs"]
    back: dict[int, int] = {}
    for output in outputs:
        back[output["parent"]] = back.get(output["parent"], 0) + output["grams"]
    return _undoing([output["lot"] for output in outputs], [(lot, grams, 0) for lot, grams in back.items()])


def _weighed(body: dict[str, Any]) -> Undoing:
    drying = body["drying"]
    return _undoing([drying["lot"]] if drying else [], [(body["lot"], drying["grams"] if drying else 0, 0)])


def _closed(body: dict[str, Any]) -> Undoing:
    return _undoing(given=[(body["lot"], body["unaccounted"], -body["unaccounted"])])


def _moved(body: dict[str, Any]) -> Undoing:
    undoing = _undoing()
    undoing.places = [(body["lot"], body["was"])]
    return undoing


def _held(body: dict[str, Any]) -> Undoing:
    return _undoing(holds=[body["hold"]])


def _labelled(body: dict[str, Any]) -> Undoing:
    undoing = _undoing()
    undoing.labels = {"lots": body["lots"], "sort": body["sort"]}
    return undoing


_UNDO: dict[str, Callable[[dict[str, Any]], Undoing]] = {
    "delivery.received": _received,
    "lot.divided": _divided,
    "lots.joined": _joined,
    "lots.issued": _gone,
    "lots.supplied": _gone,
    "lot.weighed": _weighed,
    "lot.closed": _closed,
    "lot.moved": _moved,
    "hold.placed": _held,
    "labels.printed": _labelled,
}
_WHAT_RESTS: dict[str, frozenset[str]] = {  # on something other than the lots an entry made
    "lot.moved": frozenset({"lot.moved", "lot.frozen", "lot.thawed", "lot.repacked", "store.failed"}),
    "hold.placed": frozenset({"hold.released"}),
    "labels.printed": frozenset(),
}


def strike_entry(
    register: Register,
    *,
    by: str,
    seq: int,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Strike the entry numbered `seq`. A stop is only struck as it is lifted: by a second person."""
    why = clean(reason, "reason", most=500, needed="Striking an entry needs a reason.")

    def decide(work: Work) -> Plan:
        kind = look_strikes.kind_of(work.connection, seq)
        if kind is None:
            raise Refusal(f"There is no entry {seq}.", "Choose it from the story of its lot.", "seq")
        if kind == "struck":
            raise Refusal("This entry has been struck already.", "", "seq")
        if kind not in _UNDO:
            raise Refusal(
                "An entry of this sort is not struck.", "Put right what is wrong in it by a new entry.", "seq"
            )
        (entry,) = journal.entries(work.connection, [seq])
        undoing = _UNDO[kind](entry.body)
        _refuse_what_rests(work, entry, undoing)
        if undoing.holds:
            _refuse_alone(work, entry, undoing, by)
        body: dict[str, Any] = {
            "seq": seq,
            "kind": kind,
            "reason": why,
            "lots": undoing.made,
            "back": [
                {"lot": lot, "left": left, "aside": aside, "status": _status(work, lot, seq)}
                for lot, left, aside in undoing.given
            ],
            "holds": undoing.holds,
            "places": [[lot, _place(work, lot, place)] for lot, place in undoing.places],
            "labels": undoing.labels,
            "tells": look_strikes.lots_of(work.connection, seq),
        }
        return Plan(body, codes=tuple(code_of(lot) for lot in body["tells"]))

    return perform(register, "entry.struck", decide, by=by, happened_at=happened_at, key=key)


def strikable(register: Register, code: str) -> tuple[Strikable, ...]:
    """What may be struck in the story of a lot, the newest first."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today()).id
        found = [row.seq for row in look_strikes.story_of(connection, lot) if row.kind in _UNDO]
        told = lines(Assembler(connection, register.today()), found)
        return tuple(Strikable(line.seq, line.sentence) for line in told)


def _refuse_what_rests(work: Work, entry: journal.Entry, undoing: Undoing) -> None:
    made = set(undoing.made)
    lots = look_strikes.lots_of(work.connection, entry.seq)
    on_others = _WHAT_RESTS.get(entry.kind, _READ_THE_GRAMS)
    later = [
        row.seq
        for row in look_strikes.entries_after(work.connection, lots, entry.seq)
        if row.kind not in _RESTS_ON_NOTHING and (row.lot_id in made or row.kind in on_others)
    ]
    if entry.kind == "hold.placed":
        hold = look_carcasses.hold_row(work.connection, undoing.holds[0])
        later = later if hold is not None and hold.released_at is not None else []
    if not later:
        return
    told = lines(Assembler(work.connection, work.day), sorted(set(later)))
    listed = "; ".join(line.sentence.rstrip(".") for line in told[:5])
    more = f"; and {len(told) - 5} more" if len(told) > 5 else ""
    raise Refusal(
        f"This rests on it: {listed}{more}.",
        "Strike the last of these first, or put the figures right.",
        "seq",
    )


def _refuse_alone(work: Work, entry: journal.Entry, undoing: Undoing, by: str) -> None:
    """Striking must be no way round the second person who lifts a stop."""
    stands = [look_carcasses.hold_row(work.connection, hold) for hold in undoing.holds]
    if all(hold is None or hold.released_at is not None for hold in stands):
        return
    if entry.by == by:
        raise Refusal(
            "You wrote this entry and it stops meat, so another person strikes it.",
            "Ask a colleague to look and decide.",
            "by",
        )
    refuse_one_person(work, entry.by, by)


def _status(work: Work, lot: int, seq: int) -> str:
    """How a lot stands once an entry does not count: open where another weighing-out has opened it."""
    for row in look_strikes.story_of(work.connection, lot):
        if row.kind == "lot.divided" and row.seq != seq:
            (entry,) = journal.entries(work.connection, [row.seq])
            if entry.body["lot"] == lot and entry.body["opens"]:
                return "open"
    return "whole"


def _place(work: Work, lot: int, place: str) -> str:
    """Where it was before, if that is still free. What is used up is nowhere, so nothing is asked."""
    row = look_lots.lot_row(work.connection, lot)
    assert row is not None
    return check_free_place(work.connection, place, lot=lot) if place and row.grams_left else place
