"""The kitchen's own figures: what may be set, what may not, and that none lifts a limit of the law."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.facts.loading import UnknownFact
from gametrace.register import acts, policies, questions


def set_to(house: House, name: str, value: str, **given: str) -> None:
    acts.set_policy(
        house.reg,
        by=given.pop("by", house.tutor),
        name=name,
        value=value,
        reason=given.pop("why", "our plan"),
    )


# (name, value, field of Policies, what it reads as): both ends of every range.
SET = [
    ("accepted_origins", "park,wild-shot", "accepted_origins", frozenset({"park", "wild-shot"})),
    ("own_limit_tenths_c", "-50", "own_limit_tenths_c", -50),
    ("own_limit_tenths_c", "150", "own_limit_tenths_c", 150),
    ("probe_days", "1", "probe_days", 1),
    ("probe_days", "366", "probe_days", 366),
    ("chill_limit_tenths_c", "-20", "chill_limit_tenths_c", -20),
    ("freezer_limit_tenths_c", "-400", "freezer_limit_tenths_c", -400),
    ("freezer_limit_tenths_c", "0", "freezer_limit_tenths_c", 0),
    ("tolerance_minutes", "0", "tolerance_minutes", 0),
    ("tolerance_minutes", "1440", "tolerance_minutes", 1440),
    ("reading_minutes", "5", "reading_minutes", 5),
    ("hanging_days.red", "0-60", "hanging_days", {"red": (0, 60)}),
    ("category.skin", "2|the council|2026-11-12", "categories", {"skin": (2, "the council", "2026-11-12")}),
]


@pytest.mark.parametrize(("name", "value", "field", "reads"), SET)
def test_a_figure_is_set_read_typed_and_taken_back(
    house: House, name: str, value: str, field: str, reads: object
) -> None:
    at_first = getattr(questions.policies(house.reg), field)
    set_to(house, name, value)
    assert getattr(questions.policies(house.reg), field) == reads
    acts.rebuild(house.reg)
    assert getattr(questions.policies(house.reg), field) == reads
    set_to(house, name, "")
    assert getattr(questions.policies(house.reg), field) == at_first


# One beyond each end, and what is no figure of that sort at all.
BAD = [
    ("own_limit_tenths_c", "-51"),
    ("own_limit_tenths_c", "151"),
    ("own_limit_tenths_c", "7.0"),
    ("probe_days", "0"),
    ("probe_days", "367"),
    ("chill_limit_tenths_c", "151"),
    ("freezer_limit_tenths_c", "1"),
    ("freezer_limit_tenths_c", "-401"),
    ("tolerance_minutes", "-1"),
    ("tolerance_minutes", "1441"),
    ("reading_minutes", "4"),
    ("reading_minutes", "10081"),
    ("accepted_origins", "park,moon"),
    ("hanging_days.red", "9-7"),
    ("hanging_days.red", "0-61"),
    ("hanging_days.red", "-1-7"),
    ("hanging_days.red", "7"),
    ("hanging_days.dodo", "3-5"),
    ("category.skin", "4|council|2026-11-12"),
    ("category.skin", "3| |2026-11-12"),
    ("category.skin", "3|council|12/11/2026"),
    ("category.skin", "3|council"),
    ("category.thumb", "3|council|2026-11-12"),
    ("colour", "blue"),
    ("", "1"),
]


@pytest.mark.parametrize(("name", "value"), BAD)
def test_a_figure_that_cannot_be_is_refused_and_nothing_is_written(
    house: House, name: str, value: str
) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        set_to(house, name, value)
    assert refused.value.field in ("name", "value")
    assert questions.seal(house.reg) == before


def test_a_figure_wants_a_reason_and_a_change(house: House) -> None:
    for why in ("", "  ", "\u200b"):
        with pytest.raises(Refusal, match="needs a reason"):
            set_to(house, "probe_days", "9", why=why)
    set_to(house, "probe_days", "9")
    with pytest.raises(Refusal, match="already"):
        set_to(house, "probe_days", "9")


@pytest.mark.parametrize("who", ["student", "officer"])
def test_student_and_officer_set_nothing(house: House, who: str) -> None:
    with pytest.raises(Refusal):
        set_to(house, "probe_days", "9", by=getattr(house, who))


def test_an_own_limit_asks_from_the_next_delivery_on_and_lifts_no_limit_of_the_law(house: House) -> None:
    before = house.receive(readings=(("haunch", 60),))
    set_to(house, "own_limit_tenths_c", "50")

    def codes(code: str) -> dict[str, str]:
        return {f.code: f.severity for f in questions.carcass(house.reg, code).findings}

    after = house.receive(readings=(("haunch", 60),))
    assert "above-own-limit" not in codes(before), "what was ruled at the door stays as it was ruled"
    assert codes(after)["above-own-limit"] == Severity.ASK
    set_to(house, "own_limit_tenths_c", "120")
    assert codes(house.receive(readings=(("haunch", 71),)))["too-warm"] == Severity.STOP


NAMES = [*policies._SINGLE, "hanging_days.red", "category.skin", "hanging_days.", "category.", "nothing"]


@given(
    name=st.sampled_from(NAMES),
    value=st.text(max_size=12)
    | st.sampled_from(["=1+1", "<b>7</b>", "٧", "1e3", "1_0", " 7 ", "7,5", "-0", "3|x|2026-02-30", "park,"]),
)
def test_any_text_is_a_figure_or_refused_and_a_figure_reads_back(name: str, value: str) -> None:
    try:
        policies._check(name, value)
    except Refusal:
        return
    if value:
        assert policies._read(name, value) == policies._read(name, value)
        assert value.isascii() or "|" in value, "figures are written in the digits of the keyboard"


def test_an_unknown_species_is_known_to_be_unknown() -> None:
    with pytest.raises((UnknownFact, Refusal)):
        policies._check("hanging_days.unicorn", "")
