"""Claims on the menu held against the records of every animal in the pot, with shares."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.domain.menu_claims import Answer
from gametrace.register import acts, questions
from gametrace.register.acts import Claim


@pytest.fixture
def pot(house: House) -> str:
    """Three parts fallow shot wild without lead, one part fallow from a park, shot with who knows what."""
    house.clock.go(days=3)
    wild = house.dressed(ammunition="not lead", kill_place="Long Wood, Netherby")
    park = house.dressed(origin="park", route="park-as-wild")
    return house.dish((house.pack(wild), 300), (house.pack(park), 100))


def check(house: House, code: str, *claims: tuple[str, str]) -> dict[str, tuple[Answer, Fraction]]:
    found = questions.menu_check(house.reg, code, [Claim(*one) for one in claims])
    return {one.claim.kind: (one.verdict, one.share(Answer.SHOWN)) for one in found.rulings}


def test_each_claim_is_shown_not_shown_or_contradicted_with_its_share(house: House, pot: str) -> None:
    answers = check(
        house,
        pot,
        ("wild", ""),
        ("species", "fallow"),
        ("place", "Netherby"),
        ("no-lead", ""),
        ("hung", "5"),
    )
    assert answers["wild"] == (Answer.NOT_SHOWN, Fraction(3, 4))
    assert answers["species"] == (Answer.SHOWN, Fraction(1))
    assert answers["place"] == (Answer.NOT_SHOWN, Fraction(3, 4))
    assert answers["no-lead"] == (Answer.NOT_SHOWN, Fraction(3, 4))
    assert answers["hung"] == (Answer.SHOWN, Fraction(1))
    assert check(house, pot, ("species", "roe"))["species"] == (Answer.CONTRADICTED, 0)


def test_a_line_is_printed_of_what_is_shown_alone(house: House, pot: str) -> None:
    claims = [Claim("species", "fallow"), Claim("no-lead"), Claim("hung", "5")]
    changes = acts.write_menu_line(house.reg, by=house.tutor, code=pot, claims=claims)
    assert questions.dish_file(house.reg, pot).menu_line == "fallow venison, hung 5 days"
    assert {one.code for one in changes.findings} == {"claim-shown", "claim-not-shown"}
    with pytest.raises(Refusal, match="contradict"):
        acts.write_menu_line(house.reg, by=house.tutor, code=pot, claims=[Claim("species", "roe")])
    assert questions.check(house.reg) == ()


def test_the_advice_on_lead_stands_where_it_is_lead_or_nobody_said(house: House, pot: str) -> None:
    """FSA, lead-shot game: food.gov.uk/safety-hygiene/lead-shot-game; deer is on its list."""
    (advice,) = questions.menu_check(house.reg, pot, []).advice
    assert "not stated for 25" in advice.sentence
    clean = house.pack(house.dressed(ammunition="not lead"))
    assert questions.menu_check(house.reg, clean, []).advice == ()


@pytest.mark.parametrize(
    "claim", [("tasty", ""), ("species", "unicorn"), ("place", " "), ("hung", "many"), ("hung", "0")]
)
def test_a_claim_no_record_can_answer_is_refused(house: House, pot: str, claim: tuple[str, str]) -> None:
    with pytest.raises(Refusal):
        check(house, pot, claim)


def test_days_hung_count_from_the_kill_to_the_first_cut(house: House) -> None:
    animal = house.dressed(killed_on=date(2026, 11, 10))
    house.clock.go(days=6)
    pack = house.pack(animal)
    (one,) = questions.menu_check(house.reg, pack, []).animals
    assert one.hung_days == 8
