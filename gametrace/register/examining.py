"""Acts of looking: the examination in the order of the body, the telephone, pictures, the second decision."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Answered, Look, examination_findings, points_to_look_at
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import StopSort
from gametrace.facts.examination import point
from gametrace.register.delivery import jurisdiction_of
from gametrace.register.delivery_text import basis_from
from gametrace.register.lot_facts import LotFacts, lot_facts
from gametrace.register.opening import Register
from gametrace.register.pins import refuse_one_person
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import attachments, look_carcasses, look_door
from gametrace.store.engine import Connection

IN_SKIN, OUT_OF_SKIN = "in the skin", "out of the skin"
_FOR_EVER = (StopSort.LOCKED, StopSort.REJECTED, StopSort.SPECIMEN)
CALL_ABOUT = (
    "no_abnormal_characteristics",
    "no_abnormal_behaviour",
    "no_contamination",
    "kill_time",
    "kill_place",
    "killed_on",
    "notifiable",
    "other",
)
PICTURES_OF = ("declaration", "tag", "mark", "carcass", "wound", "certificate", "other")
MOST_PICTURE_BYTES = 6_000_000
_SIGNATURES = {b"\xff\xd8\xff": "image/jpeg", b"\x89PNG\r\n\x1a\n": "image/png", b"%PDF-": "application/pdf"}


@dataclass(frozen=True, slots=True)
class Mark:
    """Something seen at a place on the outline, in thousandths of its width and height from the top left."""

    x_thousandths: int
    y_thousandths: int
    what: str  # entry, exit, bruise, dirt, ...
    side: str = "left"


def animal_facts(work: Work, code: str) -> tuple[LotFacts, Any]:
    """The lot and its carcass row; refuses what is not an animal."""
    lot = work.lot(code)
    found = look_carcasses.carcass_rows(work.connection, [lot.id])
    if not found:
        raise Refusal(f"{lot.code} is not an animal.", "Choose a carcass.", "code")
    return lot, found[0]


def preview_examination(register: Register, *, code: str, answers: Sequence[Answered]) -> tuple[Finding, ...]:
    """What these answers would find, for the column beside the card. Writes nothing."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today())
        row = look_carcasses.carcass_rows(connection, [lot.id])[0]
        earlier = _looked_at_already(connection, row)
        return _findings(row, answers, register.larder.jurisdiction or "england-wales", earlier)


def _findings(
    row: Any, answers: Sequence[Answered], jurisdiction: str, earlier: Sequence[Answered] = ()
) -> tuple[Finding, ...]:
    """What these answers find together with those given before at other points of the same stage.

    What was looked at before was there then, whatever has been taken off since.
    """
    now_answered = {one.point for one in answers}
    kept = [one for one in earlier if one.point not in now_answered]
    there = {point(one.point).needs for one in kept if one.answer in (Look.AS_IT_SHOULD_BE, Look.NOT_SO)}
    basis = basis_from(row.basis)
    return examination_findings(
        [*kept, *answers],
        head_on=basis.head_on or "head" in there,
        pluck_in=basis.pluck_in or "pluck" in there,
        species=row.species,
        jurisdiction=jurisdiction,
        in_skin=basis.in_skin or "skin-on" in there,
        gut_in="gut" in there,
    )


def _stage(row: Any) -> str:
    return IN_SKIN if basis_from(row.basis).in_skin else OUT_OF_SKIN


def _looked_at_already(connection: Connection, row: Any) -> list[Answered]:
    looks = look_door.looks_of(connection, [row.lot_id]).get(row.lot_id, ())
    return [Answered(one.point, one.answer, one.note) for one in looks if one.stage == _stage(row)]


