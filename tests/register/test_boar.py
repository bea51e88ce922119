"""A wild boar from the door to its result: everything of it waits, and nothing but the result lifts that.

Trichinella: Regulation (EU) 2015/1375 as retained, articles 2 and 3; a negative result before use.
"""

from typing import Any

import pytest
from larder_house import DRESSED, House

from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions

NEGATIVE, POSITIVE = "negative", "positive"


def sorts(house: House, code: str) -> list[str]:
    return sorted(h.sort for h in questions.carcass(house.reg, code).holds if h.released_at is None)


def test_the_whole_beast_and_every_later_lot_wait(house: House) -> None:
    boar = house.boar(basis=Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=True))
    assert sorts(house, boar) == ["result"]
    taken_off = acts.dress_carcass(
        house.reg, by=house.technician, code=boar, tag=acts.TagHandOver("printed"),
        outputs=[acts.Out("skin", 6_000), acts.Out("head", 5_000), acts.Out("pluck", 3_000)],
    ).created  # fmt: skip
    dried = acts.reweigh(house.reg, by=house.technician, code=boar, grams=45_500).code
    binned = house.bin(boar, 100)
    for lot in (*taken_off, dried, binned):
        assert house.state(lot) == "on hold"
        assert "waiting for the laboratory" in questions.lot(house.reg, lot).state_reason
    with pytest.raises(Refusal, match="waiting for the laboratory"):
        house.pack(boar)


@pytest.mark.parametrize("decision", [Decision.ACCEPT, Decision.TRIM, Decision.HOLD, Decision.SPECIMEN])
def test_whatever_is_decided_at_the_door_it_waits_for_the_result(house: House, decision: Decision) -> None:
    boar = house.boar(basis=DRESSED, decision=decision, decision_reason="as seen")
    assert "result" in sorts(house, boar)
    for hold in questions.carcass(house.reg, boar).holds:
        with pytest.raises(Refusal) if hold.sort != "hold" else _nothing():
            acts.release_hold(house.reg, by=house.tutor, hold=hold.id, reason="looks fine")
    with pytest.raises(Refusal, match=r"cannot be cut|laboratory"):
        house.pack(boar)


class _nothing:  # reads as a word in the line above
    def __enter__(self) -> None: ...
    def __exit__(self, *_: object) -> None: ...


def test_nobody_lifts_the_wait_by_hand(house: House) -> None:
    boar = house.boar()
    (hold,) = questions.carcass(house.reg, boar).holds
    for by in (house.tutor, house.technician):
        with pytest.raises(Refusal, match="waits for the laboratory"):
            acts.release_hold(house.reg, by=by, hold=hold.id, reason="please")
    assert house.state(boar) == "on hold"


def test_a_negative_result_by_a_second_person_lifts_the_wait_and_is_a_paper(house: House) -> None:
    boar = house.boar(basis=DRESSED)
    before = questions.carcass(house.reg, boar)
    with pytest.raises(Refusal, match="person who holds the boar"):
        house.answer_lab(boar, NEGATIVE, by=house.technician)
    with pytest.raises(Refusal, match="student may not"):
        house.answer_lab(boar, NEGATIVE, by=house.student)
    with pytest.raises(Refusal, match="reference"):
        house.answer_lab(boar, NEGATIVE, reference=" ")
    house.answer_lab(boar, NEGATIVE)
    after = questions.carcass(house.reg, boar)
    assert house.state(boar) == "hanging"
    assert "boar-result-awaited" not in [one.code for one in after.findings]
    assert "boar-result-negative" in [one.code for one in after.findings]
    assert before.evidence != after.evidence == "complete"
    assert questions.check_for_plate(house.reg, house.pack(boar))
    with pytest.raises(Refusal, match="waits for no result"):
        house.answer_lab(boar, POSITIVE)


def test_another_hold_stays_when_the_result_comes(house: House) -> None:
    boar = house.boar(basis=DRESSED)
    house.hold(boar, reason="blown")
    house.answer_lab(boar, NEGATIVE)
    assert sorts(house, boar) == ["hold"]


def test_a_positive_result_locks_it_and_all_made_of_it_for_ever(house: House) -> None:
    boar = house.boar()
    skin = house.dress(boar).code
    house.answer_lab(boar, POSITIVE)
    assert house.state(boar) == house.state(skin) == "locked"
    assert house.state(house.bin(boar, 1_000)) == "locked"
    for hold in questions.carcass(house.reg, boar).holds:
        for by in (house.tutor, house.technician):
            with pytest.raises(Refusal):
                acts.release_hold(house.reg, by=by, hold=hold.id, reason="please")
    for result in (NEGATIVE, POSITIVE):
        with pytest.raises(Refusal, match="positive and stays"):
            house.answer_lab(boar, result, by=house.tutor)
    with pytest.raises(Refusal, match="locked for ever"):
        house.pack(boar)
    acts.amend_carcass(house.reg, by=house.tutor, code=boar, changes={"tag": "B 9"}, reason="misread")
    assert house.state(boar) == "locked"
    assert questions.animal_file(house.reg, boar).laboratory_result == POSITIVE
    assert questions.check(house.reg) == ()


