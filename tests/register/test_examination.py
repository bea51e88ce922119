"""Looking at the body in its order: what is absent is not present; a second look replaces the first."""

from datetime import date
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions
from gametrace.register.examining import Mark

FINE, BAD, ABSENT, SKIPPED = "as it should be", "not so", "not present", "not looked at"
WHOLE = Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=True)


def codes(house: House, code: str) -> list[str]:
    return [finding.code for finding in questions.carcass(house.reg, code).findings]


def looks(house: House, code: str) -> dict[str, str]:
    return {one.point: one.answer for one in questions.animal_file(house.reg, code).looks}


@pytest.mark.parametrize(("point", "words"), [("mouth", "the head"), ("liver", "the pluck")])
def test_what_did_not_come_is_never_as_it_should_be(house: House, point: str, words: str) -> None:
    deer = house.receive()
    before = questions.seal(house.reg)
    for answer in (FINE, BAD):
        with pytest.raises(Refusal, match=f"{words} did not come with the body"):
            house.look(deer, (point, answer, "seen"))
    assert questions.seal(house.reg) == before
    house.look(deer, (point, ABSENT))
    assert looks(house, deer) == {point: ABSENT}
    assert house.state(deer) == "hanging"


def test_what_came_and_is_answered_not_present_is_asked_about(house: House) -> None:
    deer = house.receive(basis=WHOLE)
    house.look(deer, ("liver", ABSENT))
    assert "said-not-present" in codes(house, deer)


def test_a_head_that_was_looked_at_before_it_came_off_stands_as_it_was_seen(house: House) -> None:
    deer = house.receive(basis=WHOLE)
    house.look(deer, ("mandibular", BAD, "swollen"))
    acts.dress_carcass(
        house.reg, by=house.technician, code=deer, outputs=[acts.Out("head", 2_000)],
        tag=acts.TagHandOver("printed"), skin_off=False, feet_off=False, pluck_out=False,
    )  # fmt: skip
    house.look(deer, ("smell", FINE))
    assert any("swollen" in one.sentence for one in questions.carcass(house.reg, deer).findings)
    with pytest.raises(Refusal, match="the head did not come"):
        house.look(deer, ("mandibular", FINE))


def test_everything_as_it_should_be_finds_nothing_and_holds_nothing(house: House) -> None:
    deer = house.receive()
    house.look(deer, ("smell", FINE), ("condition", FINE), ("popliteal", FINE))
    assert house.state(deer) == "hanging"
    assert not [code for code in codes(house, deer) if code.startswith(("examination", "not-looked"))]


@pytest.mark.parametrize(
    ("given", "sign"),
    [
        ({}, "sign-tb"), ({}, "sign-foot-and-mouth"), ({}, "sign-anthrax"),
        ({"species": "wild-boar", "sex": "male", "age_class": "boar", "grams": 60_000}, "sign-swine-fever"),
        ({"species": "pheasant", "sex": "unknown", "age_class": "", "grams": 2_000}, "sign-avian-influenza"),
    ],
)  # fmt: skip
def test_a_notifiable_sign_holds_at_once_and_says_to_ring(
    house: House, given: dict[str, Any], sign: str
) -> None:
    animal = house.receive(**given)
    changes = house.look(animal, (sign, BAD, "lumps"))
    (stop,) = [one for one in changes.findings if one.code == "notifiable-suspicion"]
    assert "ring" in stop.what_to_do.casefold()
    assert house.state(animal) == "on hold"
    assert stop.sentence in [hold.reason for hold in questions.carcass(house.reg, animal).holds]
    with pytest.raises(Refusal):
        house.pack(animal)


def test_of_a_carcass_with_a_notifiable_sign_nothing_is_collected(house: House) -> None:
    deer = house.receive()
    skin = house.dress(deer).code
    house.look(deer, ("sign-tb", BAD, "lumps"))
    with pytest.raises(Refusal, match="on hold through"):
        acts.collect_by_products(
            house.reg,
            by=house.tutor,
            codes=[skin],
            on=date(2026, 11, 12),
            collector="Grice",
            document_number="1",
            destination="renderer",
        )


def test_a_second_look_at_a_point_replaces_the_first_and_leaves_the_hold_to_a_person(house: House) -> None:
    deer = house.receive()
    house.look(deer, ("smell", BAD, "sour"))
    house.look(deer, ("smell", FINE))
    assert looks(house, deer) == {"smell": FINE}
    assert "examination-not-so" not in codes(house, deer)
    assert house.state(deer) == "on hold"


def test_a_look_at_another_point_takes_back_nothing_of_the_first(house: House) -> None:
    deer = house.receive()
    house.look(deer, ("sign-tb", BAD, "lumps"))
    house.look(deer, ("condition", FINE))
    assert looks(house, deer) == {"sign-tb": BAD, "condition": FINE}
    assert "notifiable-suspicion" in codes(house, deer)
    live = acts.preview_examination(house.reg, code=deer, answers=[Answered("flies", FINE)])
    assert "notifiable-suspicion" in [one.code for one in live]


def test_the_same_thing_seen_again_brings_no_second_hold_and_keeps_its_reason(house: House) -> None:
    deer = house.receive()
    house.look(deer, ("dirt", BAD, "hair on the neck"))
    acts.answer_finding(
        house.reg, by=house.tutor, code=deer, reasons={"examination-not-so": "cut away at once"}
    )
    house.look(deer, ("dirt", BAD, "hair on the neck"), ("flies", FINE))
    assert questions.carcass(house.reg, deer).reasons["examination-not-so"] == "cut away at once"
    house.look(deer, ("smell", BAD, "sour"))
    house.look(deer, ("smell", BAD, "sour"))
    assert len(questions.carcass(house.reg, deer).holds) == 1


