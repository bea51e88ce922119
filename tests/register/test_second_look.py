"""Looking twice: each stage keeps what it found, and another thing seen is a new reason to stop."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from gametrace.domain.deliveries import Basis, Delivery
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions
from gametrace.register.opening import Register, open_register


@pytest.fixture
def door(tmp_path: Path):
    """A register with a tutor, a technician and one roe in the skin."""
    with open_register(tmp_path / "door.register") as register:
        acts.set_up_larder(register, name="Ousemere larder", address="Lane 1", jurisdiction="england-wales")
        tutor = acts.enrol_person(register, name="Ada Birkett", initials="AB", role="tutor").code
        other = acts.enrol_person(register, by=tutor, name="Col Dacre", initials="CD", role="technician").code
        supplier = acts.add_supplier(register, by=tutor, name="J. Askew", address="Gill", route="wild-direct")
        delivery = Delivery(
            supplier=supplier.code, species="roe", sex="male", grams=16_000, basis=Basis(in_skin=True)
        )
        code = acts.receive_delivery(register, by=tutor, delivery=delivery).code
        yield register, tutor, other, code


def _lift_all(register: Register, by: str, code: str) -> None:
    for hold in questions.holds(register):
        if hold.code == code and hold.sort == "hold":
            acts.release_hold(register, by=by, hold=hold.id, reason="a vet looked at it")


def _placed(register: Register, code: str) -> int:
    return sum(hold.code == code for hold in questions.holds(register))


def test_another_node_found_bad_after_a_hold_was_lifted_holds_again(door) -> None:
    register, tutor, other, code = door
    first = [Answered("prescapular", "not so", "as large as a plum")]
    acts.examine_carcass(register, by=tutor, code=code, answers=first)
    _lift_all(register, other, code)
    acts.examine_carcass(register, by=tutor, code=code, answers=first)
    assert _placed(register, code) == 0, "nothing new was seen"
    acts.examine_carcass(register, by=tutor, code=code, answers=[*first, Answered("iliac", "not so", "pus")])
    assert _placed(register, code) == 1


def test_a_clean_look_out_of_the_skin_takes_back_nothing_found_at_the_door(door) -> None:
    register, tutor, _other, code = door
    acts.examine_carcass(register, by=tutor, code=code, answers=[Answered("smell", "not so", "sour")])
    acts.dress_carcass(
        register, by=tutor, code=code, outputs=[acts.Out("skin", 1_500)], tag=acts.TagHandOver("printed")
    )
    acts.examine_carcass(register, by=tutor, code=code, answers=[Answered("smell", "as it should be")])
    file = questions.animal_file(register, code)
    assert any("sour" in finding.sentence for finding in file.carcass.findings)
    assert {(look.stage, look.answer) for look in file.looks} == {
        ("in the skin", "not so"),
        ("out of the skin", "as it should be"),
    }


def test_an_estimate_starts_from_the_weight_and_the_dressing_it_was_received_in(house) -> None:
    code = house.receive(
        species="roe",
        sex="male",
        age_class="buck",
        grams=16_000,
        killed_on=date(2026, 10, 20),
        basis=Basis(in_skin=True, head_on=True, feet_on=True),
    )
    before = questions.animal_file(house.reg, code).estimates
    house.dress(code)
    assert before
    assert questions.animal_file(house.reg, code).estimates == before
