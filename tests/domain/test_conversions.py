"""Estimates between dressing states, against the weights printed in their sources."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.conversions import basis_of, estimate
from gametrace.domain.deliveries import Basis
from gametrace.facts import UnknownFact
from gametrace.facts.conversions import DRESSED, all_factors
from gametrace.facts.species import all_species


def guess(kind: str, sex: str, grams: int, from_basis: str, to_basis: str) -> Any:
    return estimate(species=kind, sex=sex, grams=grams, from_basis=from_basis, to_basis=to_basis)


PRINTED = [
    # Hunting school's balance: one buck, 16.00 kg gralloched, 3.19 kg of skin, head and feet.
    ("roe", "male", 16_000, "gralloched", "skinned", 12_810),
    # Weidwerk: one doe, 16.20 kg, 3.56 kg off.
    ("roe", "female", 16_200, "gralloched", "skinned", 12_640),
    # Rule of thumb: 21 kg live, 14 kg gralloched.
    ("roe", "unknown", 21_000, "live", "gralloched", 14_000),
    # Gun paper: 18 kg live, 10 kg clean.
    ("chinese-water-deer", "male", 18_000, "live", "clean", 10_000),
    # Fitzhenry et al. 2019: male 29.6 kg warm, 29.2 kg cold; female 25.2 and 24.7 kg.
    ("fallow", "male", 29_600, "skinned", "skinned-cold", 29_200),
    ("fallow", "female", 25_200, "skinned", "skinned-cold", 24_700),
    # The same, live to cold: 47.4 to 29.2 kg; 41.9 to 24.7 kg.
    ("fallow", "male", 47_400, "live", "skinned-cold", 29_200),
    ("fallow", "female", 41_900, "live", "skinned-cold", 24_700),
]


@pytest.mark.parametrize(("kind", "sex", "grams", "from_basis", "to_basis", "printed"), PRINTED)
def test_an_estimate_meets_the_animal_it_was_measured_on_within_rounding(
    kind: str, sex: str, grams: int, from_basis: str, to_basis: str, printed: int
) -> None:
    found = guess(kind, sex, grams, from_basis, to_basis)
    # Printed to a tenth of a per cent, or to four figures here: a twentieth of a per cent of the weight.
    assert abs(found.mid_grams - printed) <= grams // 2000 + 5


# Abstracts: Volpelli 2002 57.2-61.5 %, Massey 1985 58.6-61.8 %, Fitzhenry 2019 29.6 of 47.4 kg warm.
def test_the_range_spans_every_source_and_is_not_one_number() -> None:
    found = guess("fallow", "male", 50_000, "live", "skinned")
    assert (found.low_grams, found.high_grams) == (28_600, 31_225)
    assert "28.6 kg to 31.3 kg" in found.words
    assert "4 sources" in found.words


# Kay 1981 0.49-0.52 in Scotland; FAO X6529E 0.58-0.60 in New Zealand: the sources do not agree.
def test_red_deer_differ_by_source_so_the_range_is_wide() -> None:
    stag = guess("red", "male", 100_000, "live", "skinned")
    assert (stag.low_grams, stag.high_grams) == (49_000, 60_000)
    assert guess("red", "female", 100_000, "live", "skinned").high_grams == 53_000


def test_an_unknown_sex_takes_the_range_of_both() -> None:
    found = guess("roe", "unknown", 16_000, "gralloched", "skinned")
    assert found.low_grams < guess("roe", "male", 16_000, "gralloched", "skinned").low_grams
    assert "2 roe counted" in found.words


def test_no_factor_is_lent_from_one_kind_to_another() -> None:
    assert guess("muntjac", "male", 12_000, "live", "gralloched") is None
    assert guess("red-sika-hybrid", "male", 60_000, "live", "skinned") is None
    assert guess("wild-boar", "male", 90_000, "gralloched", "skinned") is None
    assert guess("roe", "male", 16_000, "gralloched", "gralloched") is None
    assert guess("roe", "male", 0, "gralloched", "skinned") is None


def test_it_is_called_an_estimate_and_names_its_source() -> None:
    found = guess("sika", "male", 50_000, "live", "gralloched")
    assert "an estimate" in found.words
    assert "no spread is published" in found.words
    assert "not a weight" in found.words
    assert "forj-2017-0027" in found.source
    assert found.status == "seen"


def test_a_factor_is_read_backwards_too() -> None:
    found = guess("roe", "male", 12_810, "skinned", "gralloched")
    assert abs(found.mid_grams - 16_000) <= 20


@pytest.mark.parametrize(
    ("basis", "named"),
    [
        (Basis(in_skin=True, head_on=True, feet_on=True), "gralloched"),
        (Basis(in_skin=True), "clean"),
        (Basis(in_skin=False), "skinned"),
        (Basis(in_skin=True, head_on=True), None),
        (Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=True), None),
    ],
)
def test_a_basis_maps_to_a_state_a_factor_speaks_of_or_to_none(basis: Basis, named: str | None) -> None:
    assert basis_of(basis) == named


@given(
    kind=st.sampled_from([one.id for one in all_species()]),
    sex=st.sampled_from(["male", "female", "unknown"]),
    grams=st.integers(-10, 500_000),
    from_basis=st.sampled_from(sorted(DRESSED)),
    to_basis=st.sampled_from(sorted(DRESSED)),
)
def test_any_estimate_is_a_range_round_its_middle(
    kind: str, sex: str, grams: int, from_basis: str, to_basis: str
) -> None:
    found = guess(kind, sex, grams, from_basis, to_basis)
    if found is not None:
        assert 0 <= found.low_grams <= found.mid_grams <= found.high_grams
        assert found.source


def test_words_nobody_knows_are_refused() -> None:
    with pytest.raises(UnknownFact, match="weight basis"):
        guess("roe", "male", 1, "hill", "skinned")
    with pytest.raises(UnknownFact, match="species"):
        guess("dodo", "male", 1, "live", "skinned")


def test_every_factor_is_for_named_species_and_takes_weight_off() -> None:
    for row in all_factors():
        assert row.species
        assert row.high < 10_000
