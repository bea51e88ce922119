"""A recall from the first word to its end: what is recalled, who was rung, what was answered, what is done.

It can be left and taken up again: all of it is in the journal. It judges no meat, speaks for no authority.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.facts.recall import recall_steps
from gametrace.register.asking_round import new_holds
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_tracing, rows

STEP_ANSWERS = ("done", "not needed")


def open_recall(
    register: Register,
    *,
    by: str,
    codes: Sequence[str],
    what: str,
    reason: str,
    is_holding: bool = True,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Begin a recall of these lots and everything made of them. Changes.code is its own, R001.

    With `is_holding` all of it goes on hold in the same act; what is on hold already needs no second one.
    """
    title = clean(what, "what", most=120, needed="Say in a few words what is recalled.")
    why = clean(reason, "reason", most=500, needed="Say why.")

    def decide(work: Work) -> Plan:
        if not codes:
            raise Refusal("No lot was named.", "Scan a label, or gather the lots first.", "codes")
        lots = sorted({work.lot(code).id for code in codes})
        code = rows.next_code(work.connection, "recall", "R")
        holds = new_holds(work, lots, f"recall {code}: {why}"[:500]) if is_holding else []
        body = {"recall": code, "what": title, "reason": why, "lots": lots, "holds": holds}
        return Plan(body, codes=tuple(code_of(lot) for lot in lots), created=(code,))

    return perform(register, "recall.opened", decide, by=by, happened_at=happened_at, key=key)


def note_call(
    register: Register,
    *,
    by: str,
    recall: str,
    whom: str,
    answer: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Somebody was rung: whom, and what they said, or that nobody answered."""
    called = clean(whom, "whom", most=120, needed="Say whom you rang.")
    said = clean(answer, "answer", most=500, needed="Write down what they said, or that nobody answered.")

    def decide(work: Work) -> Plan:
        _open(work, recall)
        return Plan({"recall": recall, "whom": called, "answer": said}, codes=(recall,))

    return perform(register, "recall.called", decide, by=by, happened_at=happened_at, key=key)


def answer_step(
    register: Register,
    *,
    by: str,
    recall: str,
    step: str,
    answer: str,
    note: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """A step of the list is done, or not needed with the reason. It may be answered again."""
    words = clean(note, "note", most=500)
    if step not in {one.id for one in recall_steps()}:
        raise Refusal(f"There is no step {step}.", "Choose one of the list.", "step")
    if answer not in STEP_ANSWERS:
        raise Refusal("It is done, or not needed.", "Choose one of the two.", "answer")
    if answer == "not needed" and not words:
        raise Refusal("Say why it is not needed.", "Type the reason.", "note")

    def decide(work: Work) -> Plan:
        _open(work, recall)
        return Plan({"recall": recall, "step": step, "answer": answer, "note": words}, codes=(recall,))

    return perform(register, "recall.stepped", decide, by=by, happened_at=happened_at, key=key)


def close_recall(
    register: Register,
    *,
    by: str,
    recall: str,
    outcome: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """End it, once every step has an answer. The holds stay until a person lifts them."""
    ended = clean(outcome, "outcome", most=1_000, needed="Say how it ended.")

    def decide(work: Work) -> Plan:
        _open(work, recall)
        answered = {row.step for row in look_tracing.recall_steps(work.connection, recall)}
        left = [step for step in recall_steps() if step.id not in answered]
        if left:
            raise Refusal(
                f"{len(left)} of the steps have no answer yet, the first: {left[0].name}",
                "Do it, or say why it is not needed.",
                "outcome",
            )
        return Plan({"recall": recall, "outcome": ended}, codes=(recall,))

    return perform(
        register,
        "recall.closed",
        decide,
        by=by,
        happened_at=happened_at,
        key=key,
    )


def _open(work: Work, recall: str) -> Any:
    row = look_tracing.recall(work.connection, recall)
    if row is None:
        raise Refusal(f"There is no recall {recall}.", "Choose one of the list.", "recall")
    if row.closed_at is not None:
        raise Refusal(f"Recall {recall} has ended.", "Open a new one.", "recall")
    return row
