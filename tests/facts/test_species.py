"""The animals and the proper words for them."""

from __future__ import annotations

import pytest

from gametrace.facts import UnknownFact
from gametrace.facts.origins import FARMED_ORIGINS, ORIGIN_MEANINGS, ORIGINS, ROUTES
from gametrace.facts.species import age_classes, all_species, species

IDS = [
    "red",
    "sika",
    "red-sika-hybrid",
    "fallow",
    "roe",
    "muntjac",
    "chinese-water-deer",
    "wild-boar",
    "pheasant",
    "grey-partridge",
    "red-legged-partridge",
    "red-grouse",
    "black-grouse",
    "ptarmigan",
    "mallard",
    "woodcock",
    "snipe",
    "woodpigeon",
    "rabbit",
    "brown-hare",
    "mountain-hare",
]


def test_the_species_are_those_a_game_larder_meets() -> None:
    assert [one.id for one in all_species()] == IDS


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("red-deer", "red"),
        ("Fallow Deer", "fallow"),
        ("roe-deer", "roe"),
        ("sika-deer", "sika"),
        ("CWD", "chinese-water-deer"),
        ("chinese_water_deer", "chinese-water-deer"),
        ("boar", "wild-boar"),
    ],
)
def test_a_synonym_finds_the_species(said: str, meant: str) -> None:
    assert species(said).id == meant


@pytest.mark.parametrize("nonsense", ["", "   ", "unicorn", "x" * 10_000, "‮דצח", "'; drop table"])
def test_an_unknown_species_gets_a_sentence_with_the_known_ones(nonsense: str) -> None:
    with pytest.raises(UnknownFact, match="Use one of: red, sika") as caught:
        species(nonsense)
    assert len(caught.value.sentence) < 500


def test_people_read_plain_names() -> None:
    assert species("cwd").name == "Chinese water deer"
    assert species("fallow").name == "fallow"


# Names by age of male fallow: practitioner's list, thestalkingdirectory.co.uk thread 69687.
def test_a_male_fallow_goes_from_fawn_to_great_buck() -> None:
    ids = [one.id for one in age_classes("fallow", "male")]
    assert ids == [
        "fawn",
        "pricket",
        "sorel",
        "sore",
        "buck-of-the-first-head",
        "great-buck",
        "buck",
        "havier",
    ]


# Stag, hind and calf for red and sika; common practice, no source for the rest of the list.
@pytest.mark.parametrize("kind", ["red", "sika", "red-sika-hybrid"])
def test_red_and_sika_have_stags_and_hinds(kind: str) -> None:
    assert {"calf", "knobber", "spiker", "brocket", "stag"} <= {o.id for o in age_classes(kind, "male")}
    females = {one.id for one in age_classes(kind, "female")}
    assert females == {"calf", "yearling-hind", "hind", "milk-hind", "yeld-hind"}


@pytest.mark.parametrize("one", all_species(), ids=lambda one: one.id)
def test_every_species_has_an_age_for_either_sex_and_both_together(one) -> None:  # type: ignore[no-untyped-def]
    male = {age.id for age in age_classes(one.id, "male")}
    female = {age.id for age in age_classes(one.id, "female")}
    both = [age.id for age in age_classes(one.id, "unknown")]
    assert male
    assert female
    assert set(both) == male | female
    assert len(both) == len(set(both))
    assert one.males
    assert one.females
    assert one.young


def test_only_a_known_sex_is_taken() -> None:
    with pytest.raises(UnknownFact, match="no sex called 'stag'"):
        age_classes("red", "stag")


# What the origins mean: common practice, no source.
def test_origins_and_routes_have_words() -> None:
    assert set(ORIGINS) == {"wild-shot", "park", "field-farmed", "indoor-farmed", "unknown"}
    assert set(ORIGIN_MEANINGS) == set(ORIGINS)
    assert {"field-farmed", "indoor-farmed"} == FARMED_ORIGINS
    assert ROUTES["wild-direct"] == "wild, direct from the hunter"
    assert len(ROUTES) == 6
