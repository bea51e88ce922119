"""The last fortnight: what somebody finds who opens the practice register on the next morning."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

from gametrace.domain.deliveries import Answer, Decision
from gametrace.register import acts
from gametrace.register.acts import Out
from sample_db import lesson
from sample_db.animals import LARGE_SHARES, shared_out
from sample_db.arrivals import Arrival
from sample_db.house import Body, House
from sample_db.larder_round import dress
from sample_db.terms import Terms, in_season

_CANDIDATES = (
    ("fallow", "female", "doe", "idris"),
    ("roe", "female", "doe", "idris"),
    ("roe", "male", "buck", "idris"),
    ("fallow", "male", "pricket", "park"),
    ("muntjac", "female", "doe", "idris"),
    ("muntjac", "male", "buck", "idris"),
)
_HANGS_LONG = frozenset({"fallow", "roe"})


def last_fortnight(terms: Terms) -> list[Arrival]:
    """Bodies to be cut in these days, bodies still hanging at the end, and the ones that are stopped."""
    last = terms.last_day

    def before(days: int) -> date:
        return last - timedelta(days=days)

    wild = [
        Arrival(
            before(days),
            *_in_season(before(days), turn, hangs_long=days > 1),
            cut_after=cut_after,
            hangs_for_good=cut_after is None,
        )
        for turn, (days, cut_after) in enumerate(
            (
                (12, 6),
                (11, 8),
                (10, 7),
                (9, 6),
                (9, 8),
                (7, 6),
                (6, 5),
                (6, None),
                (4, None),
                (3, None),
                (1, None),
            )
        )
    ]
    return [
        *wild,
        Arrival(before(12), "muntjac", "female", "doe", "idris", cut_after=2),
        Arrival(before(11), "muntjac", "male", "buck", "idris", cut_after=1),
        Arrival(
            before(20),
            "wild-boar",
            "male",
            "boar",
            "moor",
            mark="boar",
            hangs_for_good=True,
            change={
                "tag": "BOAR 07",
                "inspection_notes": "Head and diaphragm with it; sample sent, result awaited.",
            },
        ),
        Arrival(
            before(10),
            "muntjac",
            "female",
            "doe",
            "gate",
            mark="second specimen",
            hangs_for_good=True,
            change={
                "route": "gift-unknown",
                "origin": "unknown",
                "tag": "TEACH 2",
                "decision": Decision.SPECIMEN,
                "decision_reason": "Found by the drove, whole; kept for the dressing lesson.",
            },
            then=_dressed_in_class,
        ),
        Arrival(
            before(4),
            *_in_season(before(4), 1),
            mark="statement unread",
            hangs_for_good=True,
            change={
                "tag": "IF 0999",
                "has_declaration": True,
                "declaration_number": "IF/0999",
                "no_abnormal_characteristics": Answer.YES,
                "no_abnormal_behaviour": Answer.CANT_READ,
                "no_contamination": Answer.YES,
                "trained_person": "Idris Fennimoor",
                "decision": Decision.HOLD,
                "decision_reason": "Second statement unreadable, card is soaked; hunter to be rung.",
            },
            by="joss",
        ),
        Arrival(
            before(7),
            "red",
            "female",
            "hind",
            "onfarm",
            mark="open block",
            hangs_for_good=True,
            change={"tag": "CH 0913"},
            then=_left_open,
        ),
        Arrival(before(4), "red", "female", "hind", "farm", hangs_for_good=True),
        Arrival(before(13), "red", "male", "spiker", "farm", cut_after=9),
        Arrival(before(1), "rabbit", "unknown", "", "warrener", count=9, hangs_for_good=True),
        Arrival(before(3), "woodpigeon", "unknown", "", "warrener", count=18, cut_after=1),
        Arrival(
            last,
            *_in_season(last, 1),
            mark="to finish",
            hangs_for_good=True,
            change={
                "kill_time": "",
                "kill_place": "",
                "readings": (),
                "pence_per_kg": None,
                "place": "",
                "inspection_notes": "",
                "reasons": {"no-temperature": ""},
            },
            by="joss",
        ),
    ]


def _in_season(day: date, turn: int, *, hangs_long: bool = True) -> tuple[str, str, str, str]:
    """The next kind that may lawfully have been shot in the days before, in turn."""
    open_kinds = [
        kind
        for kind in _CANDIDATES
        if (kind[0] in _HANGS_LONG or not hangs_long)
        and all(in_season(kind[0], kind[1], "wild-shot", day - timedelta(days=n)) for n in range(4))
    ]
    return open_kinds[turn % len(open_kinds)]


def _dressed_in_class(house: House, body: Body) -> None:
    house.later(house.today + timedelta(days=3), partial(dress, house, body))


def _left_open(house: House, body: Body) -> None:
    """Dressed two days before the end; on the last day half of it is weighed and the rest left lying."""
    house.later(house.terms.last_day - timedelta(days=2), partial(dress, house, body))
    house.later(house.terms.last_day, partial(_half_cut, house, body))


def _half_cut(house: House, body: Body) -> None:
    house.clock.go_to(house.today, 15, 10)
    weights = shared_out(house.rng, body.grams, [share for _, _, share in LARGE_SHARES])
    outs = [
        Out(product, grams, side, place="C2.S1")
        for (product, side, _), grams in zip(LARGE_SHARES, weights, strict=True)
    ]
    lesson.begin(house)
    who = lesson.at_table(house, body.code)
    house.do(acts.weigh_out, by="dilys", code=body.code, outputs=outs[:2], **who)
    house.do(acts.weigh_out, by="callum", code=body.code, outputs=outs[3:4], **who)
    house.lesson = None  # it stays open overnight; whatever else is cut that day is cut elsewhere


def dress_some(house: House) -> None:
    """Two of those that hang at the end are skinned, so that both chills have something on the rail."""
    hanging = [
        body
        for body in house.bodies
        if body.is_stopped
        and not body.is_cut
        and body.in_skin
        and body.code not in house.marks.values()
        and body.count == 1
        and body.species != "wild-boar"
    ]
    for body in hanging[:2]:
        dress(house, body, keep_hook=True)
        body.hook = house.free_hook(("C2.R1",))
        house.do(acts.move_lot, by="joss", code=body.code, to=body.hook)
