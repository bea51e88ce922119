"""The larder's daily round: weigh again, skin and dress with the number handed on, cut, pack, label."""

from __future__ import annotations

from gametrace.domain.dates import rule_for
from gametrace.facts.species import species as species_called
from gametrace.register import acts
from gametrace.register.acts import Out, TagHandOver
from gametrace.register.pack_dates import is_minced
from sample_db import lesson
from sample_db.animals import (
    BATCH_SHARES,
    LARGE_SHARES,
    PART_SHARES,
    SMALL_DEER,
    SMALL_SHARES,
    SMALL_SHOULDER,
    shared_out,
)
from sample_db.house import Body, House, Pack, Trim

_GONE = frozenset({"fat", "shot-damage", "bone", "skin", "head", "feet", "gut", "feathers"})
_FREEZER_SHELF = {
    "haunch": 1,
    "topside": 1,
    "silverside": 1,
    "thick-flank": 1,
    "rump": 1,
    "loin": 1,
    "fillet": 1,
    "saddle": 1,
    "mince": 3,
}
_PLENTY_GRAMS = 45_000  # above this in the chill, packs go to the freezer


def weigh_again(house: House, body: Body) -> None:
    """Three or four thousandths a day have gone as water; the second weighing writes them down."""
    days = max(1, (house.today - body.received_on).days)
    lost = body.grams * days * house.rng.randint(24, 42) // 10_000 // 10 * 10
    if lost and not body.count > 1:
        house.do(acts.reweigh, by="joss", code=body.code, grams=body.grams - lost)
        body.grams -= lost


