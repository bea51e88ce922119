"""What striking an entry undoes, kind by kind. Why every other kind stays as it is: `staying`.

What an entry made is nothing from then on, what it took flows back, and what it replaced stands again as the
entries before it left it. `Undoing.was` says the last in the new entry's own words, for the projector
decides nothing (`store.projection.strikes` reads it by the same kinds).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from gametrace.domain.boar import AWAITED, boar_findings
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.species import species as species_called
from gametrace.register.clock import instant_text
from gametrace.register.work import Work
from gametrace.store import journal, look_carcasses, look_lots, look_strikes
from gametrace.store.journal import Entry

# What only puts right what an entry made goes with it, and with it whatever hold that brought.
_GOES_ALONG = frozenset({"carcass.amended", "weight.corrected", "dish.changed"})


@dataclass(slots=True)
class Undoing:
    """What striking one entry does, as the new entry will say it."""

    made: list[int] = field(default_factory=list)  # lots that were never there
    given: list[tuple[int, int, int]] = field(default_factory=list)  # lot, grams back to left, to unaccounted
    holds: list[int] = field(default_factory=list)
    places: list[tuple[int, str]] = field(default_factory=list)
    labels: dict[str, Any] = field(default_factory=lambda: {"lots": [], "sort": ""})
    was: dict[str, Any] | None = None  # what stands again
    is_stop: bool = False  # it stops something without a hold, so a second person strikes it too
    along: set[int] = field(default_factory=set)  # later entries that go with it


def undoing_of(work: Work, entry: Entry) -> Undoing:
    """What striking this entry does, with all that was only put right in what it made."""
    undoing = UNDO[entry.kind](work, entry)
    later = look_strikes.entries_after(work.connection, undoing.made, entry.seq)
    seqs = sorted({row.seq for row in later if row.kind in _GOES_ALONG})
    for one in journal.entries(work.connection, seqs):
        if one.body["lot"] not in undoing.made:
            continue
        undoing.along.add(one.seq)
        undoing.holds += [hold["hold"] for hold in one.body.get("holds", ())]
        if one.kind == "weight.corrected" and one.body["parent"] is not None:
            undoing.given.append(_given_by_correction(one.body, is_read=entry.kind == "lots.joined"))
    return undoing


def _given_by_correction(body: dict[str, Any], *, is_read: bool) -> tuple[int, int, int]:
    """What a corrected weight took from the lot above goes back to where it was taken from.

    `is_read`: the grams that go back were read as they are now, so they hold the correction already.
    """
    by = body["grams"] - body["was"]
    left, aside = (0, by) if body["parent_is_closed"] else (by, 0)
    return body["parent"], left - by if is_read else left, aside


def _before(work: Work, entry: Entry, *kinds: str) -> Iterator[Entry]:
    """What stands in the story of the entry's lot before it, of these kinds, the newest first."""
    found = look_strikes.story_of(work.connection, entry.body["lot"])
    seqs = [row.seq for row in found if row.seq < entry.seq and row.kind in kinds]
    return reversed(list(journal.entries(work.connection, sorted(seqs))))


# -- meat ------------------------------------------------------------------------------------------------


def _received(_work: Work, entry: Entry) -> Undoing:
    return Undoing([entry.body["lot"]], holds=[hold["hold"] for hold in entry.body["holds"]])


def _divided(_work: Work, entry: Entry) -> Undoing:
    body = entry.body
    total = sum(output["grams"] for output in body["outputs"])
    back = (body["lot"], total - body["over"], body["over"])
    return Undoing([output["lot"] for output in body["outputs"]], [back])


def _joined(work: Work, entry: Entry) -> Undoing:
    """Back goes what is in it now: what went in may have been put right since."""
    lot = entry.body["output"]["lot"]
    return Undoing([lot], [(one, grams, 0) for one, grams in look_lots.parents_of(work.connection, lot)])


def _gone(_work: Work, entry: Entry) -> Undoing:
    outputs = entry.body["outputs"]
    back: dict[int, int] = {}
    for output in outputs:
        back[output["parent"]] = back.get(output["parent"], 0) + output["grams"]
    return Undoing([output["lot"] for output in outputs], [(lot, grams, 0) for lot, grams in back.items()])


def _left_over(_work: Work, entry: Entry) -> Undoing:
    output = entry.body["output"]
    return Undoing([output["lot"]], [(entry.body["lot"], output["grams"], 0)])


def _weighed(_work: Work, entry: Entry) -> Undoing:
    body, drying = entry.body, entry.body["drying"]
    return Undoing([drying["lot"]] if drying else [], [(body["lot"], drying["grams"] if drying else 0, 0)])


