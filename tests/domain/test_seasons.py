"""Seasons against the statutes, both boundary days of every row; each table names its source.

The expected days are written out here a second time, by hand, and not read from the facts.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.seasons import SeasonRuling, rule_season, season_findings
from gametrace.facts import UnknownFact
from gametrace.facts.origins import ORIGINS
from gametrace.facts.seasons import JURISDICTIONS, season_rows
from gametrace.facts.species import all_species

EW, SCO, NI = "england-wales", "scotland", "northern-ireland"
DAY = timedelta(days=1)


def rule(kind: str, sex: str, day: date, where: str, origin: str = "wild-shot") -> SeasonRuling:
    return rule_season(species=kind, sex=sex, killed_on=day, jurisdiction=where, origin=origin)


# (species, sex, jurisdiction, first open day, last open day)
OPEN: list[tuple[str, str, str, date, date]] = []


def _row(kinds: str, sex: str, where: str, first: date, last: date) -> None:
    OPEN.extend((kind, sex, where, first, last) for kind in kinds.split())


# Deer Act 1991 Sch.1 as replaced by SI 2007/2183 art.5. Also common practice, no source.
_row("red sika red-sika-hybrid fallow", "male", EW, date(2026, 8, 1), date(2027, 4, 30))
_row("red sika red-sika-hybrid fallow", "female", EW, date(2026, 11, 1), date(2027, 3, 31))
_row("roe", "male", EW, date(2026, 4, 1), date(2026, 10, 31))
_row("roe", "female", EW, date(2026, 11, 1), date(2027, 3, 31))
_row("chinese-water-deer", "male", EW, date(2026, 11, 1), date(2027, 3, 31))
_row("chinese-water-deer", "female", EW, date(2026, 11, 1), date(2027, 3, 31))
# The first season under SI 2007/2183, in force 1 October 2007.
_row("red sika red-sika-hybrid fallow roe", "female", EW, date(2007, 11, 1), date(2008, 3, 31))
# Deer Act 1991 Sch.1 before October 2007: females to the last of February, leap year and not.
_row("red sika fallow roe", "female", EW, date(2005, 11, 1), date(2006, 2, 28))
_row("red sika fallow roe", "female", EW, date(2003, 11, 1), date(2004, 2, 29))
# SSI 2011/417 Schedule; art.2(2): each named day is wholly close season.
_row("red sika red-sika-hybrid fallow", "female", SCO, date(2026, 10, 21), date(2027, 2, 15))
_row("roe", "female", SCO, date(2026, 10, 21), date(2027, 3, 31))
# SSI 2011/417 as made, for kills before 21 October 2023.
_row("red sika red-sika-hybrid", "male", SCO, date(2022, 7, 1), date(2022, 10, 20))
_row("fallow", "male", SCO, date(2021, 8, 1), date(2022, 4, 30))
_row("roe", "male", SCO, date(2022, 4, 1), date(2022, 10, 20))
# Wildlife (NI) Order 1985 art.19 and Sch.10 as repeated by secondary pages.
_row("red sika fallow", "male", NI, date(2026, 8, 1), date(2027, 4, 30))
# BASC quarry seasons table (Game Act 1831 s.3; Wildlife and Countryside Act 1981 s.2(4)).
_row("pheasant", "male", EW, date(2026, 10, 1), date(2027, 2, 1))
_row("pheasant", "female", SCO, date(2026, 10, 1), date(2027, 2, 1))
_row("pheasant", "male", NI, date(2026, 10, 1), date(2027, 1, 31))
_row("grey-partridge red-legged-partridge", "male", EW, date(2026, 9, 1), date(2027, 2, 1))
_row("grey-partridge red-legged-partridge", "male", SCO, date(2026, 9, 1), date(2027, 2, 1))
_row("grey-partridge red-legged-partridge", "male", NI, date(2026, 9, 1), date(2027, 1, 31))
_row("red-grouse", "male", EW, date(2026, 8, 12), date(2026, 12, 10))
_row("red-grouse", "male", SCO, date(2026, 8, 12), date(2026, 12, 10))
_row("red-grouse", "male", NI, date(2026, 8, 12), date(2026, 11, 30))
_row("black-grouse", "male", EW, date(2026, 8, 20), date(2026, 12, 10))
_row("black-grouse", "male", SCO, date(2026, 8, 20), date(2026, 12, 10))
_row("ptarmigan", "male", SCO, date(2026, 8, 12), date(2026, 12, 10))
_row("mallard", "male", NI, date(2026, 9, 1), date(2027, 1, 31))
_row("snipe", "male", EW, date(2026, 8, 12), date(2027, 1, 31))
_row("snipe", "male", SCO, date(2026, 8, 12), date(2027, 1, 31))
_row("snipe", "male", NI, date(2026, 9, 1), date(2027, 1, 31))
_row("woodcock", "male", EW, date(2026, 10, 1), date(2027, 1, 31))
_row("woodcock", "male", SCO, date(2026, 9, 1), date(2027, 1, 31))
_row("woodcock", "male", NI, date(2026, 10, 1), date(2027, 1, 31))
# Wildlife and Countryside Act 1981 s.10A(2)(b): brown hare in Scotland closed 1 Feb to 30 Sep.
_row("brown-hare", "male", SCO, date(2026, 10, 1), date(2027, 1, 31))
# NatureScot page, for mountain hare before 1 March 2021: closed 1 March to 31 July.
_row("mountain-hare", "male", SCO, date(2018, 8, 1), date(2019, 2, 28))
_row("mountain-hare", "male", SCO, date(2015, 8, 1), date(2016, 2, 29))

ROW_IDS = [f"{kind}-{sex}-{where}-{first}" for kind, sex, where, first, _ in OPEN]


@pytest.mark.parametrize(("kind", "sex", "where", "first", "last"), OPEN, ids=ROW_IDS)
def test_both_boundary_days_are_open_and_the_days_beyond_are_closed(
    kind: str, sex: str, where: str, first: date, last: date
) -> None:
    for day in (first, last):
        ruling = rule(kind, sex, day, where)
        assert (ruling.open, ruling.opens, ruling.closes) == (True, first, last)
        assert ruling.source
        assert ruling.status
    before = rule(kind, sex, first - DAY, where)
    assert (before.open, before.opens, before.closes) == (False, first, last)
    after = rule(kind, sex, last + DAY, where)
    assert after.open is False
    assert after.opens is not None
    assert after.opens > last


# Brown hare EW: Hares Preservation Act 1892. Woodpigeon, rabbit, boar: the pages named in the facts.
ALL_YEAR = [
    ("muntjac", EW),  # not in Deer Act 1991 Sch.1
    ("muntjac", SCO),  # not in SSI 2011/417 Sch.
    ("chinese-water-deer", SCO),  # not in SSI 2011/417 Sch.
    ("wild-boar", EW),
    ("wild-boar", SCO),
    ("rabbit", EW),
    ("rabbit", SCO),
    ("brown-hare", EW),
    ("woodpigeon", EW),
    ("woodpigeon", SCO),
    ("woodpigeon", NI),
]


@pytest.mark.parametrize(("kind", "where"), ALL_YEAR)
@pytest.mark.parametrize("sex", ["male", "female", "unknown"])
@pytest.mark.parametrize("day", [date(2024, 2, 29), date(2026, 6, 15), date(2026, 12, 31), date(2028, 2, 29)])
def test_what_has_no_close_season_is_open_on_any_day(kind: str, where: str, sex: str, day: date) -> None:
    ruling = rule(kind, sex, day, where)
    assert (ruling.open, ruling.opens, ruling.closes) == (True, None, None)


NO_RULE = [
    ("roe", NI),
    ("muntjac", NI),
    ("chinese-water-deer", NI),
    ("red-sika-hybrid", NI),
    ("wild-boar", NI),
    ("rabbit", NI),
    ("brown-hare", NI),
    ("mountain-hare", NI),
    ("mountain-hare", EW),
    ("black-grouse", NI),
    ("ptarmigan", EW),
    ("ptarmigan", NI),
]


@pytest.mark.parametrize(("kind", "where"), NO_RULE)
def test_where_no_rule_was_read_the_answer_is_neither_yes_nor_no(kind: str, where: str) -> None:
    ruling = rule(kind, "male", date(2026, 12, 1), where)
    assert (ruling.open, ruling.opens, ruling.closes) == (None, None, None)
    assert ruling.status == "unresolved"
    assert ruling.note


def test_every_row_of_the_facts_is_held_against_the_outside_here() -> None:
    for row in season_rows():
        for kind in row.species:
            if row.all_year or row.closed_all_year or row.hinges_on:
                continue
            tried = [
                first
                for one, sex, where, first, _ in OPEN
                if one == kind and row.sex in (sex, "both") and where == row.jurisdiction
            ]
            by_hand = kind == "mallard" or row.id == "ni-female"  # they have tests of their own below
            assert by_hand or any(row.in_force(first) for first in tried), (row.id, kind)


# SSI 2011/417 as amended: no close season for male deer in Scotland from 21 October 2023.
@pytest.mark.parametrize("kind", ["red", "sika", "red-sika-hybrid", "fallow", "roe"])
def test_scottish_males_have_no_close_season_from_21_october_2023(kind: str) -> None:
    for day in (date(2023, 10, 21), date(2024, 2, 29), date(2024, 6, 1), date(2028, 2, 29)):
        ruling = rule(kind, "male", day, SCO)
        assert (ruling.open, ruling.opens, ruling.closes) == (True, None, None)


# SSI 2011/417 as made: red, sika and hybrid stags closed 21 October to 30 June, roe bucks to 31 March.
def test_scottish_males_before_21_october_2023_keep_the_old_close_season() -> None:
    for kind in ("red", "sika", "red-sika-hybrid", "roe"):
        assert rule(kind, "male", date(2023, 10, 20), SCO).open is True
        assert rule(kind, "male", date(2022, 10, 21), SCO).open is False
    assert rule("red", "male", date(2023, 6, 30), SCO).open is False
    assert rule("fallow", "male", date(2023, 7, 31), SCO).open is False


def test_before_the_order_of_2011_no_scottish_rule_is_held() -> None:
    assert rule("red", "female", date(2011, 12, 31), SCO).open is None
    assert rule("red", "female", date(2012, 1, 1), SCO).open is True


# SI 2007/2183 note: hybrids and Chinese water deer got their first close season on 1 October 2007.
@pytest.mark.parametrize("kind", ["red-sika-hybrid", "chinese-water-deer"])
def test_hybrids_and_water_deer_had_no_close_season_before_october_2007(kind: str) -> None:
    assert rule(kind, "female", date(2007, 9, 30), EW).open is True
    assert rule(kind, "female", date(2007, 10, 1), EW).open is False


# Deer Act 1991 Sch.1 before and after SI 2007/2183: March opened for females in 2008.
def test_march_opened_for_english_hinds_in_2008_and_not_before() -> None:
    assert rule("red", "female", date(2007, 3, 1), EW).open is False
    assert rule("red", "female", date(2008, 3, 1), EW).open is True
    assert rule("red", "male", date(2007, 9, 30), EW).open is None  # no older table of males was read


# Wildlife (NI) Order 1985 Sch.10: sources agree to February and disagree on March.
@pytest.mark.parametrize("kind", ["red", "sika", "fallow"])
def test_hinds_and_does_in_march_in_northern_ireland_are_not_settled(kind: str) -> None:
    for day in (date(2027, 3, 1), date(2027, 3, 31), date(2028, 3, 1)):
        ruling = rule(kind, "female", day, NI)
        assert (ruling.open, ruling.opens, ruling.closes) == (None, None, None)
        assert "disagree" in ruling.note
    for day in (date(2026, 11, 1), date(2027, 2, 28), date(2028, 2, 29)):
        assert rule(kind, "female", day, NI).open is True
    for day in (date(2026, 10, 31), date(2027, 4, 1)):
        ruling = rule(kind, "female", day, NI)
        assert ruling.open is False
        assert ruling.opens is not None
        assert (ruling.opens.month, ruling.opens.day) == (11, 1)
    assert rule(kind, "female", date(2027, 12, 1), NI).closes == date(2028, 2, 29)


# BASC table: below the high-water mark to 20 February, inland to 31 January.
@pytest.mark.parametrize("where", [EW, SCO])
def test_february_mallard_hinge_on_where_they_were_shot(where: str) -> None:
    assert rule("mallard", "male", date(2026, 9, 1), where).open is True
    assert rule("mallard", "male", date(2027, 1, 31), where).open is True
    for day in (date(2027, 2, 1), date(2027, 2, 20)):
        ruling = rule("mallard", "male", day, where)
        assert ruling.open is None
        assert "high-water mark" in ruling.note
    assert rule("mallard", "male", date(2027, 2, 21), where).open is False
    assert rule("mallard", "male", date(2026, 8, 31), where).open is False


# Animals and Wildlife (Scotland) Act 2020: mountain hares protected all year from 1 March 2021.
def test_mountain_hares_in_scotland_are_closed_all_year_since_march_2021() -> None:
    assert rule("mountain-hare", "male", date(2021, 2, 28), SCO).open is True
    for day in (date(2021, 3, 1), date(2026, 8, 1), date(2028, 2, 29)):
        ruling = rule("mountain-hare", "male", day, SCO)
        assert (ruling.open, ruling.opens, ruling.closes) == (False, None, None)


LEAP = [
    ("fallow", "female", EW, True),
    ("fallow", "male", EW, True),
    ("roe", "male", EW, False),
    ("chinese-water-deer", "female", EW, True),
    ("muntjac", "female", EW, True),
    ("red", "female", SCO, False),
    ("roe", "female", SCO, True),
    ("red", "female", NI, True),
    ("pheasant", "male", EW, False),
]


@pytest.mark.parametrize(("kind", "sex", "where", "is_open"), LEAP)
@pytest.mark.parametrize("day", [date(2024, 2, 29), date(2028, 2, 29)])
def test_the_29th_of_february_is_ruled_like_any_day(
    kind: str, sex: str, where: str, is_open: bool, day: date
) -> None:
    assert rule(kind, sex, day, where).open is is_open


# Deer legislation best-practice guide: enclosed park deer are treated as wild for season purposes.
@pytest.mark.parametrize("day", [date(2026, 10, 31), date(2026, 11, 1), date(2024, 2, 29)])
@pytest.mark.parametrize("where", [EW, SCO, NI])
def test_park_deer_are_ruled_as_wild(day: date, where: str) -> None:
    assert rule("fallow", "female", day, where, "park") == rule("fallow", "female", day, where)


# Deer Act 1991 s.2(3): barrier and conspicuous marking.
@pytest.mark.parametrize("origin", ["field-farmed", "indoor-farmed"])
def test_farmed_deer_in_england_are_exempt_as_the_statute_words_it(origin: str) -> None:
    ruling = rule("red", "female", date(2026, 6, 1), EW, origin)
    assert (ruling.open, ruling.opens, ruling.closes) == (True, None, None)
    assert "deer-proof barrier" in ruling.note
    assert "conspicuously marked" in ruling.note
    assert "s.2(3)" in ruling.source


# Deer (Scotland) Act 1996 s.43: no close season for farmed deer, but ss.33-36 bind.
def test_farmed_deer_in_scotland_are_exempt_but_not_from_the_dealing_rules() -> None:
    ruling = rule("red", "female", date(2026, 6, 1), SCO, "field-farmed")
    assert ruling.open is True
    assert "s.43" in ruling.source
    assert "ss.33-36" in ruling.note


# Wildlife (NI) Order 1985 art.2(2): enclosed deer are deer; no exemption was read.
def test_farmed_deer_in_northern_ireland_are_not_settled_in_the_close_time() -> None:
    assert rule("red", "female", date(2026, 6, 1), NI, "field-farmed").open is None
    assert rule("red", "female", date(2026, 12, 1), NI, "field-farmed").open is True


def test_the_farmed_exemption_is_for_deer_alone() -> None:
    assert rule("pheasant", "male", date(2026, 6, 1), EW, "field-farmed").open is False


def test_an_unknown_sex_is_open_or_closed_only_where_both_agree() -> None:
    both_open = rule("red", "unknown", date(2026, 12, 1), EW)
    assert (both_open.open, both_open.opens, both_open.closes) == (
        True,
        date(2026, 11, 1),
        date(2027, 3, 31),
    )
    assert rule("red", "unknown", date(2026, 6, 1), EW).open is False
    differs = rule("red", "unknown", date(2026, 9, 1), EW)
    assert (differs.open, differs.opens, differs.closes) == (None, None, None)
    assert "sex is not known" in differs.note


@given(
    kind=st.sampled_from([one.id for one in all_species()]),
    sex=st.sampled_from(["male", "female", "unknown"]),
    day=st.dates(),
    where=st.sampled_from(sorted(JURISDICTIONS)),
    origin=st.sampled_from(sorted(ORIGINS)),
)
def test_any_day_of_any_year_gets_a_consistent_ruling(
    kind: str, sex: str, day: date, where: str, origin: str
) -> None:
    ruling = rule(kind, sex, day, where, origin)
    assert (ruling.opens is None) == (ruling.closes is None)
    assert ruling.source
    assert ruling.status
    if ruling.opens is not None and ruling.closes is not None:
        if ruling.open:
            assert ruling.opens <= day <= ruling.closes
        elif ruling.open is False and sex != "unknown":
            assert ruling.opens > day
    given_finding = season_findings(species=kind, sex=sex, killed_on=day, jurisdiction=where, origin=origin)
    assert len(given_finding) == 1


def find(kind: str, sex: str, day: date, where: str, origin: str = "wild-shot"):  # type: ignore[no-untyped-def]
    [finding] = season_findings(species=kind, sex=sex, killed_on=day, jurisdiction=where, origin=origin)
    return finding


def test_out_of_season_is_a_stop_that_asks_for_the_licence() -> None:
    finding = find("fallow", "female", date(2026, 10, 31), EW)
    assert (finding.code, finding.severity) == ("season-closed", Severity.STOP)
    assert "1 November 2026 to 31 March 2027" in finding.sentence
    assert "fallow doe" in finding.sentence
    assert "its type and its number" in finding.what_to_do
    assert "Deer Act 1991" in finding.source
    assert finding.status == "seen-2"


@pytest.mark.parametrize(("kind", "where"), [("fallow", EW), ("red", SCO), ("red", NI), ("pheasant", EW)])
def test_every_jurisdiction_names_what_may_make_a_kill_lawful(kind: str, where: str) -> None:
    finding = find(kind, "female", date(2026, 6, 1), where)
    assert finding.severity is Severity.STOP
    assert "may still be lawful" in finding.what_to_do


def test_what_is_not_settled_asks() -> None:
    finding = find("red", "female", date(2027, 3, 15), NI)
    assert (finding.code, finding.severity) == ("season-unclear", Severity.ASK)


def test_in_season_is_a_note_with_its_source() -> None:
    finding = find("fallow", "male", date(2026, 8, 1), EW)
    assert (finding.code, finding.severity) == ("season-open", Severity.NOTE)
    assert finding.source


@pytest.mark.parametrize(
    "spoilt",
    [{"species": "dodo"}, {"sex": "stag"}, {"jurisdiction": "ireland"}, {"origin": "shop"}],
)
def test_a_word_nobody_knows_is_refused_with_the_words_that_are_known(spoilt: dict[str, str]) -> None:
    words = {"species": "red", "sex": "male", "jurisdiction": EW, "origin": "park"} | spoilt
    with pytest.raises(UnknownFact, match="Use one of"):
        rule_season(killed_on=date(2026, 9, 1), **words)


# NI partridge: an older page says 1 October; the notes to the 2002 Act s.1 close 1 February to 31 August.
def test_northern_irish_partridge_open_on_1_september_and_say_that_a_page_differs() -> None:
    ruling = rule("grey-partridge", "male", date(2026, 9, 1), NI)
    assert ruling.open is True
    assert "1 October" in ruling.note
    assert "2002 Act" in ruling.note


# Written answer 61833: support for a close season for hares in England is no law.
def test_english_hares_have_no_close_season_yet_and_the_note_speaks_of_sale() -> None:
    ruling = rule("brown-hare", "male", date(2026, 5, 1), EW)
    assert ruling.open is True
    assert "may not be sold from 1 March to 31 July" in ruling.note


# basc.biz/?p=61489: Sundays and Christmas Day are told with the season as well as ruled on by themselves.
@pytest.mark.parametrize("kind", ["pheasant", "grey-partridge", "red-legged-partridge", "red-grouse"])
def test_the_season_of_english_game_birds_tells_of_sundays(kind: str) -> None:
    assert "Sunday" in rule(kind, "male", date(2026, 10, 5), EW).note


# Wildlife (NI) Order 1985 art.2(2): deer on enclosed land are deer.
def test_enclosed_deer_in_northern_ireland_are_deer() -> None:
    assert rule("fallow", "female", date(2026, 6, 1), NI, "park").open is False