def test_findings_of_the_delivery_and_of_the_look_live_side_by_side_through_corrections(house: House) -> None:
    deer = house.receive(readings=(("haunch", 95),))
    house.look(deer, ("bleeding", BAD, "badly bled"))
    assert {"too-warm", "examination-not-so"} <= set(codes(house, deer))
    acts.amend_carcass(
        house.reg, by=house.tutor, code=deer, changes={"readings": (("haunch", 30),)}, reason="misread"
    )
    assert "too-warm" not in codes(house, deer)
    assert "examination-not-so" in codes(house, deer)
    acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=41_000, reason="misread")
    house.look(deer, ("bleeding", FINE))
    assert "examination-not-so" not in codes(house, deer)
    acts.amend_carcass(
        house.reg, by=house.tutor, code=deer, changes={"readings": (("haunch", 95),)}, reason="as first read"
    )
    assert "too-warm" in codes(house, deer)
    before = questions.animal_file(house.reg, deer)
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert questions.animal_file(house.reg, deer) == before


def test_what_was_passed_over_asks_one_reason(house: House) -> None:
    deer = house.receive()
    house.look(deer, ("smell", SKIPPED), ("flies", SKIPPED), reasons={"not-looked-at": "in a hurry"})
    assert codes(house, deer).count("not-looked-at") == 1
    assert questions.carcass(house.reg, deer).reasons["not-looked-at"] == "in a hurry"


def test_the_drawing_is_replaced_when_given_and_stays_when_not(house: House) -> None:
    deer = house.receive()
    house.look(deer, marks=[Mark(400, 500, "entry"), Mark(0, 1_000, "exit", "right")])
    house.look(deer, ("smell", FINE))
    assert [mark.what for mark in questions.animal_file(house.reg, deer).marks] == ["entry", "exit"]
    house.look(deer, marks=[Mark(1, 1, "bruise")])
    assert [mark.what for mark in questions.animal_file(house.reg, deer).marks] == ["bruise"]
    house.look(deer, ("smell", FINE), marks=[])
    assert questions.animal_file(house.reg, deer).marks == ()


@pytest.mark.parametrize(
    "mark", [Mark(-1, 0, "x"), Mark(0, 1_001, "x"), Mark(5, 5, " "), Mark(5, 5, "x" * 81)]
)
def test_a_mark_beside_the_beast_or_without_a_word_is_refused(house: House, mark: Mark) -> None:
    deer = house.receive()
    with pytest.raises(Refusal) as refused:
        house.look(deer, marks=[mark])
    assert refused.value.field == "marks"


def test_nothing_looked_at_and_a_point_of_another_animal_are_refused(house: House) -> None:
    deer = house.receive()
    with pytest.raises(Refusal, match="Nothing has been looked at"):
        house.look(deer)
    with pytest.raises(Refusal, match="not looked at on this animal"):
        house.look(deer, ("sign-swine-fever", BAD))
    with pytest.raises(Refusal, match="is not an animal"):
        house.look(house.pack(house.dressed()), ("smell", FINE))
    with pytest.raises(Refusal):
        house.look(deer, ("smell", BAD, "x" * 301))


# ------------------------------------------------------------------------------- the second decision


def test_the_second_decision_is_made_out_of_the_skin_and_once(house: House) -> None:
    deer = house.receive()
    with pytest.raises(Refusal, match="still in the skin"):
        acts.decide_again(house.reg, by=house.tutor, code=deer, decision=Decision.ACCEPT)
    house.dress(deer)
    acts.decide_again(house.reg, by=house.tutor, code=deer, decision=Decision.TRIM, reason="bruised shoulder")
    file = questions.animal_file(house.reg, deer)
    assert (file.second_decision, file.second_reason) == ("accept with trim", "bruised shoulder")
    assert file.carcass.decision == "accept"
    with pytest.raises(Refusal, match="decided twice already"):
        acts.decide_again(house.reg, by=house.tutor, code=deer, decision=Decision.ACCEPT)


@pytest.mark.parametrize(
    ("decision", "state"),
    [(Decision.HOLD, "on hold"), (Decision.SPECIMEN, "specimen"), (Decision.REJECT, "rejected")],
)
def test_the_second_decision_stops_what_was_cut_too(house: House, decision: Decision, state: str) -> None:
    deer = house.dressed()
    pack = house.pack(deer)
    with pytest.raises(Refusal, match="needs a reason"):
        acts.decide_again(house.reg, by=house.tutor, code=deer, decision=decision)
    acts.decide_again(house.reg, by=house.tutor, code=deer, decision=decision, reason="green under the skin")
    assert house.state(deer) == house.state(pack) == state


@pytest.mark.parametrize("first", [Decision.REJECT, Decision.SPECIMEN])
def test_what_was_refused_at_the_door_is_not_accepted_out_of_the_skin(house: House, first: Decision) -> None:
    deer = house.dressed(decision=first, decision_reason="gut shot")
    with pytest.raises(Refusal, match="stays so"):
        acts.decide_again(house.reg, by=house.tutor, code=deer, decision=Decision.ACCEPT)
