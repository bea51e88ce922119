"""What the pages on deer say of each kind, row by row, as the key and the words hold it."""

from __future__ import annotations

import pytest

from gametrace.facts.identification import age_signs, look_alikes, terms, traits_of
from gametrace.facts.sources import source
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called


def usual(kind: str, question: str) -> tuple[str, ...]:
    return next(one.usual for one in traits_of(kind) if one.question == question)


def note(kind: str, question: str) -> str:
    return next(one.note for one in traits_of(kind) if one.question == question)


# southwestfarmer.co.uk (British Deer Society figures), hcsdeerservices.co.uk, steveforsey.co.uk, stproc.net,
# priorshall.net, factspage.blogspot.com: the table of marks.
ROWS = [
    ("red", {"antlers": "branched", "rump": "buff-above-tail", "tail": "short-buff", "size": "large"}),
    ("sika", {"antlers": "branched", "rump": "white-heart", "tail": "short-white", "hock": "white-tuft"}),
    ("fallow", {"antlers": "palmate", "rump": "white-horseshoe", "tail": "long-striped"}),
    ("roe", {"antlers": "pearled", "tail": "none-seen", "hock": "dark-tuft", "face": "white-chin"}),
    ("muntjac", {"antlers": "pedicle-spikes", "tail": "wide-white-below", "hock": "nothing"}),
    ("chinese-water-deer", {"antlers": "none", "tusks": "long", "face": "button", "hock": "nothing"}),
]


@pytest.mark.parametrize(("kind", "marks"), ROWS, ids=[kind for kind, _ in ROWS])
def test_a_kind_usually_shows_what_its_pages_say(kind: str, marks: dict[str, str]) -> None:
    for question, answer in marks.items():
        assert answer in usual(kind, question), question


# The same pages, figures: points, brow tine, lengths.
def test_figures_of_the_marks_stand_in_their_notes() -> None:
    assert "sixteen points" in note("red", "antlers")
    assert "Eight points at most" in note("sika", "antlers")
    assert "16 to 19 cm" in note("fallow", "tail")
    assert "under 30 cm" in note("roe", "antlers")
    assert "Under 10 cm" in note("muntjac", "antlers")
    assert "6 or 8 cm" in note("chinese-water-deer", "tusks")


# reptileknowledge.com (after Britannica): the only deer with inguinal glands.
def test_water_deer_alone_have_glands_in_the_groin() -> None:
    assert "glands in the groin" in note("chinese-water-deer", "hock")


# biologyinsights.com: stag, hind, calf in Cervus; buck and doe in the rest.
@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("red", ("stag", "hind", "calf")),
        ("sika", ("stag", "hind", "calf")),
        ("fallow", ("buck", "doe", "fawn")),
        ("roe", ("buck", "doe", "kid")),
        ("muntjac", ("buck", "doe", "fawn")),
        ("chinese-water-deer", ("buck", "doe", "fawn")),
    ],
)
def test_each_kind_has_its_own_words_for_male_female_and_young(kind: str, words: tuple[str, ...]) -> None:
    one = species_called(kind)
    assert (one.males, one.females, one.young) == words


# thestalkingdirectory.co.uk, thread 69687: fallow bucks year by year.
def test_a_fallow_buck_has_a_word_for_every_year() -> None:
    names = {one.name: one for one in age_classes("fallow", "male")}
    years = {
        "fawn": "Under a year",
        "pricket": "Second year",
        "sorel": "Third year",
        "sore": "Fourth year",
        "buck of the first head": "Fifth year",
        "great buck": "Sixth year",
    }
    for name, year in years.items():
        assert names[name].note.startswith(year)
        assert source(names[name].source).id == "stalking-words"
        assert names[name].status == "seen"


# deernz.org: a hummel is a stag that grows no antlers; another glossary's castrate is not used.
def test_a_hummel_is_no_castrate() -> None:
    words = {one.id: one for one in terms("red")}
    assert "never grows antlers" in words["hummel"].meaning
    assert "castrated" in words["havier"].meaning


# reaseheathblog.org: roe have the full set by 13 months, muntjac and water deer just under 12.
@pytest.mark.parametrize(
    ("kind", "words"),
    [("roe", "thirteen months"), ("muntjac", "twelve months"), ("chinese-water-deer", "twelve months")],
)
def test_the_full_set_of_teeth_is_through_when_the_page_says(kind: str, words: str) -> None:
    assert any(words in one.says and one.source == "cheek-teeth" for one in age_signs(kind))


def test_what_is_from_memory_says_so() -> None:
    large = next(one for one in age_signs("red") if one.id == "full-set-large")
    assert large.status == "memory"
    assert "not seen" in source(large.source).note


# gallery-point.blogspot.com and hcsdeerservices.co.uk: the pairs that are confused.
def test_the_pairs_that_are_confused_name_their_animals() -> None:
    assert {one.id for one in look_alikes("sika")} == {"sika-fallow", "dark-fallow-sika", "red-sika"}
    pair = next(one for one in look_alikes("roe") if one.id == "roe-kid-muntjac")
    assert pair.names == ("roe kid", "muntjac")
