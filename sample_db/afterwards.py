"""What comes of the odd deliveries: looked at again, lifted by a colleague, sent back, destroyed."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

from gametrace.domain.deliveries import Answer
from gametrace.register import acts, questions
from gametrace.register.acts import Out
from sample_db import cast
from sample_db.house import Body, House
from sample_db.larder_round import dress


def _hold_on(house: House, body: Body) -> int:
    return next(hold.id for hold in questions.holds(house.register) if hold.code == body.code)


def _lift(house: House, body: Body, by: str, reason: str) -> None:
    house.do(acts.release_hold, by=by, hold=_hold_on(house, body), reason=reason)
    body.is_stopped = False
    body.dress_on = body.cut_on = max(
        body.cut_on, house.terms.open_on_or_after(house.today + timedelta(days=1))
    )


def _other_than_receiver(house: House, body: Body) -> str:
    """Whoever lifts a hold is not the one who wrote the delivery."""
    by = questions.carcass(house.register, body.code).received_by
    return "maud" if by != "ME" else "anand"


def destroyed(house: House, body: Body) -> None:
    def collected() -> None:
        house.do(
            acts.dispose,
            by="joss",
            code=body.code,
            product="condemned",
            reason="Collected by the by-products carrier, note in the folder.",
        )
        body.is_cut = True

    house.later(house.today + timedelta(days=1), collected)


def sent_back(house: House, body: Body, why: str) -> None:
    body.is_cut = True
    house.do(acts.dispose, by="maud", code=body.code, product="returned", reason=why)


def cut_to_learn(house: House, body: Body) -> None:
    def lesson() -> None:
        dress(house, body, keep_hook=True)
        outs = [
            Out("haunch", body.grams * 19 // 100, "left"),
            Out("haunch", body.grams * 19 // 100, "right"),
            Out("saddle", body.grams * 16 // 100),
        ]
        made = house.do(acts.weigh_out, by="anand", code=body.code, outputs=outs).created
        for code in (*made, body.code):
            house.do(
                acts.dispose, by="joss", code=code, product="condemned", reason="Lesson over; never food."
            )
        body.is_cut = True

    house.later(house.today + timedelta(days=2), lesson)


def cooled_overnight(house: House, body: Body) -> None:
    def next_morning() -> None:
        house.do(
            acts.amend_carcass,
            by="joss",
            code=body.code,
            reason="Taken again after a night in the chill.",
            changes={"readings": (("haunch", 51), ("shoulder", 46), ("ribs", 38))},
        )
        _lift(
            house,
            body,
            _other_than_receiver(house, body),
            "Killed at 07:10 that day, 9.2 °C at the door and 5.1 °C next morning: it was still cooling.",
        )

    house.later(house.today + timedelta(days=1), next_morning)


def read_on_the_telephone(house: House, body: Body) -> None:
    def rung() -> None:
        house.do(
            acts.amend_carcass,
            by="joss",
            code=body.code,
            changes={"no_abnormal_behaviour": Answer.YES},
            reason="Rung at 09:40: it behaved as usual. A clean card will follow.",
        )
        _lift(
            house, body, _other_than_receiver(house, body), "Statement given by telephone and written down."
        )

    house.later(house.today + timedelta(days=1), rung)


def vet_asked(house: House, body: Body) -> None:
    number = _hold_on(house, body)

    def answered() -> None:
        house.do(
            acts.dispose,
            by="maud",
            code=body.code,
            product="condemned",
            reason="The vet advised against it; reported, then collected by the by-products carrier.",
        )
        house.do(
            acts.release_hold,
            by=_other_than_receiver(house, body),
            hold=number,
            reason="Settled: all of it condemned and collected.",
        )
        body.is_cut = True

    house.later(house.today + timedelta(days=4), answered)


def certificate_renewed(house: House, body: Body) -> None:
    def shown() -> None:
        house.do(
            acts.amend_carcass,
            by="joss",
            code=body.code,
            changes={"certificate_number": "TH-INV-0877-R"},
            reason="Renewed certificate shown; it was only the old card in the van.",
        )
        _lift(
            house, body, _other_than_receiver(house, body), "Renewed certificate seen and its number written."
        )

    house.later(house.today + timedelta(days=3), shown)


def was_a_doe(house: House, body: Body) -> None:
    house.do(
        acts.amend_carcass,
        by="anand",
        code=body.code,
        changes={"sex": "female", "age_class": "doe"},
        reason="No tusks and teats found: a doe, written as a buck.",
    )


def tag_read_again(house: House, body: Body) -> None:
    house.do(
        acts.amend_carcass,
        by="joss",
        code=body.code,
        changes={"tag": "MP 0990"},
        reason="Two digits swapped when typing; read again from the tag.",
    )


def typed_ten_times(house: House, body: Body) -> None:
    house.do(
        acts.correct_weight,
        by="joss",
        code=body.code,
        grams=10_400,
        reason="Typed 104 for 10.4: the rail scale's strip says 10.40 kg.",
    )
    body.grams = 10_400


def finished_later(house: House, body: Body) -> None:
    def filled_in() -> None:
        house.do(
            acts.amend_carcass,
            by="joss",
            code=body.code,
            changes={"kill_time": "06:50", "kill_place": "Peat Gill", "pence_per_kg": 320},
        )

    house.later(house.today + timedelta(days=2), filled_in)


def packs_that_leak(house: House) -> None:
    """Two packs are stopped after packing: one lifted by a colleague, one condemned."""
    fresh = [pack for pack in house.stock if pack.state == "vacuum" and not pack.is_forgotten]
    if len(fresh) < 2:
        house.later(house.today + timedelta(days=1), partial(packs_that_leak, house))
        return
    good, bad = fresh[-1], fresh[-2]
    number = house.do(acts.hold_lot, by="joss", code=good.code, reason="The bag looks slack.").code
    house.do(
        acts.release_hold, by="maud", hold=int(number), reason="Tight on a second look; label was creased."
    )
    number = house.do(acts.hold_lot, by="joss", code=bad.code, reason="Seal open, drip in the tray.").code
    house.do(
        acts.dispose, by="maud", code=bad.code, product="binned", reason="Seal open; nobody knows since when."
    )
    house.do(acts.release_hold, by="maud", hold=int(number), reason="Settled: the pack has been binned.")
    house.stock.remove(bad)
    house.marks["slack bag"], house.marks["open seal"] = good.code, bad.code


def a_student_leaves(house: House) -> None:
    cast.leave(house)
    house.marks["leaver-gone"] = house.people["emre"]