def _closed(_work: Work, entry: Entry) -> Undoing:
    body = entry.body
    return Undoing(given=[(body["lot"], body["unaccounted"], -body["unaccounted"])])


def _moved(_work: Work, entry: Entry) -> Undoing:
    return Undoing(places=[(entry.body["lot"], entry.body["was"])])


def _kept(_work: Work, entry: Entry) -> Undoing:
    """Its date, packing and freezing day as they were, and where it lay."""
    lot, was = entry.body["lot"], dict(entry.body["was"])
    place = was.pop("place")
    return Undoing(places=[(lot, place)], was={"lot": lot, "kept": was})


def _dressed(work: Work, entry: Entry) -> Undoing:
    body = entry.body
    lot, outputs, missing = body["lot"], body["outputs"], body["unaccounted"]
    back = sum(output["grams"] for output in outputs) + missing
    (row,) = look_carcasses.carcass_rows(work.connection, [lot])
    was = {"basis": row.received_basis, "number_on": row.tag, "dressed_at": None}
    if (before := next(_before(work, entry, entry.kind), None)) is not None:
        was = {name: before.body[name] for name in ("basis", "number_on")}
        was |= {"dressed_at": before.happened_at}
    return Undoing(
        [output["lot"] for output in outputs], [(lot, back, -missing)], was={"lot": lot, "animal": was}
    )


def _laid(work: Work, entry: Entry) -> Undoing:
    body, before = entry.body, None
    for one in _before(work, entry, entry.kind):
        if one.body["session"] == body["session"]:
            before = {"station": one.body["station"], "seq": one.seq, "reason": one.body["reason"]}
            break
    return Undoing(was={"lot": body["lot"], "session": body["session"], "laid": before})


def _labelled(_work: Work, entry: Entry) -> Undoing:
    return Undoing(labels={"lots": entry.body["lots"], "sort": entry.body["sort"]})


# -- what stops, and what is learnt of an animal ---------------------------------------------------------


def _held(_work: Work, entry: Entry) -> Undoing:
    return Undoing(holds=[entry.body["hold"]])


def _holds(_work: Work, entry: Entry) -> Undoing:
    return Undoing(holds=[hold["hold"] for hold in entry.body["holds"]])


def _examined(work: Work, entry: Entry) -> Undoing:
    """The card of that stage as the looks before left it, with the reasons given since."""
    body = entry.body
    lot, stage = body["lot"], body["stage"]
    before = [one for one in _before(work, entry, entry.kind) if one.body["stage"] == stage]
    looks: dict[str, dict[str, Any]] = {}
    for one in reversed(before):
        looks |= {look["point"]: {**look, "seq": one.seq} for look in one.body["looks"]}
    marks: list[Any] = next((one.body["marks"] for one in before if one.body["marks"] is not None), [])
    rows = look_carcasses.findings_of(work.connection, [lot]).get(lot, ())
    given = {row.sentence: row.reason for row in rows}
    findings = [
        {**finding, "reason": given.get(finding["sentence"], finding["reason"])}
        for finding in (before[0].body["findings"] if before else ())
    ]
    was = {"lot": lot, "stage": stage, "looks": list(looks.values()), "marks": marks, "findings": findings}
    return Undoing(holds=[hold["hold"] for hold in body["holds"]], was=was)


def _laboratory(work: Work, entry: Entry) -> Undoing:
    """The boar waits again: what the answer lifted stands again, and so does the question."""
    body = entry.body
    lot = body["lot"]
    rows = look_carcasses.findings_of(work.connection, [lot]).get(lot, ())
    findings = [
        {**Finding.from_dict(dict(row._mapping)).to_dict(), "reason": row.reason}
        for row in rows
        if row.rests_on == "delivery" and not row.code.startswith("boar-result-")
    ]
    (animal,) = look_carcasses.carcass_rows(work.connection, [lot])
    if species_called(animal.species).group == "boar":
        findings.insert(0, {**boar_findings(AWAITED, "")[0].to_dict(), "reason": ""})
    was = {"lot": lot, "stand": body["lifted"], "findings": findings}
    return Undoing(holds=[hold["hold"] for hold in body["holds"]], was=was)


def _claimed(_work: Work, entry: Entry) -> Undoing:
    return Undoing(was={"claim": entry.body["claim"], "settled": {"status": "struck"}})


def _settled(work: Work, entry: Entry) -> Undoing:
    settled: dict[str, Any] = {"status": "raised"}
    for one in _before(work, entry, entry.kind):
        if one.body["claim"] == entry.body["claim"]:
            settled = {name: one.body[name] for name in ("status", "pence", "note")}
            settled |= {"at": one.happened_at}
            break
    return Undoing(was={"claim": entry.body["claim"], "settled": settled})


