"""By-products: both readings where sources differ, the load's paper, and two years."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.by_products import (
    Confirmed,
    category_findings,
    category_of,
    keep_papers_until,
    missing_on_document,
)
from gametrace.domain.findings import Severity
from gametrace.facts import UnknownFact
from gametrace.facts.by_products import by_product_rules, by_products, category, readings

SETTLED = {"skin": Confirmed(2, "R. Holt, environmental health", date(2026, 9, 1))}


# Regulation (EC) 1069/2009 Art.10 against the trading-standards leaflets on deer (category 2).
@pytest.mark.parametrize("item", ["skin", "head", "feet"])
def test_where_sources_differ_both_readings_are_shown_and_asked_about(item: str) -> None:
    assert {one.category for one in readings(item)} == {2, 3}
    [finding] = category_findings(item)
    assert (finding.code, finding.severity) == ("category-not-settled", Severity.ASK)
    assert "Category 3" in finding.sentence
    assert "Category 2" in finding.sentence
    assert "1069/2009" in finding.source
    assert "leaflet" in finding.source


def test_what_the_kitchen_confirmed_once_is_not_asked_again() -> None:
    assert category_of("skin") == 3
    assert category_of("skin", SETTLED) == 2
    assert category_findings("skin", SETTLED) == ()
    assert category_findings("head", SETTLED) != ()


def test_where_nobody_differs_nothing_is_asked() -> None:
    for item in ("gut", "bone", "spoiled"):
        assert category_findings(item) == ()


# Regulation (EC) 1069/2009 Art.8(a)(v), from memory: suspected of a disease that can be caught.
def test_a_suspicion_stops_whatever_was_confirmed() -> None:
    [finding] = category_findings("skin", SETTLED, disease_suspected=True)
    assert (finding.code, finding.severity) == ("by-product-suspected", Severity.STOP)
    assert "Dispose of nothing" in finding.what_to_do


# netregs.org.uk, handling and storage: the words on the bins.
def test_each_category_has_its_words_for_the_bin() -> None:
    assert [category(n).bin_label for n in (1, 2, 3)] == [
        "for disposal only",
        "not for animal consumption",
        "not for human consumption",
    ]


# food.gov.uk animal by-products; netregs.org.uk transporting; hants.gov.uk disposal by butchers.
@pytest.mark.parametrize(
    ("rule", "standing", "word"),
    [
        ("gralloch-in-the-field", "seen", "outside the rules"),
        ("once-in-the-larder", "seen", "never goes back to food"),
        ("container", "seen", "leak-proof"),
        ("not-a-waste-note", "seen", "waste transfer note"),
        ("catering-waste", "memory", "category 3"),
        ("weekly-twenty-kilos", "seen", "20 kg"),
    ],
)
def test_each_rule_keeps_its_standing(rule: str, standing: str, word: str) -> None:
    held = next(one for one in by_product_rules() if one.id == rule)
    assert held.status == standing
    assert word in held.name


# Regulation (EU) 142/2011 Annex VIII Ch. III: six things on the document.
def test_what_the_document_lacks_is_named_in_its_order() -> None:
    assert len(missing_on_document({})) == 6
    fields = ("origin", "carrier", "destination", "description", "day", "signature")
    full = dict.fromkeys(fields, "x")
    assert missing_on_document(full) == ()
    assert missing_on_document(full | {"carrier": "  "}) == ("carrier",)


# The same, Ch. III(5): two years at least.
@pytest.mark.parametrize(
    ("day", "until"),
    [(date(2026, 11, 25), date(2028, 11, 25)), (date(2028, 2, 29), date(2030, 3, 1))],
)
def test_papers_are_kept_two_years(day: date, until: date) -> None:
    assert keep_papers_until(day) == until


@given(day=st.dates(max_value=date(9990, 1, 1)))
def test_any_paper_is_kept_two_years_and_a_day_at_most_beyond(day: date) -> None:
    assert 730 <= (keep_papers_until(day) - day).days <= 732


def test_a_thing_or_category_nobody_knows_is_refused() -> None:
    with pytest.raises(UnknownFact):
        category_findings("antler dust")
    with pytest.raises(UnknownFact, match="category called '4'"):
        category_of("skin", {"skin": Confirmed(4, "x", date(2026, 1, 1))})


def test_every_default_is_one_of_its_readings() -> None:
    for one in by_products():
        assert not readings(one.id) or one.category in {held.category for held in readings(one.id)}
