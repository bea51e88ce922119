"""PINs: set, given, forgotten, tried; the lock they put on a name; and the second person."""

from __future__ import annotations

from datetime import timedelta

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal, Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import look_at_register, open_register


def again(house: House) -> None:
    """Close the register and open it anew: nobody has given a PIN yet."""
    house.reg.close()
    house.reg = open_register(house.path, clock=house.clock, create=False)


def wrong(house: House, person: str, pin: str = "9999") -> str:
    with pytest.raises(Refusal) as refused:
        acts.sign_in(house.reg, person=person, pin=pin)
    return str(refused.value)


def test_a_larder_without_pins_works_as_before(house: House) -> None:
    acts.sign_in(house.reg, person=house.student)
    again(house)
    house.hold(house.receive(), by=house.student)
    assert not any(one.has_pin for one in questions.people(house.reg))


def test_a_name_with_a_pin_writes_nothing_until_the_pin_was_given(house: House) -> None:
    acts.set_pin(house.reg, by=house.technician, pin="2580")
    house.receive()  # whoever sets a PIN has given it
    again(house)
    with pytest.raises(Refusal, match="has a PIN"):
        house.receive()
    house.hold(questions.deliveries(house.reg)[0].code, by=house.student)  # others are not asked for theirs
    acts.sign_in(house.reg, person=house.technician, pin="2580")
    house.receive()
    acts.sign_out(house.reg)
    with pytest.raises(Refusal, match="has a PIN"):
        house.receive()


def test_neither_the_pin_nor_its_hash_is_in_a_sealed_entry(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="48151623")
    with house.reg.store.reading() as connection:
        entries = "\n".join(connection.exec_driver_sql("SELECT text FROM entry").scalars())
        kept = connection.exec_driver_sql("SELECT hash FROM pin").scalar_one()
    assert kept.startswith("$argon2id$")
    assert "48151623" not in entries + kept
    assert "argon2" not in entries
    last = entries.splitlines()[-1]
    assert '"kind":"pin.set"' in last
    assert f'"by":"{house.tutor}"' in last


@pytest.mark.parametrize(
    "pin", ["", "123", "123456789", "12a4", "٢٥٨٠", " 2580", "2 580", "0000", "1234", "8765"]
)
def test_what_is_no_pin_or_everybody_s_is_refused(house: House, pin: str) -> None:
    with pytest.raises(Refusal) as refused:
        acts.set_pin(house.reg, by=house.tutor, pin=pin)
    assert refused.value.field == "pin"