def test_a_positive_result_may_be_entered_by_whoever_opens_the_letter(house: House) -> None:
    boar = house.boar()
    house.answer_lab(boar, POSITIVE, by=house.technician)
    assert house.state(boar) == "locked"


@pytest.mark.parametrize("result", ["", "awaited", "neg", "Negative"])
def test_a_result_is_negative_or_positive(house: House, result: str) -> None:
    with pytest.raises(Refusal, match="negative or positive"):
        house.answer_lab(house.boar(), result)


def test_its_skin_is_not_collected_while_it_waits_and_leaves_when_locked(house: House) -> None:
    boar = house.boar()
    skin = house.dress(boar).code
    given: dict[str, Any] = {
        "by": house.tutor, "codes": [skin], "on": house.reg.today(), "collector": "Grice",
        "document_number": "CD 4", "destination": "as the authority said",
    }  # fmt: skip
    with pytest.raises(Refusal, match="waiting for the laboratory"):
        acts.collect_by_products(house.reg, **given)
    house.answer_lab(boar, POSITIVE)
    acts.collect_by_products(house.reg, **given)


def test_a_deer_that_turns_out_to_be_a_boar_waits_from_then_on(house: House) -> None:
    beast = house.dressed(grams=60_000)
    pack = house.pack(beast)
    acts.amend_carcass(
        house.reg, by=house.student, code=beast, reason="misread",
        changes={"species": "wild-boar", "sex": "male", "age_class": "boar"},
    )  # fmt: skip
    assert house.state(beast) == house.state(pack) == "on hold"
    assert "result" in sorts(house, beast)


def test_a_slip_of_the_species_does_not_hold_a_deer_for_ever(house: House) -> None:
    beast = house.boar(grams=40_000)
    acts.amend_carcass(
        house.reg, by=house.student, code=beast, reason="misread",
        changes={"species": "fallow", "sex": "female", "age_class": "doe"},
    )  # fmt: skip
    assert house.state(beast) == "on hold", "a person lifts it"
    (hold,) = questions.carcass(house.reg, beast).holds
    with pytest.raises(Refusal, match="You placed this hold"):
        acts.release_hold(house.reg, by=house.technician, hold=hold.id, reason="a doe")
    acts.release_hold(house.reg, by=house.tutor, hold=hold.id, reason="a doe")
    assert house.state(beast) == "hanging"
    acts.amend_carcass(
        house.reg, by=house.student, code=beast, reason="a boar after all",
        changes={"species": "wild-boar", "sex": "male", "age_class": "boar"},
    )  # fmt: skip
    assert "result" in sorts(house, beast), "and a boar waits again"


def test_every_holder_is_one_of_those_who_may_not_enter_the_result(house: House) -> None:
    beast = house.boar()
    for species, sex, age in (("fallow", "male", ""), ("wild-boar", "male", "boar")):
        acts.amend_carcass(
            house.reg, by=house.tutor, code=beast, reason="misread",
            changes={"species": species, "sex": sex, "age_class": age},
        )  # fmt: skip
    assert sorts(house, beast).count("result") == 2
    for by in (house.tutor, house.technician):
        with pytest.raises(Refusal, match="person who holds the boar"):
            house.answer_lab(beast, NEGATIVE, by=by)
    third = acts.enrol_person(house.reg, by=house.tutor, name="Eli Voss", initials="EV", role="tutor").code
    house.answer_lab(beast, NEGATIVE, by=third)
    assert sorts(house, beast) == []


def test_a_result_survives_a_rebuild_and_a_correction(house: House) -> None:
    boar = house.boar(basis=DRESSED)
    house.answer_lab(boar, NEGATIVE)
    acts.amend_carcass(house.reg, by=house.student, code=boar, changes={"kill_place": "Wet Moor"}, reason="x")
    assert house.state(boar) == "hanging"
    before = questions.animal_file(house.reg, boar)
    acts.rebuild(house.reg)
    assert questions.animal_file(house.reg, boar) == before
    assert questions.check(house.reg) == ()


@pytest.mark.parametrize(
    ("sex", "age", "name"),
    [
        ("male", "boar", "wild boar, male"),
        ("male", "", "wild boar, male"),
        ("female", "sow", "wild boar sow"),
    ],
)
def test_a_boar_is_called_what_it_is_and_nothing_twice(house, sex: str, age: str, name: str) -> None:
    assert questions.carcass(house.reg, house.boar(sex=sex, age_class=age)).title == name


def test_a_locked_boar_is_not_skinned(house: House) -> None:
    boar = house.boar()
    house.answer_lab(boar, POSITIVE)
    with pytest.raises(Refusal, match="locked for ever"):
        house.dress(boar)
