"""The set-up: whose register it is, who may do what, and how a leaver is forgotten."""

from pathlib import Path
from typing import Any

import pytest
from larder_house import Clock, House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


def test_the_first_person_is_one_who_may_enrol_the_others(tmp_path: Path) -> None:
    with open_register(tmp_path / "new.register", clock=Clock()) as reg:
        for role in ("student", "officer"):
            with pytest.raises(Refusal, match="may enrol the others"):
                acts.enrol_person(reg, name="Una", initials="U", role=role)
        assert acts.enrol_person(reg, name="Ida", initials="I", role="tutor").code == "P001"
        with pytest.raises(Refusal, match="Nobody has been chosen"):
            acts.enrol_person(reg, name="Una", initials="U", role="student")


def test_only_the_larder_and_the_first_person_are_written_by_nobody(tmp_path: Path) -> None:
    with open_register(tmp_path / "new.register", clock=Clock()) as reg:
        acts.set_up_larder(reg, name="Hob Lane", address="", jurisdiction="scotland")
        with pytest.raises(Refusal, match="Nobody"):
            acts.add_supplier(reg, by="", name="Perrin", address="", route="wild-direct")
        with pytest.raises(Refusal, match="Nobody"):
            acts.add_store(reg, by="", name="Chill", sort="chill", shelves=["Top"])


@pytest.mark.parametrize("by", ["student", "officer"])
def test_set_up_and_enrolling_are_for_tutor_and_technician(house: House, by: str) -> None:
    code = getattr(house, by)
    with pytest.raises(Refusal):
        acts.set_up_larder(house.reg, by=code, name="Mine", address="", jurisdiction="scotland")
    with pytest.raises(Refusal):
        acts.enrol_person(house.reg, by=code, name="Pal", initials="PA", role="tutor")
    with pytest.raises(Refusal):
        acts.forget_person(house.reg, by=code, person=house.technician, reason="left")


def test_a_practice_register_stays_one(tmp_path: Path) -> None:
    with open_register(tmp_path / "new.register", clock=Clock()) as reg:
        acts.set_up_larder(reg, name="Hob", address="", jurisdiction="scotland", is_practice=True)
        acts.set_up_larder(reg, name="Hob Lane", address="", jurisdiction="scotland")
        assert questions.larder(reg).is_practice
        assert questions.larder(reg).name == "Hob Lane"


def test_a_delivery_waits_for_the_jurisdiction(tmp_path: Path) -> None:
    with open_register(tmp_path / "new.register", clock=Clock()) as reg:
        tutor = acts.enrol_person(reg, name="Ida", initials="I", role="tutor").code
        supplier = acts.add_supplier(reg, by=tutor, name="Perrin", address="", route="wild-direct").code
        from gametrace.domain.deliveries import Delivery

        with pytest.raises(Refusal, match="which country's seasons"):
            acts.receive_delivery(reg, by=tutor, delivery=Delivery(supplier, "roe", grams=16_000))


BAD: list[tuple[Any, dict[str, Any], str]] = [
    (acts.set_up_larder, {"name": " ", "address": "", "jurisdiction": "scotland"}, "name"),
    (acts.set_up_larder, {"name": "x" * 10_000, "address": "", "jurisdiction": "scotland"}, "name"),
    (acts.set_up_larder, {"name": "Hob", "address": "", "jurisdiction": "mars"}, "jurisdiction"),
    (acts.enrol_person, {"name": "", "initials": "X", "role": "tutor"}, "name"),
    (acts.enrol_person, {"name": "Ida", "initials": "", "role": "tutor"}, "initials"),
    (acts.enrol_person, {"name": "Ida", "initials": "IDAMA", "role": "tutor"}, "initials"),
    (acts.enrol_person, {"name": "Ida", "initials": "I", "role": "boss"}, "role"),
    (acts.add_supplier, {"name": "\u200b", "address": "", "route": "wild-direct"}, "name"),
    (acts.add_supplier, {"name": "P", "address": "", "route": "drone"}, "route"),
    (acts.add_supplier, {"name": "P", "address": "", "route": "wild-direct", "origin": "moon"}, "origin"),
    (acts.add_store, {"name": "", "sort": "chill", "shelves": ["a"]}, "name"),
    (acts.add_store, {"name": "C", "sort": "oven", "shelves": ["a"]}, "sort"),
    (acts.add_store, {"name": "C", "sort": "chill"}, "rails"),
    (acts.add_store, {"name": "C", "sort": "chill", "rails": [("r", 0)]}, "rails"),
    (acts.add_store, {"name": "C", "sort": "chill", "rails": [("r", 10**6)]}, "rails"),
]


