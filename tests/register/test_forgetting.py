"""Suppliers and hunters are forgotten once their time is over: the name is out of the file, traces stay."""

from __future__ import annotations

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def on_disk(house: House) -> bytes:
    return b"".join(path.read_bytes() for path in sorted(house.path.parent.iterdir()))


def by_what(house: House) -> dict[str, str]:
    return {one.what: one.code for one in questions.kept_names(house.reg)}


def test_a_name_is_kept_while_its_records_are(house: House) -> None:
    house.receive()
    for code in by_what(house).values():
        with pytest.raises(Refusal, match="kept until 12 Nov 2029") as refused:
            acts.forget_card(house.reg, by=house.tutor, code=code, reason="asked to")
        assert "telephone" in str(refused.value)


def test_after_its_time_the_name_is_nowhere_in_the_file_and_the_trace_is_whole(house: House) -> None:
    name = "Zebedee Quillfeather"
    supplier = acts.add_supplier(
        house.reg, by=house.tutor, name=name, address="Quill End", phone="01632 960417", route="wild-direct"
    ).code
    code = house.receive(supplier=supplier, trained_person=f"{name} junior")
    whole = questions.trace(house.reg, code)
    house.clock.go(days=3 * 365 + 2)
    for kept in questions.kept_names(house.reg):
        if name in kept.name:
            assert kept.may_go(house.reg.today())
            acts.forget_card(house.reg, by=house.tutor, code=kept.code, reason="three years are over")
    for words in (b"Quillfeather", b"Quill End", b"960417"):
        assert words not in on_disk(house)
    after = questions.trace(house.reg, code)
    assert after.animals[0].supplier == "name removed"
    assert (after.animals[0].share, after.balance) == (whole.animals[0].share, whole.balance)
    assert questions.carcass(house.reg, code).trained_person.startswith(("H0", "name removed"))
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert questions.check(house.reg) == ()
    assert b"Quillfeather" not in on_disk(house)
    assert supplier not in {one.code for one in questions.kept_names(house.reg)}
    with pytest.raises(Refusal, match="No name is held"):
        acts.forget_card(house.reg, by=house.tutor, code=supplier, reason="again")


@pytest.mark.file
def test_a_telephone_number_can_go_at_any_time(house: House) -> None:
    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=house.supplier, phone="01632 960999", reason="given"
    )
    house.receive()
    assert b"960999" in on_disk(house)
    acts.amend_supplier(house.reg, by=house.tutor, supplier=house.supplier, phone="", reason="asked to")
    assert b"960999" not in on_disk(house)
    assert questions.check(house.reg) == ()


def test_the_reason_must_not_hold_the_name_and_only_a_tutor_lets_it_go(house: House) -> None:
    house.clock.go(days=1)
    code = by_what(house)["supplier"]  # nothing ever came of them
    with pytest.raises(Refusal, match="holds the name"):
        acts.forget_card(house.reg, by=house.tutor, code=code, reason="perrin ashdown asked")
    with pytest.raises(Refusal, match="technician may not"):
        acts.forget_card(house.reg, by=house.technician, code=code, reason="asked")
    acts.forget_card(house.reg, by=house.tutor, code=code, reason="asked")


def test_the_last_day_is_kept_and_the_next_is_free(house: House) -> None:
    house.receive()
    kept = questions.kept_names(house.reg)[0]
    assert kept.keep_until is not None
    assert not kept.may_go(kept.keep_until)
    assert kept.may_go(kept.keep_until.replace(day=kept.keep_until.day + 1))
