"""The telephone and the camera: the card keeps saying what it says, a picture is known by its bytes."""

import hashlib

import pytest
from larder_house import House

from gametrace.domain.deliveries import Answer
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.examining import MOST_PICTURE_BYTES

JPEG, PNG, PDF = b"\xff\xd8\xff\xe0 card", b"\x89PNG\r\n\x1a\n card", b"%PDF-1.7 card"


def ring(house: House, code: str, about: str, answer: str = "at first light") -> None:
    acts.record_call(
        house.reg, by=house.technician, code=code, about=about, answer=answer, spoken_by="P. Ashdown"
    )


def attach(house: House, code: str, content: bytes, **given: str) -> str:
    what = given.pop("what", "declaration")
    return acts.attach_picture(
        house.reg, by=house.student, code=code, what=what, content=content, **given
    ).code


def test_what_nobody_can_read_is_a_call_to_make_and_the_card_stays_as_it_is(house: House) -> None:
    deer = house.receive(no_contamination=Answer.CANT_READ, kill_time="", kill_place="")
    file = questions.animal_file(house.reg, deer)
    assert file.calls_to_make == ("no_contamination", "kill_time", "kill_place")
    ring(house, deer, "no_contamination", "none seen")
    ring(house, deer, "kill_time")
    after = questions.animal_file(house.reg, deer)
    assert after.calls_to_make == ("kill_place",)
    assert after.carcass.statements == file.carcass.statements
    assert after.carcass.kill_time == ""
    assert after.carcass.findings == file.carcass.findings
    call = after.calls[0]
    assert (call.about, call.answer, call.spoken_by, call.taken_by) == (
        "no_contamination", "none seen", "P. Ashdown", "WP",
    )  # fmt: skip
    assert call.at == house.clock.now


def test_a_delivery_without_a_declaration_has_nothing_to_ring_about(house: House) -> None:
    deer = house.receive(has_declaration=False, kill_time="", kill_place="")
    assert questions.animal_file(house.reg, deer).calls_to_make == ()


@pytest.mark.parametrize(
    ("about", "answer", "spoken_by", "field"),
    [
        ("weather", "fine", "him", "about"),
        ("other", " ", "him", "answer"),
        ("other", "yes", "", "spoken_by"),
        ("other", "x" * 501, "him", "answer"), ("other", "yes", "x" * 121, "spoken_by"),
    ],
)  # fmt: skip
def test_a_call_without_its_words_is_refused(
    house: House, about: str, answer: str, spoken_by: str, field: str
) -> None:
    deer = house.receive()
    with pytest.raises(Refusal) as refused:
        acts.record_call(
            house.reg, by=house.tutor, code=deer, about=about, answer=answer, spoken_by=spoken_by
        )
    assert refused.value.field == field


@pytest.mark.parametrize(
    ("content", "kind"), [(JPEG, "image/jpeg"), (PNG, "image/png"), (PDF, "application/pdf")]
)
def test_a_picture_is_known_by_its_bytes_and_comes_back(house: House, content: bytes, kind: str) -> None:
    deer = house.receive()
    found = attach(house, deer, content, original_hash="ab" * 32)
    assert found == hashlib.sha256(content).hexdigest()
    assert questions.picture(house.reg, found) == (kind, content)
    (picture,) = questions.animal_file(house.reg, deer).pictures
    assert (picture.hash, picture.original_hash, picture.media_type) == (found, "ab" * 32, kind)
    with house.reg.store.reading() as connection:
        entry = connection.exec_driver_sql("SELECT text FROM entry ORDER BY seq DESC LIMIT 1").scalar_one()
    assert found in entry, "the hash is sealed"


@pytest.mark.parametrize(
    "content", [b"", b"GIF89a", b"PK\x03\x04", b"JFIF\xff\xd8\xff", b"photo.jpg", b"%PD"]
)
def test_what_is_no_picture_is_refused_whatever_it_is_called(house: House, content: bytes) -> None:
    deer = house.receive()
    before = questions.seal(house.reg)
    with pytest.raises(Refusal, match="neither a JPEG or PNG"):
        attach(house, deer, content)
    assert questions.seal(house.reg) == before


def test_a_picture_that_is_too_large_is_refused_and_one_byte_less_is_kept(house: House) -> None:
    deer = house.receive()
    most = JPEG + bytes(MOST_PICTURE_BYTES - len(JPEG))
    with pytest.raises(Refusal, match="6 MB fit"):
        attach(house, deer, most + b"x")
    assert attach(house, deer, most)
    assert questions.check(house.reg) == ()


def test_the_same_picture_twice_is_stored_once_and_shown_on_both(house: House) -> None:
    one, other = house.receive(), house.receive()
    assert attach(house, one, JPEG) == attach(house, other, JPEG) == attach(house, one, JPEG, what="tag")
    with house.reg.store.reading() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM attachment").scalar_one() == 1
    assert [p.what for p in questions.animal_file(house.reg, one).pictures] == ["declaration", "tag"]
    assert len(questions.animal_file(house.reg, other).pictures) == 1


def test_a_refused_picture_leaves_no_bytes_behind(house: House) -> None:
    with pytest.raises(Refusal):
        acts.attach_picture(house.reg, by=house.student, code="26-99999-X", what="tag", content=JPEG)
    with pytest.raises(Refusal):
        attach(house, house.receive(), JPEG, what="holiday")
    with house.reg.store.reading() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM attachment").scalar_one() == 0


def test_an_act_sent_twice_with_one_key_is_done_once_and_answers_the_same(house: House) -> None:
    deer = house.receive()
    acts.amend_supplier(house.reg, by=house.tutor, supplier=house.supplier, damage_rule="bought price")
    reg, by = house.reg, house.tutor
    for number, act in enumerate((
        lambda key: acts.attach_picture(reg, by=by, code=deer, what="tag", content=JPEG, key=key),
        lambda key: acts.raise_claim(reg, by=by, code=deer, grams=100, reason="shot", key=key),
        lambda key: acts.add_probe(reg, by=by, name="blue", key=key),
        lambda key: acts.store_failed(reg, by=by, store="C1", reason="tripped", key=key),
    )):  # fmt: skip
        if number == 3:
            acts.move_lot(reg, by=by, code=deer, to="C1.S1")
        first, again = act(f"key {number}"), act(f"key {number}")
        assert again.was_repeat
        assert again.created == first.created
        assert again.code == first.code
