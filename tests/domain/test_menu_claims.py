"""What a menu says, held against every animal in the pot."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.menu_claims import AnimalInPot, Answer, Claim, judge_claim, lead_findings
from gametrace.domain.menu_line import menu_line
from gametrace.facts import UnknownFact
from gametrace.facts.menu import CLAIMS

ROE = AnimalInPot("A-1", Fraction(3, 4), "roe", "wild-shot", ("Nether Wood", "Borsetshire"), "not lead", 10)
FARMED = AnimalInPot("A-2", Fraction(1, 4), "red", "field-farmed", ("Home Farm",), "lead", 5)
UNKNOWN = AnimalInPot("A-3", Fraction(1, 4))
ALL = [
    Claim("wild"),
    Claim("species", "roe"),
    Claim("place", "nether  wood"),
    Claim("no-lead"),
    Claim("hung", "10"),
]


# Food Safety Act 1990 ss.14-15, Regulation 1169/2011 Art.7 (from memory): what is said must be true.
@pytest.mark.parametrize("claim", ALL, ids=lambda claim: claim.kind)
def test_a_claim_is_shown_not_shown_or_contradicted_for_each_animal_with_shares(claim: Claim) -> None:
    assert judge_claim(claim, [replace(ROE, share=Fraction(1))]).verdict == Answer.SHOWN
    unknown = judge_claim(claim, [ROE, UNKNOWN])
    assert unknown.verdict == Answer.NOT_SHOWN
    assert unknown.share(Answer.SHOWN) == Fraction(3, 4)
    assert unknown.finding().severity == Severity.ASK
    other = judge_claim(claim, [ROE, FARMED])
    if claim.kind == "place":  # the one place may lie within the other
        assert other.verdict == Answer.NOT_SHOWN
    else:
        assert other.verdict == Answer.CONTRADICTED
        assert "contradicted for 25.0 %" in other.finding().sentence
        assert "A-2" in other.finding().sentence


# Common practice, no source: a park is enclosed; its deer are neither shown wild nor farmed.
@pytest.mark.parametrize(
    ("origin", "wild", "farmed", "park"),
    [
        ("wild-shot", Answer.SHOWN, Answer.CONTRADICTED, Answer.CONTRADICTED),
        ("park", Answer.NOT_SHOWN, Answer.CONTRADICTED, Answer.SHOWN),
        ("field-farmed", Answer.CONTRADICTED, Answer.SHOWN, Answer.CONTRADICTED),
        ("indoor-farmed", Answer.CONTRADICTED, Answer.SHOWN, Answer.CONTRADICTED),
        ("unknown", Answer.NOT_SHOWN, Answer.NOT_SHOWN, Answer.NOT_SHOWN),
        ("", Answer.NOT_SHOWN, Answer.NOT_SHOWN, Answer.NOT_SHOWN),
    ],
)
def test_wild_farmed_and_park_by_origin(origin: str, wild: Answer, farmed: Answer, park: Answer) -> None:
    animal = [AnimalInPot("A", Fraction(1), origin=origin)]
    said = [judge_claim(Claim(kind), animal).verdict for kind in ("wild", "farmed", "park")]
    assert said == [wild, farmed, park]


def test_venison_is_any_deer_and_no_boar() -> None:
    venison = Claim("species", "venison")
    assert judge_claim(venison, [ROE, FARMED]).verdict == Answer.SHOWN
    assert judge_claim(venison, [replace(ROE, species="wild-boar")]).verdict == Answer.CONTRADICTED


def test_an_empty_pot_shows_nothing_and_an_unknown_claim_is_refused() -> None:
    assert judge_claim(Claim("wild"), []).verdict == Answer.NOT_SHOWN
    assert "no animal is known" in judge_claim(Claim("wild"), []).finding().sentence
    with pytest.raises(UnknownFact, match="no claim"):
        judge_claim(Claim("organic"), [])
    with pytest.raises(ValueError):
        judge_claim(Claim("hung", "ten"), [ROE])


def test_a_line_is_printed_only_from_what_is_shown() -> None:
    whole = menu_line(ALL, [replace(ROE, share=Fraction(1))])
    assert whole.text == "wild roe venison from nether wood, hung 10 days, no lead shot"
    assert whole.left_off == ()
    mixed = menu_line(ALL, [ROE, FARMED])
    assert mixed.text == "venison"
    assert len(mixed.left_off) == len(ALL)
    assert menu_line(ALL, [ROE, UNKNOWN]).text == "game"
    assert menu_line([], [ROE]).text == "venison"
    assert menu_line([], [replace(ROE, species="wild-boar")]).text == "wild boar"
    assert menu_line([], [ROE, replace(UNKNOWN, species="pheasant")]).text == "game"


# FSA, lead-shot game: deer is on its list; advice for frequent eaters, children and pregnancy.
def test_the_lead_advice_comes_where_ammunition_is_lead_or_unknown() -> None:
    assert lead_findings([ROE]) == ()
    (found,) = lead_findings([ROE, FARMED])
    assert "lead for 25.0 %" in found.sentence
    assert "Deer is on its list" in found.sentence
    assert "FSA" in found.source
    assert "not stated for 25.0 %" in lead_findings([ROE, UNKNOWN])[0].sentence


@given(st.sampled_from(CLAIMS), st.lists(st.integers(1, 50), min_size=1, max_size=6), st.data())
def test_the_shares_of_the_answers_are_the_whole_pot(
    kind: str, grams: list[int], data: st.DataObject
) -> None:
    value = {"hung": "7", "species": "roe", "place": "X"}.get(kind, "")
    animals = [
        replace(
            data.draw(st.sampled_from([ROE, FARMED, UNKNOWN])), number=str(n), share=Fraction(g, sum(grams))
        )
        for n, g in enumerate(grams)
    ]
    ruling = judge_claim(Claim(kind, value), animals)
    assert sum(ruling.share(answer) for answer in Answer) == 1
    assert (ruling.verdict == Answer.SHOWN) == (ruling.share(Answer.SHOWN) == 1)
