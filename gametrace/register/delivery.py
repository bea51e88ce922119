"""Acts at the door: receive a carcass or a batch, fill in what was missing, put right what was wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.deliveries import Decision, Delivery
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import LotKind, StopSort
from gametrace.facts.species import species as species_called
from gametrace.register.clock import wall_day
from gametrace.register.delivery_text import animal_columns, delivery_from, shown
from gametrace.register.door_checks import checked
from gametrace.register.hanging import asked_of_hanging
from gametrace.register.judging import judge
from gametrace.register.naming import animal_name
from gametrace.register.opening import Register
from gametrace.register.places import check_free_place
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_setup, rows

_STOP_OF = {
    Decision.HOLD: StopSort.HOLD,
    Decision.SPECIMEN: StopSort.SPECIMEN,
    Decision.REJECT: StopSort.REJECTED,
}
_AWAITED = "boar-result-awaited"
_SORT_OF = {_AWAITED: StopSort.RESULT, "unknown-origin": StopSort.SPECIMEN}
_ORDER = (StopSort.SPECIMEN, StopSort.RESULT, StopSort.HOLD)
# What a correction may touch. Weight and place have acts of their own; the decision is never rewritten.
AMENDABLE = frozenset(
    {
        "supplier",
        "species",
        "sex",
        "age_class",
        "origin",
        "route",
        "tag",
        "count",
        "basis",
        "killed_on",
        "kill_time",
        "kill_place",
        "has_declaration",
        "declaration_number",
        "no_abnormal_characteristics",
        "no_abnormal_behaviour",
        "no_contamination",
        "trained_person",
        "certificate_number",
        "approval_number",
        "inspection_notes",
        "readings",
        "supplier_grams",
        "pence_per_kg",
        "dispatched_on",
        "exception_type",
        "exception_number",
        "latitude_millionths",
        "longitude_millionths",
        "ammunition",
        "probe",
    }
)


def preview_delivery(register: Register, delivery: Delivery) -> tuple[Finding, ...]:
    """The findings a half-filled delivery would bring, for the column beside the form. Writes nothing."""
    with register.store.reading() as connection:
        settings = rows.settings(connection)
        return judge(
            connection,
            delivery,
            jurisdiction=settings.get("jurisdiction", "england-wales"),
            received_on=wall_day(delivery.received_at or register.clock()),
        )


def receive_delivery(
    register: Register, *, by: str, delivery: Delivery, copied_from: str = "", key: str | None = None
) -> Changes:
    """Take in one body or batch. Changes.code is its house number; a stop finding lands it on hold.

    `copied_from` names the old paper or list this was copied from; it is sealed with the entry.

    Refuses what cannot be (a kill to come, no weight, an unknown supplier, a hook that is taken) and a
    decision other than acceptance without a reason. What is merely missing can be finished later.
    """
    wanted = checked(delivery, register.clock())

    def decide(work: Work) -> Plan:
        if look_setup.supplier_row(work.connection, wanted.supplier) is None:
            raise Refusal("Choose the supplier first.", "A new one is added under Set-up.", "supplier")
        if wanted.place:
            check_free_place(work.connection, wanted.place)
        jurisdiction = jurisdiction_of(work)
        found = judge(work.connection, wanted, jurisdiction=jurisdiction, received_on=work.day)
        lot = work.new_lot()
        hunter = rows.hunter(work.connection, wanted.trained_person)
        body = {
            "lot": lot,
            "kind": LotKind.BATCH if _is_batch(wanted) else LotKind.CARCASS,
            "product": "",
            "side": "",
            "note": "",
            "use_by": None,
            "date_rule": "",
            "pack_state": "",
            "name": animal_name(wanted),
            "species": wanted.species,
            "grams": wanted.grams,
            "grams_in": wanted.grams,
            "place": wanted.place,
            "hunter": hunter,
            "animal": animal_columns(wanted, work.happened_at, hunter["code"] if hunter else ""),
            "readings": [list(reading) for reading in wanted.readings],
            "findings": [
                {**finding.to_dict(), "reason": wanted.reasons.get(finding.code, "")} for finding in found
            ],
            "holds": _holds(work, wanted, found),
        }
        if copied_from:
            body["copied_from"] = clean(copied_from, "copied_from", most=500)
        return Plan(body, created=(code_of(lot),), findings=found)

    return perform(register, "delivery.received", decide, by=by, happened_at=wanted.received_at, key=key)


def jurisdiction_of(work: Work) -> str:
    """Whose law the door rules by; refuses while the larder has not said."""
    jurisdiction = rows.settings(work.connection).get("jurisdiction")
    if not jurisdiction:
        raise Refusal(
            "The register does not know yet which country's seasons and limits to rule by.",
            "Give the larder's name and jurisdiction under Set-up.",
            "jurisdiction",
        )
    return jurisdiction


def _holds(work: Work, delivery: Delivery, found: tuple[Finding, ...]) -> list[dict[str, Any]]:
    """What stops this body: the decision at the door, or the stop findings where it was accepted.

    A boar that is kept for whatever use waits for its result besides: the decision's own hold can be lifted.
    """
    stops = [finding for finding in found if finding.severity is Severity.STOP]
    if sort := _STOP_OF.get(delivery.decision):
        waits = [] if delivery.decision is Decision.REJECT else [s for s in stops if s.code == _AWAITED]
        return [work.new_hold(sort, delivery.decision_reason), *holds_for(work, waits)]
    return holds_for(work, stops)


def holds_for(work: Work, stops: Sequence[Finding]) -> list[dict[str, Any]]:
    """The holds that stop findings bring, each sort under its own.

    The wait for a laboratory is lifted by its answer alone; what nobody can answer for is a specimen for
    ever; any other can be looked at and lifted.
    """
    said: dict[StopSort, list[str]] = {}
    for stop in stops:
        said.setdefault(_SORT_OF.get(stop.code, StopSort.HOLD), []).append(stop.sentence)
    return [work.new_hold(sort, " ".join(said[sort])) for sort in _ORDER if sort in said]


def _is_batch(delivery: Delivery) -> bool:
    return delivery.count > 1 or species_called(delivery.species).group == "small"


def amend_carcass(
    register: Register,
    *,
    by: str,
    code: str,
    changes: dict[str, Any],
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Fill blanks of a delivery, or put right what was written wrong, and have everything ruled on again.

    `changes` maps fields of Delivery to their new typed values. A value that was given before is changed
    only with a reason; the old one stays on view. New stop findings bring a hold; old holds stay until a
    person lifts them.
    """
    lot = lot_id_of(code)
    unknown = set(changes) - AMENDABLE
    if unknown:
        raise Refusal(f"{', '.join(sorted(unknown))} cannot be changed here.", "", sorted(unknown)[0])
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        old = delivery_from(work.connection, lot)
        if old is None:
            raise Refusal(f"{code} is not an animal in this register.", "Check the number.", "code")
        new = checked(replace(old, **changes), work.written_at, is_new=False)
        if look_setup.supplier_row(work.connection, new.supplier) is None:
            raise Refusal("There is no such supplier.", "Choose one from the list.", "supplier")
        changed = [
            {"field": name, "old": shown(getattr(old, name)), "new": shown(getattr(new, name))}
            for name in sorted(changes)
            if getattr(old, name) != getattr(new, name)
        ]
        if not changed:
            raise Refusal("Nothing is different.", "Change a value first.", "changes")
        if any(change["old"] for change in changed) and not why:
            raise Refusal("Changing what was written needs a reason.", "Say what was wrong.", "reason")
        jurisdiction = jurisdiction_of(work)
        received_on = wall_day(old.received_at or work.written_at)
        found = judge(work.connection, new, jurisdiction=jurisdiction, received_on=received_on, own_lot=lot)
        # The sentence, not the code: the same rule broken in another way is a new reason to stop.
        before = {row.sentence for row in look_carcasses.findings_of(work.connection, [lot]).get(lot, ())}
        stops = [f for f in found if f.severity is Severity.STOP and f.sentence not in before]
        hunter = rows.hunter(work.connection, new.trained_person)
        columns = animal_columns(new, old.received_at or work.happened_at, hunter["code"] if hunter else "")
        kept = {"grams_received", "decision", "decision_reason", "dressed_at"}
        if look_carcasses.is_dressed(work.connection, lot):
            kept |= {"number_on", "basis"}  # by then the number hangs on the new tag, and more has come off
        body = {
            "lot": lot,
            "changes": changed,
            "reason": why,
            "kind": LotKind.BATCH if _is_batch(new) else LotKind.CARCASS,
            "name": animal_name(new),
            "species": new.species,
            "hunter": hunter,
            "columns": {name: value for name, value in columns.items() if name not in kept},
            "readings": [list(r) for r in new.readings] if new.readings != old.readings else None,
            "findings": [{**f.to_dict(), "reason": new.reasons.get(f.code, "")} for f in found],
            "holds": holds_for(work, stops),
        }
        return Plan(body, codes=(code_of(lot),), findings=found)

    return perform(register, "carcass.amended", decide, by=by, happened_at=happened_at, key=key)