@pytest.mark.parametrize(("act", "given", "field"), BAD)
def test_a_set_up_that_cannot_be_is_refused_at_its_field(
    house: House, act: Any, given: dict[str, Any], field: str
) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        act(house.reg, by=house.tutor, **given)
    assert refused.value.field == field
    assert questions.seal(house.reg) == before


def test_a_leaver_is_forgotten_and_the_chain_stays_whole(house: House) -> None:
    hold = house.hold(house.receive(), by=house.student)
    acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="left the college")
    assert questions.check(house.reg) == ()
    leaver = next(person for person in questions.people(house.reg) if person.code == house.student)
    assert (leaver.name, leaver.initials, leaver.is_active) == ("name removed", house.student, False)
    assert next(one for one in questions.holds(house.reg) if one.id == hold).placed_by == house.student


@pytest.mark.file
def test_a_forgotten_name_is_nowhere_in_the_file(house: House) -> None:
    """Not in the journal, not in a free page, not in the write-ahead file."""

    def bytes_on_disk() -> bytes:
        return b"".join(path.read_bytes() for path in sorted(house.path.parent.iterdir()))

    for number in range(40):  # enough cards for the page to be split and rewritten
        acts.enrol_person(
            house.reg, by=house.tutor, name=f"Zebedee Quillfeather {number}", initials="ZQ", role="student"
        )
    house.receive()
    assert b"Quillfeather" in bytes_on_disk()
    for person in questions.people(house.reg):
        if person.name.startswith("Zebedee"):
            acts.forget_person(house.reg, by=house.tutor, person=person.code, reason="left")
    assert b"Quillfeather" not in bytes_on_disk()
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert questions.check(house.reg) == ()
    assert b"Quillfeather" not in bytes_on_disk()


def test_the_reason_for_forgetting_does_not_hold_the_name(house: House) -> None:
    with pytest.raises(Refusal, match="holds the name"):
        acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="una skerry has left")


def test_nobody_forgets_themselves_or_a_stranger_or_the_same_person_twice(house: House) -> None:
    with pytest.raises(Refusal, match="yourself"):
        acts.forget_person(house.reg, by=house.tutor, person=house.tutor, reason="left")
    acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="left")
    for person in (house.student, "P999", ""):
        with pytest.raises(Refusal, match="no such person"):
            acts.forget_person(house.reg, by=house.tutor, person=person, reason="left")


def test_a_leaver_s_code_is_never_given_again(house: House) -> None:
    acts.forget_person(house.reg, by=house.tutor, person=house.officer, reason="left")
    new = acts.enrol_person(house.reg, by=house.tutor, name="New", initials="N", role="student").code
    assert new == "P005"


def test_two_suppliers_of_one_name_are_told_apart(house: House) -> None:
    acts.add_supplier(house.reg, by=house.tutor, name="Perrin Ashdown", address="Else", route="wild-direct")
    with pytest.raises(Refusal, match="several things: S001 Perrin Ashdown; S002 Perrin Ashdown"):
        questions.trace(house.reg, "perrin ashdown")
    assert questions.trace(house.reg, "s002").kind == "supplier"