def dress(house: House, body: Body, *, keep_hook: bool = False) -> None:
    """Skin off and weighed; the number printed on a new tag or typed from it before the act may end."""
    by = house.student()
    if house.rng.randrange(4):
        weigh_again(house, body)
    outs = [Out("skin", body.grams * house.rng.randint(76, 96) // 1_000 // 10 * 10)]
    if body.head_on:
        outs.append(Out("head", body.grams * house.rng.randint(62, 74) // 1_000 // 10 * 10))
    if house.rng.randrange(3):
        tag = TagHandOver("printed")
        house.do(acts.note_labels_printed, by=by, codes=[body.code], sort="carcass")
    else:
        typed = body.code.lower() if house.rng.randrange(2) else f"gambrel {house.rng.randint(1, 24)}"
        tag = TagHandOver("typed", typed)
    grams_after = body.grams - sum(out.grams for out in outs) - house.rng.choice((0, 0, 10, 20))
    notes = house.rng.choice(("", "", "A little hair at the shanks, trimmed.", "Clean under the skin."))
    house.do(
        acts.dress_carcass, by=by, code=body.code, outputs=outs, tag=tag, grams_after=grams_after, notes=notes
    )
    body.grams, body.in_skin, body.head_on = grams_after, False, False
    if not keep_hook and house.rng.randrange(2):
        body.hook = house.free_hook(("C2.R1", "C1.R2"))
        house.do(acts.move_lot, by=by, code=body.code, to=body.hook)


def cut(house: House, body: Body) -> None:
    """A carcass to the block: sides weighed apart, every part followed into packs, the rest shown."""
    body.is_cut = True
    is_small = body.species in SMALL_DEER
    shares = SMALL_SHARES if is_small else LARGE_SHARES
    weights = shared_out(house.rng, body.grams, [share for _, _, share in shares])
    outs = [
        _first_cut(house, product, side, grams, is_small)
        for (product, side, _), grams in zip(shares, weights, strict=True)
    ]
    if lesson.begins_with(house, body):
        lesson.begin(house)
    made: list[str] = []
    by = house.student()
    who = lesson.at_table(house, body.code)
    for some in (outs[:2], outs[2:5], outs[5:]):
        made += house.do(acts.weigh_out, by=by, code=body.code, outputs=some, **who).created
    house.do(acts.close_lot, by=by, code=body.code, **who)
    packed = [code for code, out in zip(made, outs, strict=True) if _keep(house, body, code, out)]
    for code, out in zip(made, outs, strict=True):
        if out.product in PART_SHARES and not out.is_pack:
            packed += _cut_part(house, body, code, out)
    lesson.end(house)
    if packed:
        house.do(acts.note_labels_printed, by=by, codes=packed, sort="pack")


def _first_cut(house: House, product: str, side: str, grams: int, is_small: bool) -> Out:
    if product in _GONE:
        reason = "bloodied round the wound" if product == "shot-damage" else ""
        return Out(product, grams, reason=reason)
    if product == "trim" or not (is_small and product in ("haunch", "saddle")):
        return Out(product, grams, side, place="C2.S1")
    return _pack(house, product, grams, side)


def _pack(house: House, product: str, grams: int, side: str = "") -> Out:
    """Vacuum as a rule, frozen when the chill is full or a holiday near, loose for the next day's class."""
    is_full = house.chilled_grams > _PLENTY_GRAMS or house.terms.days_to_holiday(house.today) < 9
    dice = house.rng.randrange(20)
    if is_full or dice < 3:
        return Out(product, grams, side, f"F3.S{_FREEZER_SHELF.get(product, 2)}", "frozen", True)
    if dice == 3:
        return Out(product, grams, side, "C2.S2", "chilled-loose", True)
    return Out(product, grams, side, house.rng.choice(("C2.S2", "C2.S3")), "vacuum", True)


def _keep(house: House, body: Body, code: str, out: Out) -> bool:
    """Remember what a dish or the mincer may use; True for a pack."""
    if out.is_pack:
        days = rule_for(out.pack_state, is_minced(out.product, out.pack_state)).last_day(house.today)
        house.stock.append(
            Pack(
                code,
                out.product,
                body.species,
                out.grams,
                days,
                out.pack_state,
                is_forgotten=house.rng.randrange(70) == 0,
            )
        )
    elif out.product == "trim":
        house.trims.append(Trim(code, body.code, out.grams, house.today))
    return out.is_pack


def _cut_part(house: House, body: Body, code: str, part: Out) -> list[str]:
    by = house.student()
    is_small = body.species in SMALL_DEER and part.product == "shoulder"
    shares = SMALL_SHOULDER if is_small else PART_SHARES[part.product]
    weights = shared_out(house.rng, part.grams, [share for _, share in shares], most_loss=4)
    outs = []
    for (product, _), grams in zip(shares, weights, strict=True):
        if product in _GONE:
            outs.append(Out(product, grams))
        elif product == "trim":
            outs.append(Out(product, grams, place="C2.S1"))
        else:
            outs.append(_pack(house, product, grams, part.side))
    who = lesson.at_table(house, code, part.side)
    made = house.do(acts.weigh_out, by=by, code=code, outputs=outs, **who).created
    house.do(acts.close_lot, by=by, code=code, **who)
    return [one for one, out in zip(made, outs, strict=True) if _keep(house, body, one, out)]


def cut_batch(house: House, body: Body) -> None:
    """A bag of birds or rabbits: plucked or skinned, drawn, and packed by the kind of piece."""
    body.is_cut = True
    kind = "rabbit" if body.species == "rabbit" else "bird"
    if kind == "bird" and house.rng.randrange(3) == 0:
        kind = "whole bird"
    shares = BATCH_SHARES[kind]
    weights = shared_out(house.rng, body.grams, [share for _, share in shares], most_loss=12)
    outs = [
        Out(product, grams) if product in _GONE else _bird_pack(house, product, grams)
        for (product, _), grams in zip(shares, weights, strict=True)
    ]
    by = house.student()
    waste = [out for out in outs if out.product in _GONE]
    meat = [out for out in outs if out.product not in _GONE]
    house.do(acts.weigh_out, by=by, code=body.code, outputs=waste)
    made = house.do(acts.weigh_out, by=by, code=body.code, outputs=meat).created
    house.do(acts.close_lot, by=by, code=body.code)
    for code, out in zip(made, meat, strict=True):
        _keep(house, body, code, out)
    house.do(acts.note_labels_printed, by=by, codes=list(made), sort="pack")


def _bird_pack(house: House, product: str, grams: int) -> Out:
    if house.rng.randrange(3) == 0 or house.terms.days_to_holiday(house.today) < 9:
        return Out(product, grams, "", "F3.S4", "frozen", True)
    return Out(product, grams, "", "C1.S1", "vacuum", True)


def go_round(house: House) -> None:
    """Everything the larder is due to do on this day."""
    for body in [one for one in house.bodies if not one.is_stopped and not one.is_cut]:
        if species_called(body.species).group == "small":
            if body.cut_on <= house.today:
                cut_batch(house, body)
            continue
        if body.in_skin and body.dress_on <= house.today:
            dress(house, body)
        if not body.in_skin and body.cut_on <= house.today:
            cut(house, body)