def test_wrong_pins_slow_down_and_the_wait_outlives_the_program(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    again(house)
    for _ in range(3):
        assert "not the PIN" in wrong(house, house.tutor)
    assert "5 seconds" in wrong(house, house.tutor)
    assert "5 seconds" in wrong(house, house.tutor, "2580")  # the right one has to wait as well
    again(house)
    assert "5 seconds" in wrong(house, house.tutor)
    house.clock.go(seconds=5)
    assert "not the PIN" in wrong(house, house.tutor)
    assert "10 seconds" in wrong(house, house.tutor)
    house.clock.go(seconds=10)
    acts.sign_in(house.reg, person=house.tutor, pin="2580")
    assert "not the PIN" in wrong(house, house.tutor)  # what was given right starts anew


def test_a_day_of_wrong_pins_tries_a_hundredth_of_the_four_digit_ones(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    tried, until = 0, house.clock.now + timedelta(days=1)
    with house.reg.store.writing() as connection:  # a hash that is quick to hold against
        connection.exec_driver_sql("UPDATE pin SET hash = 'x'")
    while house.clock.now < until:
        tried += "not the PIN" in wrong(house, house.tutor)
        house.clock.go(minutes=1)
    assert tried < 120


def test_a_clock_set_back_neither_frees_nor_shuts_out_for_long(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    for _ in range(3):
        wrong(house, house.tutor)
    house.clock.go(days=-400)
    assert "not the PIN" in wrong(house, house.tutor)
    assert "wrong PINs" in wrong(house, house.tutor)
    house.clock.go(minutes=16)
    acts.sign_in(house.reg, person=house.tutor, pin="2580")


def test_a_changed_pin_has_to_be_given_anew_elsewhere(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    with open_register(house.path, clock=house.clock) as other:
        acts.sign_in(other, person=house.tutor, pin="2580")
        acts.set_pin(house.reg, by=house.tutor, pin="7913")
        with pytest.raises(Refusal, match="has a PIN"):
            acts.set_pin(other, by=house.tutor, pin="1470")
        with pytest.raises(Refusal, match="not the PIN"):
            acts.sign_in(other, person=house.tutor, pin="2580")


def test_a_forgotten_pin_is_taken_away_by_a_tutor_and_a_student_s_by_a_technician(house: House) -> None:
    for person in (house.tutor, house.technician, house.student):
        acts.set_pin(house.reg, by=person, pin="2580")
    for by, person in ((house.student, house.technician), (house.technician, house.tutor)):
        with pytest.raises(Refusal, match="not yours"):
            acts.clear_pin(house.reg, by=by, person=person)
    acts.clear_pin(house.reg, by=house.technician, person=house.student)
    acts.clear_pin(house.reg, by=house.tutor, person=house.technician)
    acts.clear_pin(house.reg, by=house.tutor, person=house.tutor)
    assert not any(one.has_pin for one in questions.people(house.reg))
    with pytest.raises(Refusal, match="no PIN to take away"):
        acts.clear_pin(house.reg, by=house.tutor, person=house.student)
    assert b"$argon2id$" not in b"".join(path.read_bytes() for path in house.path.parent.iterdir())


@pytest.mark.file
def test_a_leaver_s_hash_goes_with_the_name(house: House) -> None:
    acts.set_pin(house.reg, by=house.student, pin="2580")
    acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="left")
    assert b"$argon2id$" not in b"".join(path.read_bytes() for path in house.path.parent.iterdir())
    assert questions.check(house.reg) == ()


def test_the_tables_are_the_same_when_played_again(house: House) -> None:
    acts.set_pin(house.reg, by=house.student, pin="2580")
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    acts.clear_pin(house.reg, by=house.tutor, person=house.student)
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    again(house)
    acts.sign_in(house.reg, person=house.tutor, pin="2580")


def test_where_pins_are_in_use_a_release_takes_two_pins(house: House) -> None:
    hold = house.hold(house.receive(), by=house.student)

    def release() -> None:
        acts.release_hold(house.reg, by=house.tutor, hold=hold, reason="looked at it")

    acts.set_pin(house.reg, by=house.technician, pin="2580")  # from now on PINs are in use
    with pytest.raises(Refusal, match="your name has no PIN"):
        release()
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    with pytest.raises(Refusal, match="US, the first of the two, has no PIN"):
        release()
    acts.set_pin(house.reg, by=house.student, pin="1470")
    release()


def test_the_laboratory_s_answer_takes_two_pins_as_well(house: House) -> None:
    code = house.boar()
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    with pytest.raises(Refusal, match="WP, the first of the two"):
        house.answer_lab(code, "negative")
    house.answer_lab(code, "positive")  # a lock is never put off


def lifted_today(house: House) -> list[str]:
    return [duty.sentence for duty in questions.today(house.reg) if "taken away outside" in duty.sentence]


def test_a_sole_tutor_who_forgot_is_let_in_by_whoever_has_the_file_and_everyone_sees_it(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    again(house)
    for _ in range(3):
        wrong(house, house.tutor)
    acts.lift_pin(house.reg, initials="im")
    acts.sign_in(house.reg, person=house.tutor)
    acts.set_pin(house.reg, by=house.tutor, pin="4815")  # a new PIN hides nothing
    (said,) = lifted_today(house)
    assert said.startswith("The PIN of IM was taken away outside the window on 12 Nov 2026, 09:00")
    assert "nobody knows by whom" in str(questions.day_page(house.reg).groups)
    house.clock.go(days=15)
    assert lifted_today(house) == []
    assert questions.check(house.reg) == ()


@pytest.mark.parametrize(
    ("initials", "said"), [("WP", "has no PIN"), ("XX", "Nobody here has"), ("P009", "Nobody here has")]
)
def test_only_a_pin_that_is_there_is_taken_away(house: House, initials: str, said: str) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    before = questions.seal(house.reg)
    with pytest.raises(Refusal, match=said):
        acts.lift_pin(house.reg, initials=initials)
    assert questions.seal(house.reg) == before


def test_of_two_with_the_same_initials_the_code_is_asked(house: House) -> None:
    twin = acts.enrol_person(house.reg, by=house.tutor, name="Ines Mole", initials="IM", role="tutor").code
    acts.set_pin(house.reg, by=twin, pin="2580")
    with pytest.raises(Refusal, match="2 people have"):
        acts.lift_pin(house.reg, initials="IM")
    acts.lift_pin(house.reg, initials=twin)
    assert not any(one.has_pin for one in questions.people(house.reg))


def test_a_register_that_is_only_looked_at_keeps_its_pins(house: House) -> None:
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    house.close()
    with look_at_register(house.path, clock=house.clock) as looked, pytest.raises(Trouble, match="looked at"):
        acts.lift_pin(looked, initials="IM")
    house.reg = open_register(house.path, clock=house.clock, create=False)
    assert [one.initials for one in questions.people(house.reg) if one.has_pin] == ["IM"]
