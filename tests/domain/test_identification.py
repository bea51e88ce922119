"""Telling deer apart by eye: the key against the marks in its sources, and never certain."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.identification import candidates, cannot_be_told, leader, questions_left
from gametrace.facts import UnknownFact
from gametrace.facts.identification import hybrids, look_alikes, questions, terms, traits, traits_of

KINDS = ("red", "sika", "fallow", "roe", "muntjac", "chinese-water-deer")


def best(**answers: str) -> str:
    return candidates(_hyphened(answers))[0].species


def _hyphened(answers: dict[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): answer for name, answer in answers.items()}


# The key of the descriptive pages (southwestfarmer.co.uk, hcsdeerservices.co.uk, wildlifeobserver.co.uk).
KEY = [
    ({"antlers": "palmate"}, "fallow"),
    ({"tail": "long-striped", "flank": "spots-and-line"}, "fallow"),
    ({"antlers": "none", "tusks": "long"}, "chinese-water-deer"),
    ({"antlers": "none", "tusks": "none", "face": "button", "hock": "nothing"}, "chinese-water-deer"),
    ({"antlers": "pedicle-spikes"}, "muntjac"),
    ({"face": "black-v", "tail": "wide-white-below"}, "muntjac"),
    ({"tail": "none-seen", "rump": "white-no-tail", "face": "white-chin"}, "roe"),
    ({"antlers": "pearled"}, "roe"),
    ({"hock": "white-tuft", "rump": "white-heart"}, "sika"),
    ({"size": "large", "rump": "buff-above-tail", "hock": "like-the-coat"}, "red"),
]


@pytest.mark.parametrize(("answers", "kind"), KEY)
def test_the_marks_of_a_kind_put_it_first_and_nothing_speaks_against_it(
    answers: dict[str, str], kind: str
) -> None:
    first = candidates(answers)[0]
    assert first.species == kind
    assert first.against == ()
    assert "never certain" in first.words
    assert first.source


# Common practice, no source: complete pale flank line in fallow, separate spots in sika.
def test_a_complete_line_is_fallow_and_separate_spots_are_sika() -> None:
    assert best(flank="spots-and-line", size="medium") == "fallow"
    assert best(flank="spots", size="medium") == "sika"


# gallery-point.blogspot.com: melanistic fallow has no pale rump, menil no black border, white no marks.
@pytest.mark.parametrize(
    ("coat", "rump"), [("menil", "white-no-edge"), ("melanistic", "unmarked"), ("white", "unmarked")]
)
def test_the_colour_forms_of_fallow_are_not_held_against_it(coat: str, rump: str) -> None:
    answers = {"coat": coat, "rump": rump, "tail": "long-striped", "flank": "plain"}
    first = candidates(answers)[0]
    assert first.species == "fallow"
    assert first.against == ()


# hcsdeerservices.co.uk: muntjac has antlers and short tusks; water deer long tusks and never antlers.
def test_tusks_and_antlers_split_muntjac_from_water_deer() -> None:
    by_kind = {one.species: one for one in candidates({"antlers": "pedicle-spikes", "tusks": "short"})}
    assert by_kind["muntjac"].against == ()
    assert any("usually none" in line for line in by_kind["chinese-water-deer"].against)
    pair = {one.id for one in look_alikes("muntjac")}
    assert "muntjac-buck-water-deer-buck" in pair


# Common practice, no source: a sika-red hybrid cannot be settled by eye.
def test_a_hybrid_cannot_be_settled_by_eye() -> None:
    for answers in ({"size": "large", "hock": "white-tuft"}, {"hock": "white-tuft"}):
        cross = next(one for one in candidates(answers) if one.species == "red-sika-hybrid")
        assert "cannot be settled by eye" in cross.words
    assert hybrids()[0].between == ("red", "sika")
    assert all(one.species != "red-sika-hybrid" for one in candidates({"antlers": "palmate"}))


def test_each_answer_is_shown_for_or_against_with_its_words() -> None:
    roe = next(one for one in candidates({"antlers": "palmate", "size": "small"}) if one.species == "roe")
    assert any(line.startswith("How large? Small") for line in roe.fits)
    assert any("Flat and broad" in line and "usually short and rough" in line for line in roe.against)


def test_once_skinned_and_headless_nothing_is_told() -> None:
    answers = {"antlers": "palmate", "rump": "white-heart", "size": "medium"}
    assert candidates(answers, in_skin=False, head_on=False) == ()
    assert questions_left({}, in_skin=False, head_on=False) == ()
    assert "species as declared" in cannot_be_told(in_skin=False, head_on=False)[-1].what
    assert cannot_be_told(in_skin=True, head_on=True) == ()


def test_without_the_skin_its_marks_are_neither_asked_nor_used() -> None:
    assert {one.needs for one in questions_left({}, in_skin=False, head_on=True)} == {"none", "head"}
    with_rump = candidates({"rump": "white-heart", "antlers": "palmate"}, in_skin=False)
    assert with_rump == candidates({"antlers": "palmate"}, in_skin=False)
    assert candidates({}) == ()


def test_every_kind_has_a_word_at_every_question() -> None:
    for kind in KINDS:
        assert {one.question for one in traits_of(kind)} == {one.id for one in questions()}
    assert {one.species for one in traits()} == set(KINDS)
    assert traits_of("pheasant") == ()


def test_every_answer_is_usual_or_possible_in_some_kind() -> None:
    for asked in questions():
        shown = {a for one in traits() if one.question == asked.id for a in (*one.usual, *one.possible)}
        assert shown == {known for known, _ in asked.answers}, asked.id


# hockhamdmg.co.uk: twelve points make a royal. Common practice, no source: a ring must hang on a point.
def test_the_words_for_points_and_coats_are_there_by_kind() -> None:
    words = {one.id: one.meaning for one in terms("red")}
    assert "ring will hang" in words["point"]
    assert "twelve points" in words["royal"]
    assert "not a castrate" in words["hummel"]
    assert {"common-fallow", "menil", "melanistic", "white-fallow"} <= {one.id for one in terms("fallow")}


def test_a_question_or_answer_that_is_none_is_refused() -> None:
    with pytest.raises(UnknownFact, match="no question"):
        candidates({"smell": "sour"})
    with pytest.raises(UnknownFact, match="Use one of: palmate"):
        candidates({"antlers": "huge"})


@given(
    answers=st.fixed_dictionaries(
        {}, optional={q.id: st.sampled_from([known for known, _ in q.answers]) for q in questions()}
    ),
    in_skin=st.booleans(),
    head_on=st.booleans(),
)
def test_any_answers_rank_every_kind_by_what_speaks_against_it(
    answers: dict[str, str], in_skin: bool, head_on: bool
) -> None:
    found = candidates(answers, in_skin=in_skin, head_on=head_on)
    plain = [one for one in found if one.species in KINDS]
    assert len(plain) in (0, len(KINDS))
    assert [len(one.against) for one in plain] == sorted(len(one.against) for one in plain)
    for one in found:
        assert one.source
        assert one.words


def test_a_kind_leads_only_alone_and_never_where_a_hybrid_is_in_question() -> None:
    fallow = leader(candidates({"antlers": "palmate"}))
    assert fallow is not None
    assert fallow.species == "fallow"
    assert leader(candidates({"size": "medium"})) is None  # sika and fallow alike, and a hybrid besides
    assert leader(candidates({"flank": "plain"})) is None
    assert leader(candidates({"size": "large", "rump": "buff-above-tail"})) is None
    assert leader(candidates({"antlers": "palmate", "tail": "none-seen"})) is None  # each has one against
    assert leader(()) is None


# Common practice, no source: a hybrid is in question where marks of both its parents are seen.
def test_marks_that_red_and_sika_share_do_not_make_a_hybrid_of_a_fallow() -> None:
    found = candidates({"antlers": "none", "tusks": "none", "size": "medium", "rump": "white-horseshoe"})
    assert found[0].species == "fallow"
    assert all(one.species != "red-sika-hybrid" for one in found)


def test_each_mark_is_told_with_its_source_and_standing() -> None:
    fallow = next(
        one for one in candidates({"antlers": "palmate", "tusks": "none"}) if one.species == "fallow"
    )
    assert any(one.startswith("Antlers: ") and one.endswith("(read there).") for one in fallow.rests)
    assert any(one.startswith("Tusks: ") and "from memory, not read" in one for one in fallow.rests)
