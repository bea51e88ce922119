"""The deliveries with a story: stops, refusals, corrections, late entries. Each sort of trouble once."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from typing import Any

from gametrace.domain.deliveries import Answer, Basis, Decision
from sample_db import afterwards, cast
from sample_db.arrivals import Arrival
from sample_db.terms import Terms


def told(terms: Terms) -> list[Arrival]:
    """The arrivals with a story, each on the newest such day of the calendar that leaves time for it."""
    at = terms.newest
    cant_read = {
        "tag": "IF 0904",
        "no_abnormal_behaviour": Answer.CANT_READ,
        "decision": Decision.HOLD,
        "decision_reason": "Second statement washed out; hunter to be rung.",
    }
    return [
        Arrival(
            at(1, 14, 1),
            "roe",
            "female",
            "kid",
            "gate",
            mark="unknown origin",
            change={
                "tag": "GATE 1",
                "route": "gift-unknown",
                "origin": "unknown",
                "killed_on": None,
                "kill_time": "",
                "kill_place": "",
                "readings": (),
                "decision": Decision.REJECT,
                "decision_reason": "Left at the gate; nobody can say where it came from.",
            },
            then=afterwards.destroyed,
        ),
        Arrival(
            at(3, 3, 1),
            "muntjac",
            "male",
            "buck",
            "gate",
            mark="first specimen",
            change={
                "route": "gift-unknown",
                "origin": "unknown",
                "tag": "TEACH 1",
                "decision": Decision.SPECIMEN,
                "decision_reason": "Road casualty, whole: kept to learn skinning on.",
            },
            then=afterwards.cut_to_learn,
        ),
        Arrival(
            at(11, 12),
            "fallow",
            "female",
            "doe",
            "moor",
            mark="too warm",
            change={
                "tag": "RM 0901",
                "kill_time": "",
                "readings": (("haunch", 118), ("shoulder", 121), ("ribs", 109)),
                "decision": Decision.REJECT,
                "decision_reason": "12.1 °C, time of killing unknown, not falling in an hour.",
            },
            then=partial(afterwards.sent_back, why="Too warm, and nobody knows since when."),
        ),
        Arrival(
            at(6, 9),
            "roe",
            "male",
            "buck",
            "moor",
            mark="gut",
            change={
                "tag": "RM 0902",
                "decision": Decision.REJECT,
                "inspection_notes": "Paunch shot; green through both flanks.",
                "decision_reason": "Gut contents over both flanks and inside the haunches.",
            },
            then=afterwards.destroyed,
        ),
        Arrival(
            at(10, 7),
            "fallow",
            "male",
            "pricket",
            "park",
            mark="cooled down",
            change={
                "tag": "MP 0903",
                "kill_time": "07:10",
                "readings": (("haunch", 92), ("shoulder", 88), ("ribs", 74)),
            },
            then=afterwards.cooled_overnight,
        ),
        Arrival(
            at(12, 3, 1),
            "roe",
            "female",
            "doe",
            "idris",
            mark="statement read later",
            change=_declared("IF", cant_read),
            then=afterwards.read_on_the_telephone,
        ),
        Arrival(
            at(10, 14),
            "red",
            "male",
            "stag",
            "moor",
            mark="odd behaviour",
            change=_declared(
                "RM",
                {
                    "tag": "RM 0905",
                    "no_abnormal_behaviour": Answer.NO,
                    "inspection_notes": "Stood apart, did not run; thin.",
                },
            ),
            then=afterwards.vet_asked,
        ),
        Arrival(
            at(9, 22),
            "sika",
            "male",
            "stag",
            "moor",
            mark="lapsed paper",
            change={
                "tag": "RM 0906",
                "decision": Decision.HOLD,
                "decision_reason": "The hunter's certificate ran out at the end of June.",
            },
            then=afterwards.certificate_renewed,
        ),
        Arrival(
            at(10, 20, 1), "red-sika-hybrid", "male", "stag", "moor", mark="hybrid", change={"tag": "RM 0907"}
        ),
        Arrival(
            at(11, 18),
            "chinese-water-deer",
            "male",
            "buck",
            "idris",
            mark="wrong sex",
            change={"tag": "IF 0908"},
            then=afterwards.was_a_doe,
        ),
        Arrival(
            at(2, 10, 1),
            "fallow",
            "female",
            "doe",
            "park",
            mark="wrong tag",
            change={"tag": "MP 0909"},
            then=afterwards.tag_read_again,
        ),
        Arrival(
            at(5, 12),
            "muntjac",
            "male",
            "buck",
            "idris",
            mark="typed ten times",
            change={"tag": "IF 0910", "grams": 104_000, "basis": Basis(), "reasons": {"weight-unusual": ""}},
            then=afterwards.typed_ten_times,
        ),
        Arrival(
            at(9, 12, 1),
            "red",
            "male",
            "spiker",
            "moor",
            mark="finished later",
            change=_declared(
                "RM", {"tag": "RM 0911", "kill_time": "", "kill_place": "", "pence_per_kg": None}
            ),
            then=afterwards.finished_later,
        ),
        Arrival(
            at(10, 27), "fallow", "male", "sorel", "park", mark="same tag twice", change={"tag": "MP 0417"}
        ),
        Arrival(at(10, 26), "fallow", "male", "pricket", "park", change={"tag": "MP 0417"}),
        Arrival(
            _saturday(terms, 11, 8, 1),
            "fallow",
            "female",
            "doe",
            "idris",
            typed_late_hours=48,
            mark="late",
            change={"tag": "IF 0912"},
        ),
        Arrival(_saturday(terms, 1, 24), "roe", "female", "doe", "idris", typed_late_hours=48),
        Arrival(_saturday(terms, 9, 12), "red", "male", "stag", "moor", typed_late_hours=48),
        Arrival(
            at(2, 17),
            "fallow",
            "female",
            "doe",
            "moor",
            change={
                "decision": Decision.TRIM,
                "decision_reason": ("Shot a little far back; near flank to be cut away."),
            },
        ),
    ]


def _declared(letters: str, change: dict[str, Any]) -> dict[str, Any]:
    """A card that is there, whatever the dice said."""
    number = {"IF": "IF/0399", "RM": "RM/0398"}[letters]
    card: dict[str, Any] = {
        "has_declaration": True,
        "declaration_number": number,
        "no_abnormal_characteristics": Answer.YES,
        "no_abnormal_behaviour": Answer.YES,
        "no_contamination": Answer.YES,
        "trained_person": cast.SOURCES["idris" if letters == "IF" else "moor"].hunter,
    }
    return {**card, **change}


def _saturday(terms: Terms, month: int, day: int, years_back: int = 0) -> Any:
    found = terms.newest(month, day, years_back)
    return found + timedelta(days=(5 - found.weekday()) % 7)
