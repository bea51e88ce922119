"""Temperatures against 7 / 4 / 3 degrees C; the highest reading rules."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.temperatures import probe_findings, temperature_findings
from gametrace.facts.temperatures import chill_limit, limit_for, limits, probe_check


def read(
    kind: str, *readings: tuple[str, int], known: bool = True, where: str = "england-wales"
) -> tuple[Finding, ...]:
    return temperature_findings(species=kind, readings=readings, killed_at_known=known, jurisdiction=where)


# Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(5): large game 7 C; Ch. III(4): small game 4 C.
@pytest.mark.parametrize(
    ("kind", "tenths_c"), [("fallow", 70), ("wild-boar", 70), ("pheasant", 40), ("brown-hare", 40)]
)
def test_the_limit_itself_is_within_and_a_tenth_more_stops(kind: str, tenths_c: int) -> None:
    assert limit_for(kind).tenths_c == tenths_c
    [within] = read(kind, ("haunch", tenths_c))
    assert (within.code, within.severity) == ("temperature-within", Severity.NOTE)
    [above] = read(kind, ("haunch", tenths_c + 1))
    assert (above.code, above.severity) == ("too-warm", Severity.STOP)
    assert "853/2004" in above.source


# Regulation (EC) 853/2004 Annex III Sec. I Ch. V and VII: offal 3 C.
def test_offal_has_its_own_limit_beside_the_meat() -> None:
    meat, offal = read("fallow", ("haunch", 50), ("Liver", 31))
    assert meat.code == "temperature-within"
    assert offal.code == "too-warm"
    assert limits()["offal"].tenths_c == 30
    [alone] = read("fallow", ("pluck", 30))
    assert alone.code == "temperature-within"


def test_the_highest_reading_rules_and_its_place_is_named() -> None:
    [finding] = read("red", ("haunch", 65), ("shoulder", 82), ("ribs", 40))
    assert finding.severity is Severity.STOP
    assert "8.2 °C (shoulder)" in finding.sentence


def test_none_taken_asks_and_names_the_limit() -> None:
    [finding] = read("red")
    assert (finding.code, finding.severity) == ("no-temperature", Severity.ASK)
    assert "7.0 °C" in finding.sentence


def test_falling_with_a_known_kill_time_is_a_reason_to_hold_rather_than_reject() -> None:
    [known] = read("red", ("haunch", 90))
    assert "hold rather than to reject" in known.what_to_do
    [unknown] = read("red", ("haunch", 90), known=False)
    assert "ask when it was killed" in unknown.what_to_do


# SI 2013/2996 Sch.4 para 2 (England), WSI 2006/31 Sch.4 para 2 (Wales): 8 C. Scotland: no figure.
def test_the_kitchen_law_is_kept_apart_from_the_game_limit() -> None:
    assert chill_limit("england-wales").tenths_c == 80
    assert chill_limit("scotland").tenths_c is None
    [between] = read("red", ("haunch", 75))
    assert "not above the 8.0 °C" in between.sentence
    [over] = read("red", ("haunch", 81))
    assert "also above the 8.0 °C" in over.sentence
    [scots] = read("red", ("haunch", 81), where="scotland")
    assert "names no figure" in scots.sentence


def test_nothing_is_ever_called_safe() -> None:
    for finding in (*read("red", ("haunch", 10)), *read("red", ("haunch", 90)), *read("red")):
        assert "safe" not in f"{finding.sentence} {finding.what_to_do}".lower()


def test_with_no_jurisdiction_set_up_yet_the_game_limit_still_rules() -> None:
    [finding] = read("red", ("haunch", 81), where="")
    assert finding.code == "too-warm"
    assert "kitchen" not in finding.sentence


# Regulation (EC) 853/2004 Annex III Sec. IV Ch. III(4)-(5), read in the FSAI page on small wild game.
def test_small_game_is_chilled_within_a_reasonable_time_and_drawn_on_arrival() -> None:
    note = limits()["small"].note
    assert "no hours fixed" in note
    assert "drawn without undue delay" in note


# SR (NI) 1997/496 Sch.6, revoked, same figures as the regulation: room 12 C, frozen -12 C.
def test_the_cutting_room_and_frozen_game_have_their_figures() -> None:
    assert limits()["room"].tenths_c == 120
    assert limits()["frozen"].tenths_c == -120


def own(kind: str, *readings: tuple[str, int], limit: int | None) -> tuple[Finding, ...]:
    return temperature_findings(
        species=kind,
        readings=readings,
        killed_at_known=True,
        jurisdiction="england-wales",
        own_limit_tenths_c=limit,
    )


def test_the_kitchens_own_limit_asks_apart_from_the_laws_figure() -> None:
    within, asked = own("red", ("haunch", 60), limit=50)
    assert within.code == "temperature-within"
    assert (asked.code, asked.severity) == ("above-own-limit", Severity.ASK)
    assert "law's figure" in asked.sentence
    assert "own limit of 5.0 °C" in asked.sentence
    assert asked.status == "own"
    assert [one.code for one in own("red", ("haunch", 50), limit=50)] == ["temperature-within"]


def test_above_the_laws_figure_the_stop_stands_alone() -> None:
    assert [one.code for one in own("red", ("haunch", 71), limit=50)] == ["too-warm"]
    # A limit of the kitchen's own above the law's lifts nothing.
    assert [one.code for one in own("red", ("haunch", 71), limit=90)] == ["too-warm"]
    assert [one.code for one in own("red", ("haunch", 60), limit=None)] == ["temperature-within"]


def test_the_kitchens_own_limit_is_for_meat_and_not_for_offal() -> None:
    assert [one.code for one in own("red", ("liver", 25), limit=20)] == ["temperature-within"]


TODAY = date(2026, 11, 25)


def probe(last: date | None, days: int | None = None) -> list[Finding]:
    return list(probe_findings(probe="P3", last_checked_on=last, on=TODAY, days=days))


def test_a_probe_checked_within_its_days_is_not_mentioned_and_a_day_later_is() -> None:
    days = probe_check().days
    assert probe(TODAY - timedelta(days=days)) == []
    [finding] = probe(TODAY - timedelta(days=days + 1))
    assert (finding.code, finding.severity) == ("probe-not-checked", Severity.ASK)
    assert "Probe P3" in finding.sentence
    assert finding.status == "inference"


def test_the_kitchen_sets_its_own_days_for_the_probe() -> None:
    assert probe(TODAY - timedelta(days=7), days=7) == []
    [finding] = probe(TODAY - timedelta(days=8), days=7)
    assert "7 are allowed" in finding.sentence
    assert finding.status == "own"


def test_a_probe_never_checked_or_checked_tomorrow_is_asked_about() -> None:
    assert "no check on record" in probe(None)[0].sentence
    assert "lies ahead" in probe(TODAY + timedelta(days=1))[0].sentence


@given(last=st.none() | st.dates(), on=st.dates(), days=st.integers(0, 400))
def test_any_two_days_get_at_most_one_question_about_the_probe(
    last: date | None, on: date, days: int
) -> None:
    found = probe_findings(probe="", last_checked_on=last, on=on, days=days)
    assert len(found) <= 1
    assert (found == ()) == (last is not None and 0 <= (on - last).days <= days)


@given(
    tenths=st.integers(-400, 450),
    limit=st.none() | st.integers(-400, 450),
    kind=st.sampled_from(["red", "pheasant", "wild-boar"]),
)
def test_any_reading_and_own_limit_give_the_laws_finding_first(
    tenths: int, limit: int | None, kind: str
) -> None:
    found = own(kind, ("haunch", tenths), limit=limit)
    law = limit_for(kind).tenths_c or 0
    assert found[0].code == ("too-warm" if tenths > law else "temperature-within")
    assert len(found) == 1 + (limit is not None and limit < tenths <= law)
