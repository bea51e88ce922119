"""Skinning and dressing: what comes off is weighed, and the number goes over to a new tag."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from gametrace.domain.codes import code_of, looks_like_code, lot_id_of
from gametrace.domain.deliveries import Basis
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import ANIMAL_KINDS, StopSort
from gametrace.facts.species import species as species_called
from gametrace.register.block import Out, output_rows
from gametrace.register.delivery_text import basis_from, basis_letters
from gametrace.register.lot_facts import LotFacts
from gametrace.register.opening import Register
from gametrace.register.policies import scale_step
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_carcasses, look_lots


@dataclass(frozen=True, slots=True)
class TagHandOver:
    """How the number stays with the meat when the skin takes the tag off.

    "printed": a tag with the house number has been printed and is on the carcass.
    "typed": the number read off the new tag, typed in; a house number must be this carcass's own.
    """

    how: Literal["printed", "typed"]
    number: str = ""


def dress_carcass(
    register: Register,
    *,
    by: str,
    code: str,
    outputs: Sequence[Out],
    tag: TagHandOver,
    skin_off: bool = True,
    head_off: bool = True,
    feet_off: bool = True,
    pluck_out: bool = True,
    grams_after: int | None = None,
    notes: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Skin and dress a carcass, its skin, head and feet weighed off, its number handed on to a new tag.

    `grams_after`, when weighed, is held against the sum; what is missing shows as unaccounted. Refused until
    the number is on the new tag. A held carcass may be dressed: the hold goes on to everything taken off.
    """

    def decide(work: Work) -> Plan:
        lot = work.lot(code)
        found = look_carcasses.carcass_rows(work.connection, [lot.id])
        if lot.kind not in ANIMAL_KINDS or not found:
            raise Refusal(f"{lot.code} is not a carcass.", "Choose one from the rails.", "code")
        if any(stop.sort in (StopSort.REJECTED, StopSort.LOCKED) for stop in lot.stops):
            raise Refusal(f"{lot.why}.", "It is not dressed; record what becomes of it.", "code")
        if lot.grams_left == 0:
            raise Refusal(f"Nothing is left of {lot.code}.", "Check the number.", "code")
        was = basis_from(found[0].basis)
        now = Basis(
            in_skin=was.in_skin and not skin_off,
            head_on=was.head_on and not head_off,
            feet_on=was.feet_on and not feet_off,
            pluck_in=was.pluck_in and not pluck_out,
        )
        if now == was:
            raise Refusal("There is nothing left to take off.", "Take it to the block.", "code")
        coat = ("skin", "feathers") if species_called(found[0].species).group == "small" else ("skin",)
        if was.in_skin and skin_off and not any(out.product in coat for out in outputs):
            raise Refusal(
                "The skin has not been weighed.",
                "Weigh it: without it the balance of this animal cannot close.",
                "outputs",
            )
        _refuse_meat(outputs)
        number = _handed_on(work, lot, tag)
        after = lot.grams_left - sum(out.grams for out in outputs)
        missing = 0 if grams_after is None else after - grams_after
        if missing < -scale_step(work.connection) or after <= 0:
            raise Refusal("More came off and stayed on than there was.", "Check the weights.", "grams_after")
        body: dict[str, Any] = {
            "lot": lot.id,
            "basis": basis_letters(now),
            "number_on": number,
            "handed_on": tag.how,
            "notes": clean(notes, "notes", most=2_000),
            "unaccounted": missing,
            "outputs": output_rows(work, lot, outputs),
        }
        created = tuple(code_of(output["lot"]) for output in body["outputs"])
        return Plan(body, codes=(lot.code, *created), created=created)

    return perform(register, "carcass.dressed", decide, by=by, happened_at=happened_at, key=key)


def _refuse_meat(outputs: Sequence[Out]) -> None:
    for out in outputs:
        if not out.is_gone:
            raise Refusal("Meat is weighed out on the block, after dressing.", "Take it off here.", "outputs")


def _handed_on(work: Work, lot: LotFacts, tag: TagHandOver) -> str:
    """The number on the new tag. The moment traces die is when the tag goes into the bin with the skin.

    A tag bought with numbers on it may look like a house number without its hyphens; it is one only if it is
    in the register.
    """
    if tag.how == "printed":
        return lot.code
    number = clean(
        tag.number,
        "tag",
        most=60,
        needed="Dressing is finished when the number is on the new tag: print the tag, or type its number.",
    )
    if not looks_like_code(number):
        return number
    try:
        meant = lot_id_of(number)
    except Refusal:
        if "-" in number:
            raise
        return number
    if meant == lot.id:
        return lot.code
    if "-" in number or look_lots.lot_row(work.connection, meant) is not None:
        raise Refusal(
            f"{number} is another animal's number; this one is {lot.code}.",
            "Look at the new tag again.",
            "tag",
        )
    return number
