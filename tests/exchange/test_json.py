"""What programs read: exactly the promised keys, whole grams, exact shares."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime
from fractions import Fraction

from gametrace.domain.findings import Finding, Severity
from gametrace.exchange.season_json import season_json
from gametrace.exchange.trace_json import trace_json
from gametrace.register.records import Balance, BalanceRow, Trace, TraceAnimal, TraceLink, TraceLot

NOON = datetime(2026, 11, 12, 12, tzinfo=UTC)
TRACE = Trace(
    "26-00417-K", "carcass", "fallow doe", "spent",
    (
        TraceAnimal(
            "26-00417-K", "0417", "fallow doe", "fallow", "female", "wild-shot", "2026-11-12T07:40",
            "Harrow Wood",
            "=Estate", "The Lodge", "HW-112", (), 23400, Fraction(2, 6), "spent",
        ),
    ),
    (),
    (TraceLot("26-01203-X", "pack", "haunch", 850, 800, "ready", "Chill 1", NOON, 1),),
    (TraceLink("26-00417-K", "26-01203-X", 800),),
    Balance(23400, 23000, 400, (BalanceRow("in stock", 23000, ("26-01203-X",)),)),
    (Finding("season.open", Severity.NOTE, "In season."),),
)  # fmt: skip


@dataclass(frozen=True)
class _Answer:
    open: bool | None = None
    opens: date | None = None
    closes: date | None = None
    source: str = "no rule known"
    status: str = "not seen"
    note: str = ""


def test_a_trace_has_exactly_the_promised_keys() -> None:
    answer = trace_json(TRACE)
    assert list(answer) == ["code", "kind", "state", "animals", "forward", "balance", "findings"]
    assert list(answer["animals"][0]) == [
        "code", "tag", "species", "sex", "origin_type", "killed_at", "place", "supplier", "grams", "share",
    ]  # fmt: skip
    assert set(answer["forward"][0]) == {"code", "kind", "grams", "grams_from", "state", "where"}
    assert answer["balance"] == {
        "received_grams": 23400, "accounted_grams": 23000, "unaccounted_grams": 400,
    }  # fmt: skip
    assert answer["findings"][0]["severity"] == "note"


def test_shares_are_exact_and_all_of_it_is_one_of_one() -> None:
    assert trace_json(TRACE)["animals"][0]["share"] == "1/3"


def test_a_trace_survives_json() -> None:
    assert json.loads(json.dumps(trace_json(TRACE))) == trace_json(TRACE)


def test_a_lot_without_a_balance_says_null() -> None:
    bare = Trace("26-01203-X", "pack", "haunch", "ready", (), (), (), (), None, ())
    assert trace_json(bare)["balance"] is None


def test_a_season_has_the_promised_keys_and_iso_days() -> None:
    answer = season_json(_Answer(True, date(2026, 11, 1), date(2027, 3, 31), "Deer Act 1991", "seen", "n"))
    assert answer == {
        "open": True, "opens": "2026-11-01", "closes": "2027-03-31", "source": "Deer Act 1991",
        "status": "seen",
        "note": "n",
    }  # fmt: skip


def test_no_rule_is_null_and_not_open() -> None:
    answer = season_json(_Answer())
    assert answer["open"] is None
    assert answer["opens"] is answer["closes"] is None
