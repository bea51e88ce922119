"""Lawful reasons for a kill out of season or at night; each row of the table names its source."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.night import night_findings
from gametrace.domain.seasons import season_findings
from gametrace.facts import UnknownFact
from gametrace.facts.exceptions import LIFTS, exception_type, exception_types
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.sources import citation

EW, SCO, NI = "england-wales", "scotland", "northern-ireland"

# (jurisdiction, id, lifts, source): the table written out a second time, by hand.
TABLE = [
    (EW, "ew-season-licence", {"season"}, "Deer Act 1991, s.8"),  # SI 2007/2183 art.4, explanatory note
    (EW, "ew-night-licence", {"night"}, "Deer Act 1991, s.8"),  # the same
    (EW, "ew-dependent-young", {"season", "night"}, "s.6(2A)"),  # SI 2007/2183 art.3
    (EW, "ew-mercy", {"season", "night"}, "JNCC"),  # archive.jncc.gov.uk/page-3206
    (EW, "ew-occupier", {"season"}, "Deer Act 1991, s.7"),  # Halsbury; the night limb from memory
    (SCO, "s-authorisation", {"season"}, "s.5(6)"),  # 2026 asp 6 s.29 as enacted
    (SCO, "s-night-authorisation", {"night"}, "s.18(2)"),  # Bill text
    (SCO, "s-mercy", {"season", "night"}, "s.18(1)"),  # Deer Working Group report, section 6
    (SCO, "s-hare-licence", {"season"}, "(Scotland) Act 2020"),  # protected unless licensed
    (NI, "ni-licence", {"season", "night"}, "art.21"),  # lifts article 19, so both
    (NI, "ni-article-20", {"season", "night"}, "art.20"),  # not read
]


@pytest.mark.parametrize(("where", "name", "lifts", "law"), TABLE, ids=[row[1] for row in TABLE])
def test_each_reason_lifts_what_its_source_says(where: str, name: str, lifts: set[str], law: str) -> None:
    held = exception_type(name)
    assert held in exception_types(where)
    assert set(held.lifts) == lifts
    assert law in citation(held.source)
    assert held.asks


def test_every_reason_held_is_in_the_table_or_is_another_licence() -> None:
    held = {one.id for where in JURISDICTIONS for one in exception_types(where)}
    others = {"ew-other-licence", "s-other-licence", "ni-other-licence"}
    assert held == {row[1] for row in TABLE} | others


# Defra's Deer Impacts Policy Statement, 20 February 2026: licensing easier, the statutory dates unchanged.
def test_the_policy_of_2026_changed_no_date() -> None:
    assert season(killed_on=date(2026, 5, 1), sex="male").severity is Severity.STOP
    assert season(killed_on=date(2026, 4, 30), sex="male").severity is Severity.NOTE


def season(**given: Any) -> Finding:
    whole: dict[str, Any] = {
        "species": "fallow",
        "sex": "female",
        "killed_on": date(2026, 10, 31),
        "jurisdiction": EW,
        "origin": "wild-shot",
    } | given
    [finding] = season_findings(**whole)
    return finding


def night(**given: Any) -> Finding:
    whole: dict[str, Any] = {
        "species": "fallow",
        "origin": "wild-shot",
        "jurisdiction": EW,
        "killed_on": date(2026, 11, 14),
        "kill_time": "23:10",
        "latitude_millionths": 51_500_000,
        "longitude_millionths": -125_000,
    } | given
    [finding] = night_findings(**whole)
    return finding


def test_a_licence_with_its_number_turns_the_stop_into_a_note() -> None:
    assert season().severity is Severity.STOP
    finding = season(exception=("ew-season-licence", " L-2026/44 "))
    assert (finding.code, finding.severity) == ("exception-given", Severity.NOTE)
    assert "number L-2026/44" in finding.sentence
    assert "close season" in finding.sentence
    assert "Deer Act 1991, s.8" in finding.source
    assert "supplier's word" in finding.what_to_do
    finding = night(exception=("ew-night-licence", "N-7"))
    assert (finding.code, finding.severity) == ("exception-given", Severity.NOTE)


@pytest.mark.parametrize(
    ("given", "why"),
    [
        (("ew-season-licence", "  "), "its number is missing"),
        (("ew-dependent-young", ""), "it still wants who saw it"),
        (("ew-night-licence", "N-7"), "it lifts the night rule only"),
        (("s-authorisation", "A-1"), "another jurisdiction"),
    ],
)
def test_what_does_not_answer_the_close_season_leaves_the_stop_and_says_why(
    given: tuple[str, str], why: str
) -> None:
    finding = season(exception=given)
    assert (finding.code, finding.severity) == ("season-closed", Severity.STOP)
    assert why in finding.sentence


# Deer Act 1991 s.7 lifts the close season only.
def test_the_occupiers_defence_does_not_lift_the_night_rule() -> None:
    assert season(exception=("ew-occupier", "Mr Holt, barley")).code == "exception-given"
    finding = night(exception=("ew-occupier", "Mr Holt, barley"))
    assert finding.severity is Severity.STOP
    assert "lifts the close season only" in finding.sentence


def test_a_mercy_kill_is_given_in_words_and_not_by_number() -> None:
    finding = season(exception=("ew-mercy", "P. Vane saw it hit by a car"))
    assert "P. Vane saw it hit by a car" in finding.sentence
    assert "number" not in finding.sentence


def test_a_licence_for_hares_is_not_one_for_deer() -> None:
    hare = season(
        species="mountain-hare",
        jurisdiction=SCO,
        exception=("s-hare-licence", "H-3"),
        killed_on=date(2026, 9, 1),
    )
    assert hare.code == "exception-given"
    red = season(
        species="red", jurisdiction=SCO, exception=("s-hare-licence", "H-3"), killed_on=date(2026, 9, 1)
    )
    assert red.severity is Severity.STOP
    assert "not for this animal" in red.sentence


def test_a_licence_given_in_season_changes_nothing() -> None:
    plain = season(killed_on=date(2026, 12, 1))
    assert season(killed_on=date(2026, 12, 1), exception=("ew-season-licence", "L1")) == plain


def test_what_is_not_settled_may_be_answered_too() -> None:
    march = season(
        species="red", jurisdiction=NI, killed_on=date(2027, 3, 15), exception=("ni-licence", "X9")
    )
    assert march.code == "exception-given"


def test_a_type_nobody_knows_is_refused_with_those_that_are_known() -> None:
    with pytest.raises(UnknownFact, match="Use one of: ew-season-licence"):
        season(exception=("passport", "1"))


@pytest.mark.parametrize("where", sorted(JURISDICTIONS))
def test_every_jurisdiction_can_answer_either_rule_for_deer(where: str) -> None:
    for rule in LIFTS:
        assert any(rule in one.lifts and one.is_for("red") for one in exception_types(where))