def examine_carcass(
    register: Register,
    *,
    by: str,
    code: str,
    answers: Sequence[Answered],
    marks: Sequence[Mark] | None = None,
    reasons: dict[str, str] | None = None,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Write down what was looked at. What is not there is 'not present', never 'as it should be'.

    An answer replaces the one given before at that point of that stage, the others stand; `marks`, where
    given, replace the drawing. A notifiable sign puts the animal on hold at once: keep everything, ring,
    dispose of nothing.
    """
    if not answers and not marks:
        raise Refusal("Nothing has been looked at yet.", "Answer a point first.", "answers")
    given = {name: clean(why, "reasons", most=500) for name, why in (reasons or {}).items()}

    def decide(work: Work) -> Plan:
        lot, row = animal_facts(work, code)
        known = {point.id for point in points_to_look_at(row.species)}
        if unknown := [one.point for one in answers if one.point not in known]:
            raise Refusal(f"{unknown[0]} is not looked at on this animal.", "", "answers")
        tidy = [Answered(a.point, a.answer, clean(a.note, "note", most=300)) for a in answers]
        if impossible := [
            f for f in _findings(row, tidy, jurisdiction_of(work)) if f.code == "cannot-have-been-looked-at"
        ]:
            raise Refusal(impossible[0].sentence, impossible[0].what_to_do, "answers")
        # The sentence, not the code: another node, or the same one worse, is a new reason to stop.
        found = _findings(row, tidy, jurisdiction_of(work), _looked_at_already(work.connection, row))
        known_findings = look_carcasses.findings_of(work.connection, [lot.id]).get(lot.id, ())
        before = {f.sentence: f.reason for f in known_findings}
        stops = [f.sentence for f in found if f.severity is Severity.STOP and f.sentence not in before]
        body = {
            "lot": lot.id,
            "stage": _stage(row),
            "looks": [{"point": a.point, "answer": str(a.answer), "note": a.note} for a in tidy],
            "marks": None if marks is None else [_mark(mark) for mark in marks],
            "findings": [
                {**f.to_dict(), "reason": given.get(f.code) or before.get(f.sentence, "")} for f in found
            ],
            "holds": [work.new_hold(StopSort.HOLD, " ".join(stops))] if stops else [],
        }
        return Plan(body, codes=(lot.code,), findings=found)

    return perform(register, "carcass.examined", decide, by=by, happened_at=happened_at, key=key)


def _mark(mark: Mark) -> dict[str, Any]:
    if not (0 <= mark.x_thousandths <= 1_000 and 0 <= mark.y_thousandths <= 1_000):
        raise Refusal("That mark lies beside the beast.", "Put it on the outline.", "marks")
    return {
        "x_thousandths": mark.x_thousandths,
        "y_thousandths": mark.y_thousandths,
        "side": mark.side,
        "what": clean(mark.what, "marks", most=80, needed="Say what was seen there."),
    }


def record_call(
    register: Register,
    *,
    by: str,
    code: str,
    about: str,
    answer: str,
    spoken_by: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A question put by telephone and the spoken answer: who gave it, who took it, when.

    The card keeps saying what it says; the spoken answer stands beside it.
    """
    if about not in CALL_ABOUT:
        raise Refusal("Say what the call was about.", "Choose one.", "about")
    said = clean(answer, "answer", most=500, needed="Write down what was said.")
    speaker = clean(spoken_by, "spoken_by", most=120, needed="Write down who said it.")

    def decide(work: Work) -> Plan:
        lot, _row = animal_facts(work, code)
        return Plan({"lot": lot.id, "about": about, "answer": said, "spoken_by": speaker}, codes=(lot.code,))

    return perform(register, "call.recorded", decide, by=by, happened_at=happened_at, key=key)


def attach_picture(
    register: Register,
    *,
    by: str,
    code: str,
    what: str,
    content: bytes,
    original_hash: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Keep a JPEG, PNG or PDF with a lot, sealed by its hash; known by its bytes, never its name."""
    if what not in PICTURES_OF:
        raise Refusal("Say what the picture shows.", "Choose one.", "what")
    if len(content) > MOST_PICTURE_BYTES:
        raise Refusal(
            f"This picture has {len(content) / 1e6:.1f} MB; {MOST_PICTURE_BYTES / 1e6:.0f} MB fit.",
            "Take it smaller, or photograph the card alone.",
            "content",
        )
    media_type = next((kind for start, kind in _SIGNATURES.items() if content.startswith(start)), None)
    if media_type is None:
        raise Refusal(
            "This is neither a JPEG or PNG picture nor a PDF.",
            "Save it as one of these, then again.",
            "content",
        )

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        found = attachments.keep(work.connection, content, media_type)
        body = {
            "lot": lot.id,
            "what": what,
            "hash": found,
            "original_hash": clean(original_hash, "content", most=64) or found,
            "media_type": media_type,
            "bytes": len(content),
        }
        return Plan(body, codes=(lot.code,), created=(found,))

    return perform(register, "picture.attached", decide, by=by, happened_at=happened_at, key=key)


def decide_again(
    register: Register,
    *,
    by: str,
    code: str,
    decision: Decision,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """The second decision, out of the skin: price and claim stay open until it is made."""
    why = clean(reason, "reason", most=500)
    if decision is not Decision.ACCEPT and not why:
        raise Refusal(f"“{decision}” needs a reason.", "Say in a few words why.", "reason")
    sorts = {
        Decision.HOLD: StopSort.HOLD,
        Decision.SPECIMEN: StopSort.SPECIMEN,
        Decision.REJECT: StopSort.REJECTED,
    }

    def decide(work: Work) -> Plan:
        lot, row = animal_facts(work, code)
        if basis_from(row.basis).in_skin:
            raise Refusal(
                f"{lot.code} is still in the skin.", "Dress it first: damage shows under the skin.", "code"
            )
        if lot.id in look_door.second_decisions_of(work.connection, [lot.id]):
            raise Refusal(f"{lot.code} has been decided twice already.", "Hold it if in doubt.", "code")
        ended = next((stop.sort for stop in lot.stops if stop.sort in _FOR_EVER), "")
        if ended and decision in (Decision.ACCEPT, Decision.TRIM):
            raise Refusal(f"{lot.why}, and stays so.", "It cannot be accepted any more.", "decision")
        sort = sorts.get(decision)
        body = {
            "lot": lot.id,
            "decision": decision.value,
            "reason": why,
            "holds": [work.new_hold(sort, why)] if sort else [],
        }
        return Plan(body, codes=(lot.code,))

    return perform(register, "carcass.decided", decide, by=by, happened_at=happened_at, key=key)


def record_result(
    register: Register,
    *,
    by: str,
    code: str,
    reference: str,
    result: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """The laboratory's answer for a boar, entered by another person than the one who holds it.

    Negative lifts the hold that waited for it. Positive locks the animal and all made of it for ever.
    """
    from gametrace.domain.boar import NEGATIVE, POSITIVE, boar_findings

    number = clean(reference, "reference", most=80, needed="The laboratory's reference is on its paper.")
    if result not in (NEGATIVE, POSITIVE):
        raise Refusal("The result is negative or positive.", "Read it from the laboratory's paper.", "result")

    def decide(work: Work) -> Plan:
        lot, _row = animal_facts(work, code)
        waiting = [
            hold
            for hold in look_carcasses.holds_of(work.connection, [lot.id]).get(lot.id, ())
            if hold.sort == StopSort.RESULT and hold.released_at is None
        ]
        answer = look_door.laboratory_of(work.connection, [lot.id]).get(lot.id)
        if answer and answer.result == POSITIVE:
            raise Refusal(f"The laboratory's answer for {lot.code} is positive and stays.", "", "code")
        if not waiting:
            raise Refusal(f"{lot.code} waits for no result.", "Check the number.", "code")
        holder = by if by in {hold.placed_by for hold in waiting} else waiting[0].placed_by
        found = boar_findings(result, number, entered_by=by, held_by=holder)
        if any(f.code == "boar-second-person" for f in found):
            raise Refusal(found[0].sentence, found[0].what_to_do, "by")
        if result == NEGATIVE:
            refuse_one_person(work, holder, by)
        lifted = [hold.id for hold in waiting] if result == NEGATIVE else []
        holds = [] if result == NEGATIVE else [work.new_hold(StopSort.LOCKED, found[0].sentence)]
        body = {
            "lot": lot.id,
            "reference": number,
            "result": result,
            "lifted": lifted,
            "holds": holds,
            "findings": _answered(work, lot, found[0]),
        }
        return Plan(body, codes=(lot.code,), findings=found)

    return perform(register, "laboratory.answered", decide, by=by, happened_at=happened_at, key=key)


def _answered(work: Work, lot: LotFacts, answer: Finding) -> list[dict[str, str]]:
    """The findings of the delivery, with the laboratory's answer in the place of the wait for it."""
    rows = look_carcasses.findings_of(work.connection, [lot.id]).get(lot.id, ())
    return [
        {**answer.to_dict(), "reason": ""}
        if row.code == "boar-result-awaited"
        else {**Finding.from_dict(dict(row._mapping)).to_dict(), "reason": row.reason}
        for row in rows
        if row.rests_on == "delivery"
    ]