def _arrived(_work: Work, entry: Entry) -> Undoing:
    return Undoing(was={name: entry.body[name] for name in ("lot", "expected", "bodies")})


def _only_its_own(_work: Work, _entry: Entry) -> Undoing:
    """It replaced nothing: what it wrote down is gone, and that is all."""
    return Undoing()


def _heated(_work: Work, entry: Entry) -> Undoing:
    """A record that keeps a dish from going out is a stop, though no hold."""
    findings = entry.body["findings"]
    is_stop = not entry.body["note"] and any(one["severity"] == Severity.STOP for one in findings)
    return Undoing(is_stop=is_stop)


# -- the cold stores -------------------------------------------------------------------------------------


def _probed(work: Work, entry: Entry) -> Undoing:
    probe = entry.body["probe"]
    seqs = look_strikes.others_of(work.connection, entry.kind, entry.seq)
    checks = [one for one in journal.entries(work.connection, seqs) if one.body["probe"] == probe]
    last: dict[str, Any] = {"checked_at": None, "ice_tenths_c": None, "boiling_tenths_c": None}
    if checks:
        newest = max(checks, key=lambda one: (one.happened_at, one.seq))
        last = {name: newest.body[name] for name in ("ice_tenths_c", "boiling_tenths_c")}
        last |= {"checked_at": newest.happened_at}
    return Undoing(was={"probe": probe, "checked": last})


def _read_by_hand(work: Work, entry: Entry) -> Undoing:
    stores = [one["store"] for one in entry.body["readings"]]
    return Undoing(was={"again": _read_before(work, entry, stores, entry.body["at"], entry.body["at"])})


def _read_by_logger(work: Work, entry: Entry) -> Undoing:
    body = entry.body
    again = _read_before(work, entry, [body["store"]], body["first_at"], body["last_at"])
    return Undoing(was={"again": again})


def _read_before(work: Work, entry: Entry, stores: list[str], first: int, last: int) -> list[dict[str, Any]]:
    """Earlier readings of these stores in that time, some of which the entry may have replaced."""
    span = [instant_text(datetime.fromtimestamp(at, UTC)) for at in (first, last)]
    rounds = look_strikes.others_of(work.connection, "round.taken", entry.seq, span=(span[0], span[1]))
    again: list[dict[str, Any]] = []
    for one in journal.entries(work.connection, [seq for seq in rounds if seq < entry.seq]):
        readings = [[r["store"], one.body["at"], r["tenths_c"]] for r in one.body["readings"]]
        again.append({"seq": one.seq, "readings": [r for r in readings if r[0] in stores]})
    files = look_strikes.others_of(work.connection, "readings.imported", entry.seq)
    for one in journal.entries(work.connection, [seq for seq in files if seq < entry.seq]):
        told = one.body
        if told["store"] in stores and told["first_at"] <= last and told["last_at"] >= first:
            again.append({"seq": one.seq, "store": told["store"], "hash": told["hash"]})
    return sorted((one for one in again if one.get("readings", True)), key=_seq)


def _seq(one: dict[str, Any]) -> int:
    return int(one["seq"])


UNDO: dict[str, Callable[[Work, Entry], Undoing]] = {
    "delivery.received": _received,
    "carcass.dressed": _dressed,
    "lot.divided": _divided,
    "lots.joined": _joined,
    "lots.issued": _gone,
    "lots.supplied": _gone,
    "lot.weighed": _weighed,
    "lot.closed": _closed,
    "lot.moved": _moved,
    "lot.frozen": _kept,
    "lot.thawed": _kept,
    "lot.repacked": _kept,
    "date.overridden": _kept,
    "session.laid": _laid,
    "labels.printed": _labelled,
    "hold.placed": _held,
    "set.held": _holds,
    "store.failed": _holds,
    "carcass.examined": _examined,
    "carcass.decided": _holds,
    "laboratory.answered": _laboratory,
    "call.recorded": _only_its_own,
    "picture.attached": _only_its_own,
    "claim.raised": _claimed,
    "claim.settled": _settled,
    "expected.arrived": _arrived,
    "bag.decided": _only_its_own,
    "kitchen.recorded": _heated,
    "dish.ingredients": _only_its_own,
    "dish.served": _only_its_own,
    "dish.left-over": _left_over,
    "probe.checked": _probed,
    "round.taken": _read_by_hand,
    "readings.imported": _read_by_logger,
    "excursion.answered": _only_its_own,
    "by-products.collected": _only_its_own,
}
