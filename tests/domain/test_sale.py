"""Sundays, Christmas Day and the time of sale; each rule names its source."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.sale import forbidden_day_findings, sale_findings
from gametrace.facts import UnknownFact
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.species import all_species

EW, SCO, NI = "england-wales", "scotland", "northern-ireland"


# Game Act 1831 s.3 (basc.biz/?p=61489): no pheasant, partridge, grouse or hare on a Sunday or Christmas Day.
@pytest.mark.parametrize("kind", ["pheasant", "grey-partridge", "red-legged-partridge", "brown-hare"])
def test_game_is_not_killed_on_a_sunday_or_christmas_day_in_england_and_wales(kind: str) -> None:
    for day in (date(2026, 12, 6), date(2026, 12, 25)):
        [finding] = forbidden_day_findings(species=kind, killed_on=day, jurisdiction=EW)
        assert (finding.code, finding.severity) == ("forbidden-day", Severity.STOP)
        assert "Game Act 1831" in finding.source
    assert forbidden_day_findings(species=kind, killed_on=date(2026, 12, 5), jurisdiction=EW) == ()


def test_the_rule_is_for_game_in_england_and_wales_alone() -> None:
    sunday = date(2026, 12, 6)
    for kind, where in (
        ("red", EW),
        ("mallard", EW),
        ("woodpigeon", EW),
        ("pheasant", SCO),
        ("pheasant", NI),
    ):
        assert forbidden_day_findings(species=kind, killed_on=sunday, jurisdiction=where) == ()


# Hares Preservation Act 1892: sale barred 1 March to 31 July.
@pytest.mark.parametrize(
    ("day", "barred"),
    [
        (date(2027, 2, 28), False),
        (date(2028, 2, 29), False),
        (date(2027, 3, 1), True),
        (date(2027, 7, 31), True),
        (date(2027, 8, 1), False),
    ],
)
def test_hares_are_not_sold_from_march_to_july(day: date, barred: bool) -> None:
    [finding] = sale_findings(species="brown-hare", jurisdiction=EW, on=day)
    assert finding.code == ("sale-barred" if barred else "sale-rule")
    assert finding.severity is (Severity.STOP if barred else Severity.NOTE)
    assert "1892" in finding.source


# NatureScot page: possessing or selling an unlawfully killed hare or rabbit in Scotland.
@pytest.mark.parametrize("kind", ["brown-hare", "mountain-hare", "rabbit"])
def test_in_scotland_an_unlawfully_killed_hare_or_rabbit_may_not_be_sold(kind: str) -> None:
    [finding] = sale_findings(species=kind, jurisdiction=SCO, on=date(2027, 5, 1))
    assert finding.severity is Severity.NOTE
    assert "offence to possess" in finding.sentence


# SI 2007/2007: from 1 August 2007. SR (NI) 2011/285: from 17 August 2011.
@pytest.mark.parametrize(("where", "first"), [(EW, date(2007, 8, 1)), (NI, date(2011, 8, 17))])
def test_game_birds_are_sold_all_the_year_since_their_limits_ended(where: str, first: date) -> None:
    [finding] = sale_findings(species="pheasant", jurisdiction=where, on=first)
    assert (finding.code, finding.severity) == ("sale-rule", Severity.NOTE)
    assert sale_findings(species="pheasant", jurisdiction=where, on=date(2000, 1, 1)) == ()


# Wildlife and Countryside Act 1981 s.6 and Sch.3: from memory, so it asks and does not stop.
def test_a_bar_that_was_only_remembered_asks() -> None:
    [finding] = sale_findings(species="mallard", jurisdiction=EW, on=date(2027, 3, 1))
    assert (finding.severity, finding.status) == (Severity.ASK, "memory")


@given(
    kind=st.sampled_from([one.id for one in all_species()]),
    where=st.sampled_from(sorted(JURISDICTIONS)),
    day=st.dates(),
)
def test_any_kind_place_and_day_can_be_asked(kind: str, where: str, day: date) -> None:
    found = (
        *sale_findings(species=kind, jurisdiction=where, on=day),
        *forbidden_day_findings(species=kind, killed_on=day, jurisdiction=where),
    )
    for finding in found:
        assert finding.source
        assert finding.status


def test_a_word_nobody_knows_is_refused() -> None:
    with pytest.raises(UnknownFact):
        sale_findings(species="dodo", jurisdiction=EW, on=date(2027, 1, 1))
    with pytest.raises(UnknownFact):
        sale_findings(species="rabbit", jurisdiction="france", on=date(2027, 1, 1))
