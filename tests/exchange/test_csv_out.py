"""Tables for spreadsheets: every cell comes back as typed, and none of them can run."""

from __future__ import annotations

import csv
from datetime import UTC, date, datetime
from fractions import Fraction
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.exchange.csv_out import csv_text, deliveries_csv, harmless, trace_csv
from gametrace.register.records import Carcass, Lot, Statement, Supplier, Trace, TraceAnimal, TraceLot

NOON = datetime(2026, 11, 12, 12, tzinfo=UTC)
ESTATE = Supplier(
    "S001", "=cmd|' /C calc'!A0", 'Lodge, "Old"\nFM9', "", "wild-direct", "wild-shot", "", "", ""
)


def _read(text: str) -> list[list[str]]:
    return list(csv.reader(StringIO(text, newline="")))


# OWASP, 'CSV Injection': a cell beginning with one of = + - @ tab or carriage return may be run.
@pytest.mark.parametrize(
    "cell",
    ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("x")', " =1+1", "-", "+44 1632", "＝1"],
)
def test_a_formula_gets_an_apostrophe(cell: str) -> None:
    assert harmless(cell) == "'" + cell


@pytest.mark.parametrize("cell", [-5, 0, 23400, "-3.5", "+2", "26-00417-K", "0417", "a=b", "", "5.2"])
def test_plain_numbers_and_words_stay_as_they_are(cell: object) -> None:
    assert harmless(cell) == str(cell)


def test_nothing_is_an_empty_cell() -> None:
    assert harmless(None) == ""


@given(st.lists(st.lists(st.text(), min_size=2, max_size=2), max_size=5))
def test_any_cells_come_back_and_none_can_run(rows: list[list[str]]) -> None:
    text = csv_text(("a", "b"), rows)
    text.encode("utf-8")
    back = _read(text)
    assert len(back) == len(rows) + 1
    for row in back:
        assert len(row) == 2
        assert not any(cell.startswith(("=", "@", "\t", "\r")) for cell in row)


def _trace() -> Trace:
    animal = TraceAnimal(
        "26-00417-K", "=1+1", "fallow doe", "fallow", "female", "wild-shot", "2026-11-12", "שלום",
        "🦌 Estate", "",
        "", (), 23400, Fraction(1, 3), "spent",
    )  # fmt: skip
    lot = TraceLot("26-01203-X", "pack", "haunch, left", 850, 800, "ready", "Chill 1", NOON, 1)
    return Trace("26-00417-K", "carcass", "doe", "spent", (animal,), (), (lot,), (), None, ())


def test_a_trace_as_a_table_keeps_grams_and_shares() -> None:
    heads, animal, lot = _read(trace_csv(_trace()))
    assert "grams_g" in heads
    row = dict(zip(heads, animal, strict=True))
    assert (row["tag"], row["grams_g"], row["share"]) == ("'=1+1", "23400", "1/3")
    assert (row["supplier"], row["kill_place"]) == ("🦌 Estate", "שלום")
    assert dict(zip(heads, lot, strict=True))["from_g"] == "800"


def test_deliveries_as_a_table_name_their_units_and_keep_every_field() -> None:
    lot = Lot("26-00417-K", "carcass", "doe", "fallow", "hanging", "", 23400, 23400, "", "", NOON, "AB")
    carcass = Carcass(
        lot=lot, tag="@tag", species="fallow", species_name="fallow", sex="female", age_class="doe", count=1,
        origin="wild-shot", origin_words="", route="wild-direct", route_words="", supplier=ESTATE,
        received_at=NOON,
        written_at=NOON, dispatched_on=date(2026, 11, 12), killed_on=date(2026, 11, 12), kill_time="",
        kill_place="", has_declaration=True, declaration_number="-7+7",
        statements=(Statement("no abnormal behaviour", "yes"),),
        trained_person="", certificate_number="", approval_number="", inspection_notes="",
        readings=(("haunch", -3), ("shoulder", 52)), grams_received=23400, basis_words="in the skin",
        supplier_grams=None, pence_per_kg=None, decision="accept", decision_reason="", received_by="AB",
        findings=(), reasons={}, evidence="", missing=(), in_skin=True, basis_now="", number_on="",
        dressed_at=None, days_hung=None, holds=(),
    )  # fmt: skip
    heads, values = _read(deliveries_csv([carcass]))
    row = dict(zip(heads, values, strict=True))
    assert row["weight_g"] == "23400"
    assert row["weight_basis"] == "in the skin"
    assert row["temperatures_c"] == "haunch -0.3; shoulder 5.2"
    assert row["statements"] == "no abnormal behaviour: yes"
    assert row["supplier"].startswith("'=cmd")
    assert row["tag"] == "'@tag"
    assert row["declaration_number"] == "'-7+7"
    assert row["supplier_weight_g"] == ""
