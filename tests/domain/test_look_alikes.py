"""Look-alikes mark by mark, against the table of confusions in the sources of the marks."""

from __future__ import annotations

import pytest

from gametrace.domain.look_alikes import differences, pair_called
from gametrace.facts import UnknownFact
from gametrace.facts.identification import all_look_alikes, question


def by_mark(pair_id: str):
    return {one.question: one for one in differences(pair_called(pair_id))}


# southwestfarmer.co.uk, stproc.net, wildlifeobserver.co.uk: what parts sika from fallow.
def test_sika_and_fallow_part_by_tail_hock_flank_and_antlers() -> None:
    marks = by_mark("sika-fallow")
    assert {"tail", "hock", "flank", "antlers", "rump"} <= set(marks)
    assert marks["hock"].one.words == "A white tuft, obvious."
    assert marks["tail"].other.words == "Long, with a black stripe."
    assert marks["flank"].may_overlap
    assert not marks["tail"].may_overlap
    assert "size" not in marks


# gallery-point.blogspot.com: melanistic fallow has no pale rump, menil no black border, white no marks.
def test_dark_menil_and_white_fallow_are_shown_as_they_are_not_as_the_common_form() -> None:
    marks = by_mark("dark-fallow-sika")
    assert marks["rump"].one.answers == ("unmarked", "white-no-edge")
    assert set(marks["coat"].one.answers) == {"melanistic", "menil", "white"}
    assert "flank" not in marks or marks["flank"].may_overlap


# hcsdeerservices.co.uk: neither doe has antlers; the tusks part the bucks from the does of water deer.
def test_does_of_muntjac_and_water_deer_are_not_parted_by_antlers_and_the_bucks_are() -> None:
    assert "antlers" not in by_mark("muntjac-doe-water-deer")
    bucks = by_mark("muntjac-buck-water-deer-buck")
    assert bucks["antlers"].other.answers == ("none",)
    assert bucks["tusks"].one.answers == ("short",)
    assert bucks["tusks"].other.answers == ("long",)


def test_a_roe_kid_is_not_parted_from_a_muntjac_by_its_size_or_spots() -> None:
    marks = by_mark("roe-kid-muntjac")
    assert "size" not in marks
    assert "flank" not in marks
    assert marks["eye-gland"].other.answers == ("large",)


@pytest.mark.parametrize("pair", all_look_alikes(), ids=lambda pair: pair.id)
def test_every_pair_differs_somewhere_and_every_mark_says_what_it_rests_on(pair) -> None:
    found = differences(pair)
    assert found
    assert [one.may_overlap for one in found] == sorted(one.may_overlap for one in found)
    for one in found:
        for side in (one.one, one.other):
            assert side.rests_on.endswith(")") or side.rests_on == "common practice, no source"
            for answer in side.answers:
                assert question(one.question).words(answer)


def test_a_pair_that_is_none_is_refused() -> None:
    with pytest.raises(UnknownFact, match="no pair"):
        pair_called("red-boar")
