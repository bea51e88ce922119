"""Temperatures against 7 / 4 / 3 degrees C; the highest reading rules."""

from __future__ import annotations

import pytest

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.temperatures import temperature_findings
from gametrace.facts.temperatures import chill_limit, limit_for, limits


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
