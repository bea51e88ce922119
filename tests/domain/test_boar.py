"""Wild boar: held by default, released by a second person, locked by a positive result."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.boar import boar_findings, is_cleared, is_locked, what_to_do_when_positive
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.boar import held_until_result, positive_steps, ways_of_testing


def said(result: str, reference: str = "", entered_by: str = "", held_by: str = "") -> Finding:
    [finding] = boar_findings(result, reference, entered_by, held_by)
    return finding


# Regulation (EU) 2015/1375 Art.2(2)-(3) and 3(1): sampled; no cutting before the result; freezing no cure.
def test_a_boar_waits_for_its_result_and_freezing_does_not_take_its_place() -> None:
    finding = said("awaited")
    assert (finding.code, finding.severity) == ("boar-result-awaited", Severity.STOP)
    assert "freezing does not take its place" in finding.sentence
    assert "2015/1375" in finding.source
    assert "every cut" in finding.what_to_do


def test_a_negative_result_without_the_laboratorys_reference_releases_nothing() -> None:
    finding = said("negative", "   ", "tutor", "technician")
    assert (finding.code, finding.severity) == ("boar-result-awaited", Severity.STOP)
    assert "without the laboratory's reference" in finding.sentence


def test_the_one_who_holds_it_does_not_release_it() -> None:
    for entered_by in ("P. Vane", " p.  vane ", ""):
        finding = said("negative", "L-9", entered_by, "P. Vane")
        assert (finding.code, finding.severity) == ("boar-second-person", Severity.STOP)
        assert "second person" in finding.what_to_do


def test_a_second_person_with_reference_and_negative_result_releases_it() -> None:
    finding = said("negative", "L-9", "R. Holt", "P. Vane")
    assert (finding.code, finding.severity) == ("boar-result-negative", Severity.NOTE)
    assert "L-9" in finding.sentence


def test_a_positive_result_locks_and_says_what_to_do() -> None:
    finding = said("positive", "L-9", "R. Holt", "P. Vane")
    assert (finding.code, finding.severity) == ("boar-result-positive", Severity.STOP)
    assert is_locked("positive")
    assert not is_locked("negative")
    steps = what_to_do_when_positive()
    assert len(steps) == len(positive_steps())
    assert "throw nothing away" in steps[0]
    assert any("Ring the local authority" in step for step in steps)
    assert any("served" in step for step in steps)


# Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(4)(a): head and diaphragm with the body.
def test_everything_of_the_animal_waits() -> None:
    assert [one.id for one in held_until_result()] == [
        "carcass",
        "head",
        "diaphragm",
        "offal",
        "later-lots",
        "by-products",
    ]


# FSA leaflet 2011 and Scottish Government advice: they differ in force, so each is kept with its own words.
def test_the_routes_differ_in_force_and_each_says_so() -> None:
    by_id = {one.id: one for one in ways_of_testing()}
    assert "voluntary" in by_id["hunter"].note
    assert "strongly advises" in by_id["scotland"].note
    assert "Every wild boar is sampled" in by_id["establishment"].note


def test_a_result_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="awaited, negative, positive"):
        boar_findings("clear", "L-9")


@given(
    result=st.sampled_from(["awaited", "negative", "positive"]),
    reference=st.text(max_size=5),
    entered_by=st.text(max_size=5),
    held_by=st.text(min_size=1, max_size=5).filter(str.strip),
)
def test_nothing_but_a_negative_with_reference_by_another_is_less_than_a_stop(
    result: str, reference: str, entered_by: str, held_by: str
) -> None:
    finding = said(result, reference, entered_by, held_by)
    if finding.severity is not Severity.STOP:
        assert is_cleared(result, reference)
        assert entered_by.strip()
        assert entered_by.strip() != held_by.strip()
