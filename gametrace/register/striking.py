"""Strikes an entry that was written by mistake, where nothing later rests on it.

The entry stays in the journal and in the story for ever; a later one says that it does not count, who says so
and why. What it took flows back to the gram; numbers it gave out are never given out again. Where something
rests on it the list of that is the refusal: the last of it is struck first. What was written with wrong
figures, and not by mistake altogether, is put right by `correct_weight` and `amend_carcass`. How each kind is
undone is `undoing`, why the others stay `staying`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.register.assembling import Assembler
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.pins import refuse_one_person
from gametrace.register.places import check_free_place
from gametrace.register.records import Changes, StoryLine
from gametrace.register.roles import MAY, who_may
from gametrace.register.staying import STAYS
from gametrace.register.stories import lines
from gametrace.register.undoing import UNDO, Undoing, undoing_of
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import journal, look_carcasses, look_lots, look_strikes, rows

# What has read the grams of a lot as they then were: it stands or falls with them.
_READ_THE_GRAMS = frozenset({"lot.closed", "lot.weighed", "carcass.dressed", "weight.corrected"})
# What says nothing of the meat itself: paper already printed is torn up by hand, words go with their lot.
_RESTS_ON_NOTHING = frozenset({"labels.printed", "findings.answered", "dish.menu", "dish.priced"})
_MADE_OF_IT = frozenset({"lot.divided", "lots.joined", "lots.issued", "lots.supplied", "dish.changed"})
_WHERE_IT_LAY = frozenset({"lot.moved", "lot.frozen", "lot.thawed", "lot.repacked", "store.failed"})
_OF_ITS_DATE = _WHERE_IT_LAY | _MADE_OF_IT | {"date.overridden"}
_LIFTED = frozenset({"hold.released", "set.released"})
MOST_OFFERED = 200


# What rests on something other than the lots an entry made; of kinds not named, what read the grams.
_WHAT_RESTS: dict[str, frozenset[str]] = {
    **dict.fromkeys(UNDO, frozenset[str]()),
    **dict.fromkeys(
        (
            "delivery.received", "lot.divided", "lots.joined", "lots.issued", "lots.supplied", "lot.weighed",
            "lot.closed", "dish.left-over",
        ),
        _READ_THE_GRAMS,
    ),
    "lot.moved": _WHERE_IT_LAY,
    **dict.fromkeys(("lot.frozen", "lot.thawed", "lot.repacked", "date.overridden"), _OF_ITS_DATE),
    "carcass.dressed": _READ_THE_GRAMS
    | _MADE_OF_IT
    | {"carcass.examined", "carcass.decided", "session.laid"},
    "carcass.examined": frozenset({"carcass.examined"}),
    "session.laid": frozenset({"session.laid", "lot.divided", "lot.closed"}),
    "claim.raised": frozenset({"claim.settled"}),
    "claim.settled": frozenset({"claim.settled"}),
    "kitchen.recorded": frozenset({"dish.left-over"}),
}  # fmt: skip
# Of several such entries only those about the same thing.
_THE_SAME = {
    "carcass.examined": "stage", "session.laid": "session", "claim.raised": "claim", "claim.settled": "claim",
}  # fmt: skip


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
        if kind in STAYS:
            raise Refusal("An entry of this sort is not struck.", STAYS[kind], "seq")
        _refuse_whose_act_it_is_not(work, kind, by)
        (entry,) = journal.entries(work.connection, [seq])
        undoing = undoing_of(work, entry)
        _refuse_what_rests(work, entry, undoing)
        if undoing.holds or undoing.is_stop:
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
            **({} if undoing.was is None else {"was": undoing.was}),
        }
        return Plan(body, codes=tuple(code_of(lot) for lot in body["tells"]))

    return perform(register, "entry.struck", decide, by=by, happened_at=happened_at, key=key)


def strikable(register: Register, code: str) -> tuple[StoryLine, ...]:
    """What may be struck in the story of a lot if nothing rests on it by then, the newest first."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today()).id
        found = [row.seq for row in look_strikes.story_of(connection, lot) if row.kind in UNDO]
        return lines(Assembler(connection, register.today()), found)


def strikable_of(register: Register, kinds: Sequence[str]) -> tuple[StoryLine, ...]:
    """What may be struck of these kinds in the whole house, the newest first, at most MOST_OFFERED."""
    with register.store.reading() as connection:
        found = look_strikes.newest_of(connection, [kind for kind in kinds if kind in UNDO], MOST_OFFERED)
        return lines(Assembler(connection, register.today()), found)


def _refuse_whose_act_it_is_not(work: Work, kind: str, by: str) -> None:
    """Striking must be no way round who may write a kind: a tutor's date stays a tutor's."""
    writer = rows.writer(work.connection, by)
    if writer is not None and writer.role not in MAY[kind]:
        raise Refusal(
            f"A {writer.role} may not write this, so may not strike it.",
            f"Ask a {' or '.join(who_may(kind))} to do it under their own name.",
            "by",
        )


def _refuse_what_rests(work: Work, entry: journal.Entry, undoing: Undoing) -> None:
    later = _what_rests(work, entry, undoing)
    if not later:
        return
    told = lines(Assembler(work.connection, work.day), later)
    listed = "; ".join(line.sentence.rstrip(".") for line in told[:5])
    more = f"; and {len(told) - 5} more" if len(told) > 5 else ""
    raise Refusal(
        f"This rests on it: {listed}{more}.",
        "Strike the last of these first, or put the figures right.",
        "seq",
    )


def _what_rests(work: Work, entry: journal.Entry, undoing: Undoing) -> list[int]:
    """The later entries that rest on what it made, or on what it changed of something else."""
    made, on_others = set(undoing.made), _WHAT_RESTS[entry.kind]
    if any(_is_lifted(work, hold) for hold in undoing.holds):
        on_others |= _LIFTED
    lots = look_strikes.lots_of(work.connection, entry.seq)
    later = {
        row.seq
        for row in look_strikes.entries_after(work.connection, lots, entry.seq)
        if row.kind in on_others or (row.lot_id in made and row.kind not in _RESTS_ON_NOTHING)
    } - undoing.along
    if (same := _THE_SAME.get(entry.kind)) is None:
        return sorted(later)
    found = journal.entries(work.connection, sorted(later))
    return [one.seq for one in found if one.body.get(same, "") in ("", entry.body[same])]


def _is_lifted(work: Work, hold: int) -> bool:
    row = look_carcasses.hold_row(work.connection, hold)
    return row is not None and row.released_at is not None


def _refuse_alone(work: Work, entry: journal.Entry, undoing: Undoing, by: str) -> None:
    """Striking must be no way round the second person who lifts a stop."""
    if not undoing.is_stop and all(_is_lifted(work, hold) for hold in undoing.holds):
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