def judged_again(
    work: Work, lot: int, grams: int
) -> tuple[list[dict[str, str]] | None, list[dict[str, Any]]]:
    """The findings and new holds of an animal whose weight was put right; None for what is no animal."""
    old = delivery_from(work.connection, lot)
    if old is None:
        return None, []
    new = replace(old, grams=grams)
    found = judge(
        work.connection,
        new,
        jurisdiction=jurisdiction_of(work),
        received_on=wall_day(old.received_at or work.written_at),
        own_lot=lot,
    )
    before = {row.sentence for row in look_carcasses.findings_of(work.connection, [lot]).get(lot, ())}
    stops = [f for f in found if f.severity is Severity.STOP and f.sentence not in before]
    return [{**f.to_dict(), "reason": old.reasons.get(f.code, "")} for f in found], holds_for(work, stops)


def answer_finding(
    register: Register, *, by: str, code: str, reasons: dict[str, str], key: str | None = None
) -> Changes:
    """Give the reasons that findings asked for, after the door has closed; over-long hanging asks one too."""
    lot = lot_id_of(code)
    given = {name: clean(why, "reasons", most=500) for name, why in reasons.items() if why.strip()}

    def decide(work: Work) -> Plan:
        known = look_carcasses.findings_of(work.connection, [lot]).get(lot, [])
        hung = [f for f in asked_of_hanging(work.connection, lot, work.day) if f.code in given]
        answered = dict.fromkeys([*(row.code for row in known if row.code in given), *(f.code for f in hung)])
        if not answered:
            raise Refusal("There is no such question on this animal.", "", "reasons")
        body: dict[str, Any] = {"lot": lot, "reasons": {name: given[name] for name in answered}}
        if hung:  # the question grows with the days, so it is written down with its answer
            body["asked"] = [{**f.to_dict(), "reason": given[f.code]} for f in hung]
        return Plan(body, codes=(code_of(lot),))

    return perform(register, "findings.answered", decide, by=by, key=key)
